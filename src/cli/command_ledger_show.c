/*
 * plimsoll ledger show: a diver's days, oxygen over runs of days, and dives. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include <plimsoll/report_ledger.h>

#include "cli/ledger.h"
#include "cli/run_logs.h"

static const char *set_from(struct plmi_cli_settings *settings, const char *value)
{
    return plm_stamp_parse(value, &settings->from) ? NULL : "a date as 2031-05-06";
}

static const char *set_to(struct plmi_cli_settings *settings, const char *value)
{
    return plm_stamp_parse(value, &settings->to) ? NULL : "a date as 2031-05-06";
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "",
     "how the answer is written: text for people, json with everything, csv with one row a day, html as a page with "
     "pictures",
     plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
    {"from", 0, "DATE", "only days from this one on, as 2031-05-06; runs of days are told whole all the same",
     set_from},
    {"to", 0, "DATE", "only days up to this one", set_to},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, NULL};

/* Leaves the days and dives that are wanted. */
static void narrow(struct plm_ledger_shown *shown, const struct plmi_cli_settings *settings)
{
    int64_t first = settings->from.known ? plm_day_of(settings->from.local_ms, 0) : INT64_MIN;
    int64_t last = settings->to.known ? plm_day_of(settings->to.local_ms, 0) : INT64_MAX;
    shown->days = plm_days_within(shown->days, &shown->day_count, first, last);
    shown->dives = plm_entries_within(shown->dives, &shown->dive_count, first, last);
}

static enum plmi_cli_exit show_write(struct plmi_cli_ledger *ledger, const struct plm_entries *entries)
{
    struct plmi_cli_call *call = ledger->call;
    struct plm_ledger_shown shown = {.diver = call->operands[0]};
    struct plmi_cli_output output;
    shown.dives = plm_entries_get(entries, &shown.dive_count);
    struct plm_day *days = calloc(shown.dive_count + 1, sizeof *days);
    if (days == NULL) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "no memory for the days");
        return PLMI_CLI_EXIT_TROUBLE;
    }
    shown.diver = shown.dives[0].exposure.diver;
    shown.day_count = plm_days_find(days, shown.dives, shown.dive_count);
    shown.days = days;
    narrow(&shown, &call->settings);
    bool written = plmi_cli_output_open(&output, call, PLM_REPORT_LEDGER_SHOW, call->settings.format) &&
                   plm_report_ledger_show(output.report, &shown) == PLM_STATUS_OK && plmi_cli_output_finish(&output);
    plmi_cli_output_free(&output);
    free(days);
    return written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit show_run(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger;
    struct plm_entries *entries = NULL;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_READ)) {
        enum plm_status status = plmi_cli_ledger_entries(&ledger, call->operands[0], &entries);
        exit = status == PLM_STATUS_OK ? show_write(&ledger, entries) : plmi_cli_exit_of(status);
    }
    plm_entries_free(entries);
    plmi_cli_ledger_close(&ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_show = {
    .name = "ledger show",
    .operands = "DIVER",
    .summary = "Tells of a diver's days: dives, loading, oxygen of the day and over runs of days without a day off",
    .operands_min = 1,
    .operands_max = 1,
    .report = PLM_REPORT_LEDGER_SHOW,
    .options = groups,
    .run = show_run,
};
