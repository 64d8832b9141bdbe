/*
 * plimsoll handover: one page on a diver's last dive for the doctor. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "cli/run_logs.h"

static const char *set_format(struct plmi_cli_settings *settings, const char *value)
{
    if (!plmi_cli_format_known(PLM_REPORT_HANDOVER, value))
        return "text or html";
    settings->format = value;
    return NULL;
}

static const char *set_diver(struct plmi_cli_settings *settings, const char *value)
{
    settings->diver = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "text|html", "a page of text, or one of HTML that prints on A4", set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz", plmi_cli_set_output},
    {"diver", 0, "NAME", "only the dives of this diver, where the logs name several", set_diver},
    {"ascii", 0, NULL, "draw the picture of the dive without letters beyond ASCII; so too where the locale has none", plmi_cli_set_ascii},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_model, &plmi_cli_options_reading, NULL};

struct handover_run {
    struct plmi_cli_call *call;
    struct plmi_cli_output output;
    size_t taken, others;
};

static bool dive_take(void *context, const struct plm_debriefed *debriefed, enum plmi_cli_exit *exit)
{
    struct handover_run *run = context;
    const char *wanted = run->call->settings.diver, *diver = plm_dive_info_get(debriefed->dive)->diver;
    if (wanted != NULL && (diver == NULL || strcmp(wanted, diver) != 0)) {
        run->others++;
        return true;
    }
    if (plm_report_add(run->output.report, debriefed) != PLM_STATUS_OK) {
        *exit = PLMI_CLI_EXIT_TROUBLE;
        return false;
    }
    run->taken++;
    return true;
}

static enum plmi_cli_exit handover_run(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct handover_run run = {.call = call};
    struct plm_debrief_options debrief = plmi_cli_debrief_options(settings);
    debrief.schedules = false;
    debrief.review.cost = false;   /* a handover tells what was, not what it cost */
    if (!plmi_cli_output_open(&run.output, call, PLM_REPORT_HANDOVER, settings->format != NULL ? settings->format : "text"))
        return PLMI_CLI_EXIT_TROUBLE;
    enum plmi_cli_exit exit = plmi_cli_logs_walk(call, &debrief, dive_take, &run);
    if (run.taken == 0 && exit < PLMI_CLI_EXIT_TROUBLE) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, run.others > 0 ? "the logs hold no dive of %s" : "the logs hold no dive that can be told",
                            settings->diver);
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    if (exit < PLMI_CLI_EXIT_TROUBLE && !plmi_cli_output_finish(&run.output))
        exit = PLMI_CLI_EXIT_TROUBLE;
    plmi_cli_output_free(&run.output);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_handover = {
    .name = "handover",
    .operands = "LOG...",
    .summary = "Writes one page on a diver's last dive for the diving doctor or the emergency service: facts, no diagnosis",
    .operands_min = 1,
    .operands_max = -1,
    .options = groups,
    .run = handover_run,
};
