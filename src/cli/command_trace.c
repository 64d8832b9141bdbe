/*
 * plimsoll trace: the replay of one dive, sample by sample. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"
#include "cli/run_logs.h"

static const char *set_no_schedule(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->no_schedule = true;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "", "a table, or one JSON object a line; csv unless told", plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
    {"no-schedule", 0, NULL,
     "leave out the columns of time to surface, no-stop time and the cost of a minute, for speed", set_no_schedule},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_carried, &plmi_cli_options_model,
                                                        &plmi_cli_options_reading, NULL};

struct trace_run {
    struct plmi_cli_call *call;
    struct plmi_cli_output output;
    bool written;
};

/* A table holds one dive; a second one is only reported. */
static bool dive_take(void *context, const struct plm_debriefed *debriefed, enum plmi_cli_exit *exit)
{
    struct trace_run *run = context;
    if (run->written) {
        plmi_cli_talk_usage(&run->call->talk, PLM_LEVEL_NOTE,
                            "%s holds more dives than one; the first was traced, --dive takes another",
                            run->call->operands[0]);
        return false;
    }
    run->written = true;
    if (plm_report_add(run->output.report, debriefed) == PLM_STATUS_OK) {
        return true;
    }
    *exit = PLMI_CLI_EXIT_TROUBLE;
    return false;
}

static enum plmi_cli_exit trace_run(struct plmi_cli_call *call)
{
    struct trace_run run = {.call = call};
    struct plm_debrief_options debrief = plmi_cli_debrief_options(&call->settings);
    debrief.replay_only = true;
    if (!plmi_cli_output_open(&run.output, call, PLM_REPORT_TRACE, call->settings.format)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plmi_cli_exit exit = plmi_cli_logs_walk(call, &debrief, dive_take, &run);
    if (exit < PLMI_CLI_EXIT_TROUBLE && !plmi_cli_output_finish(&run.output)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    plmi_cli_output_free(&run.output);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_trace = {
    .name = "trace",
    .operands = "LOG",
    .summary = "Writes the replay of one dive: depth, ceiling, gradients, oxygen and tensions at every sample",
    .operands_min = 1,
    .operands_max = 1,
    .reads = true,
    .report = PLM_REPORT_TRACE,
    .options = groups,
    .run = trace_run,
};
