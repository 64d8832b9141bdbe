/*
 * plimsoll debrief: what happened on each dive, and what was exceeded. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"
#include "cli/run_logs.h"
#include "cli/write_edited.h"

static const char *set_findings(struct plmi_cli_settings *settings, const char *value)
{
    settings->findings_format = value;
    return plmi_cli_format_expected(settings, PLM_REPORT_FINDINGS, value);
}

static const char *set_plan(struct plmi_cli_settings *settings, const char *value)
{
    settings->plan = value;
    return NULL;
}

static const char *set_write_edited(struct plmi_cli_settings *settings, const char *value)
{
    settings->write_edited = value;
    return value[0] != '\0' ? NULL : "the name of a folder";
}

static const char *set_verbose(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->verbose = true;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "",
     "how the answer is written: text for people, json with everything, csv with one row a dive, html as one page with "
     "pictures",
     plmi_cli_set_format},
    {"findings", 0, "csv", "only the findings, one row each", set_findings},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
    {"plan", 0, "FILE",
     "what was planned, in any format that is read; else the plan that a card names, else the one in the log",
     set_plan},
    {"fail-on", 0, "note|caution|serious|never",
     "least severity of a finding that makes the exit status 1; caution unless told", plmi_cli_set_fail_on},
    {"write-edited", 0, "DIR",
     "write the edited dives that costs were found with into DIR, a UDDF log each; for one LOG at a time",
     set_write_edited},
    {"verbose", 0, NULL, "tell how the log was read, and of each finding what it means and what to ask the diver",
     set_verbose},
    {"ascii", 0, NULL, "draw the picture of the dive without letters beyond ASCII; so too where the locale has none",
     plmi_cli_set_ascii},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_carried, &plmi_cli_options_model,
                                                        &plmi_cli_options_reading, NULL};

struct debrief_run {
    struct plmi_cli_call *call;
    struct plmi_cli_output output;
};

static bool any_fails(const struct plmi_cli_settings *settings, const struct plm_findings *findings)
{
    size_t count;
    const struct plm_finding *list = plm_findings_get(findings, &count);
    for (size_t i = 0; i < count && !settings->fail_never; i++) {
        if (list[i].severity >= settings->fail_on) {
            return true;
        }
    }
    return false;
}

static bool dive_take(void *context, const struct plm_debriefed *debriefed, enum plmi_cli_exit *exit)
{
    struct debrief_run *run = context;
    if (plm_report_add(run->output.report, debriefed) != PLM_STATUS_OK) {
        *exit = PLMI_CLI_EXIT_TROUBLE;
        return false;
    }
    if (run->call->settings.write_edited != NULL && !plmi_cli_edited_write(run->call, debriefed)) {
        *exit = PLMI_CLI_EXIT_TROUBLE;
        return false;
    }
    if (any_fails(&run->call->settings, debriefed->findings)) {
        *exit = plmi_cli_worse(*exit, PLMI_CLI_EXIT_FOUND);
    }
    return true;
}

static enum plmi_cli_exit debrief_run(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct debrief_run run = {.call = call};
    struct plm_debrief_options debrief = plmi_cli_debrief_options(settings);
    debrief.schedules = false; /* no report of a debrief shows the times to surface of every sample */
    if (settings->write_edited != NULL && call->operand_count > 1) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "--write-edited takes one LOG at a time; nothing was read");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    bool rows_only = settings->findings_format != NULL;
    if (!plmi_cli_output_open(&run.output, call, rows_only ? PLM_REPORT_FINDINGS : PLM_REPORT_DEBRIEF,
                              rows_only ? settings->findings_format : settings->format)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plmi_cli_exit exit = plmi_cli_logs_walk(call, &debrief, dive_take, &run);
    if (exit < PLMI_CLI_EXIT_TROUBLE && !plmi_cli_output_finish(&run.output)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    plmi_cli_output_free(&run.output);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_debrief = {
    .name = "debrief",
    .operands = "LOG...",
    .summary = "Tells what happened on each dive: what was exceeded, tissue loading, decompression, oxygen and gas",
    .operands_min = 1,
    .operands_max = -1,
    .reads = true,
    .report = PLM_REPORT_DEBRIEF,
    .options = groups,
    .run = debrief_run,
};
