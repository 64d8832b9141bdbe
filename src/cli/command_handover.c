/*
 * plimsoll handover: one page on a diver's last dive for the doctor. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/names.h>

#include "cli/diver_file.h"
#include "cli/ledger.h"
#include "cli/run_logs.h"

/* Dives of this long before the last one are asked of a ledger [ms]: two days, and a day for those that were long. */
#define LEDGER_BACK_MS INT64_C(259200000)

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
    int64_t start_utc_ms = info->start.local_ms - (int64_t)info->start.offset_min * 60000;
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

static enum plm_status entries_tell(struct plm_report *report, const struct plm_entry *list, size_t count)
{
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < count && status == PLM_STATUS_OK; i++) {
        const struct plm_dive_span *span = &list[i].exposure.span;
        const struct plm_figures *figures = &list[i].figures;
        struct plm_report_exposure one = {.duration_s = (double)span->wet_to_ms / 1e3,
                                          .max_depth_m = (double)NAN,
                                          .surfacing_gradient_pct = (double)NAN,
                                          .cns_pct = (double)NAN};
        one.start = (struct plm_stamp){span->start_utc_ms + (int64_t)span->offset_min * 60000, span->offset_min, true,
                                       true, true};
        if (list[i].has_figures) {
            one.max_depth_m = figures->max_depth_m;
            one.surfacing_gradient_pct = figures->surfacing_gradient_pct;
            one.cns_pct = figures->cns_pct;
        }
        status = plm_report_earlier(report, &one, 1);
    }
    return status;
}

/* Dives that the ledger knows before the last one. Returns: false when reported. */
static bool ledger_tell(struct handover_run *run)
{
    struct plmi_cli_call *call = run->call;
    const char *diver = call->settings.diver != NULL ? call->settings.diver : run->diver;
    struct plmi_cli_ledger ledger;
    struct plm_entries *entries = NULL;
    size_t count = 0;
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
    enum plm_status status =
        plm_ledger_entries(&entries, ledger.file, diver, run->last_utc_ms - LEDGER_BACK_MS, run->last_utc_ms + 1);
    if (status == PLM_STATUS_OK) {
        const struct plm_entry *list = plm_entries_get(entries, &count);
        status =
            count > 0 ? entries_tell(run->output.report, list, count) : plm_report_earlier(run->output.report, NULL, 0);
    }
    plm_entries_free(entries);
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
