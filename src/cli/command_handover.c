/*
 * plimsoll handover: one page on a diver's last dive for the doctor. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/names.h>
#include <plimsoll/report_ledger.h>

#include "cli/diver_file.h"
#include "cli/ledger.h"
#include "cli/run_logs.h"

static const char *set_diver(struct plmi_cli_settings *settings, const char *value)
{
    settings->diver = value;
    return plmi_cli_diver_expected(value);
}

static const char *set_ledger(struct plmi_cli_settings *settings, const char *value)
{
    settings->ledger = value;
    settings->carry = true;
    return value[0] != '\0' ? NULL : "the name of a file";
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "", "a page of text, or one of HTML that prints on A4", plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
    {"diver", 0, "NAME", "only the dives of this diver, and those that name no diver", set_diver},
    {"ledger", 0, "FILE",
     "begin with what the diver carries by this exposure ledger, and tell its dives of the 48 hours before too",
     set_ledger},
    {"ascii", 0, NULL, "draw the picture of the dive without letters beyond ASCII; so too where the locale has none",
     plmi_cli_set_ascii},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_model, &plmi_cli_options_reading,
                                                        NULL};

struct handover_run {
    struct plmi_cli_call *call;
    struct plmi_cli_output output;
    size_t taken, others;
    char diver[128];     /* that the logs name; "" none   */
    int64_t last_utc_ms; /* latest start; INT64_MIN none known */
};

static void last_note(struct handover_run *run, const struct plm_dive_info *info)
{
    int64_t start_utc_ms = plm_stamp_utc_ms(&info->start);
    if (info->diver != NULL && strlen(info->diver) < sizeof run->diver) {
        memcpy(run->diver, info->diver, strlen(info->diver) + 1);
    }
    if (info->start.known && info->start.has_clock && info->start.has_zone && start_utc_ms > run->last_utc_ms) {
        run->last_utc_ms = start_utc_ms;
    }
}

static bool dive_take(void *context, const struct plm_debriefed *debriefed, enum plmi_cli_exit *exit)
{
    struct handover_run *run = context;
    const char *wanted = run->call->settings.diver, *diver = plm_dive_info_get(debriefed->dive)->diver;
    if (wanted != NULL && diver != NULL && !plm_name_same(wanted, diver)) {
        run->others++;
        return true;
    }
    if (plm_report_add(run->output.report, debriefed) != PLM_STATUS_OK) {
        *exit = PLMI_CLI_EXIT_TROUBLE;
        return false;
    }
    last_note(run, plm_dive_info_get(debriefed->dive));
    run->taken++;
    return true;
}

/* Dives that the ledger knows before the last one. Returns: false when reported. */
static bool ledger_tell(struct handover_run *run)
{
    struct plmi_cli_call *call = run->call;
    const char *diver = call->settings.diver != NULL ? call->settings.diver : run->diver;
    struct plmi_cli_ledger ledger;
    if (!call->settings.carry) {
        return true;
    }
    if (diver[0] == '\0' || run->last_utc_ms == INT64_MIN) {
        plmi_cli_talk_usage(
            &call->talk, PLM_LEVEL_WARNING,
            "the ledger is not asked for earlier dives: diver, start or zone of the last dive is not known");
        return true;
    }
    if (!plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_READ)) {
        return false;
    }
    enum plm_status status = plm_report_ledger_earlier(run->output.report, ledger.file, diver, run->last_utc_ms);
    plmi_cli_ledger_close(&ledger);
    return status == PLM_STATUS_OK;
}

static enum plmi_cli_exit handover_run(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct handover_run run = {.call = call, .last_utc_ms = INT64_MIN};
    struct plm_debrief_options debrief = plmi_cli_debrief_options(settings);
    debrief.schedules = false;
    debrief.review.cost = false; /* a handover tells what was, not what it cost */
    if (!plmi_cli_output_open(&run.output, call, PLM_REPORT_HANDOVER, settings->format)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plmi_cli_exit exit = plmi_cli_logs_walk(call, &debrief, dive_take, &run);
    if (run.taken == 0 && exit < PLMI_CLI_EXIT_TROUBLE) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR,
                            run.others > 0 ? "the logs hold no dive of %s" : "the logs hold no dive that can be told",
                            settings->diver);
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    if (exit < PLMI_CLI_EXIT_TROUBLE && !ledger_tell(&run)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    if (exit < PLMI_CLI_EXIT_TROUBLE && !plmi_cli_output_finish(&run.output)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    plmi_cli_output_free(&run.output);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_handover = {
    .name = "handover",
    .operands = "LOG...",
    .summary =
        "Writes one page on a diver's last dive for the diving doctor or the emergency service: facts, no diagnosis",
    .operands_min = 1,
    .operands_max = -1,
    .reads = true,
    .report = PLM_REPORT_HANDOVER,
    .options = groups,
    .run = handover_run,
};
