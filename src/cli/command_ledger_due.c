/*
 * plimsoll ledger due: what a diver carries at a moment. Must not say that anything is enough.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/report_ledger.h>

#include "cli/ledger.h"
#include "cli/run_logs.h"

static const char *set_at(struct plmi_cli_settings *settings, const char *value)
{
    struct plm_stamp at;
    if (!plm_stamp_parse(value, &at) || !at.has_clock || !at.has_zone) {
        return "a date and time with its zone, as 2031-05-06T09:30+11:00";
    }
    settings->at = at;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"at", 0, "STAMP", "the moment, with its time zone, as 2031-05-06T09:30+11:00", set_at},
    {"format", 0, "", "how the answer is written: text for people, json with everything, csv as one row",
     plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, &plmi_cli_options_model,
                                                        NULL};

static bool due_write(struct plmi_cli_ledger *ledger, const struct plm_ledger_due *due)
{
    struct plmi_cli_call *call = ledger->call;
    struct plmi_cli_output output;
    bool written = plmi_cli_output_open(&output, call, PLM_REPORT_LEDGER_DUE, call->settings.format) &&
                   plm_report_ledger_due(output.report, due) == PLM_STATUS_OK && plmi_cli_output_finish(&output);
    plmi_cli_output_free(&output);
    return written;
}

static enum plmi_cli_exit due_find(struct plmi_cli_ledger *ledger, const struct plm_entries *all)
{
    const struct plmi_cli_settings *settings = &ledger->call->settings;
    size_t count = 0;
    struct plm_ledger_due due = {.diver = plm_entries_get(all, &count)[0].exposure.diver,
                                 .at = settings->at,
                                 .surface_bar = settings->surface_bar};
    struct plm_entries *past = NULL;
    enum plm_status status =
        plm_logbook_due(ledger->logbook, due.diver, &due.at, &settings->rules, &due.surface_bar, &due.residual, &past);
    if (status != PLM_STATUS_OK) {
        return plmi_cli_exit_of(status);
    }
    due.past = plm_entries_get(past, &due.past_count);
    bool written = due_write(ledger, &due);
    plm_entries_free(past);
    return written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit due_run(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger;
    struct plm_entries *entries = NULL;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (!call->settings.at.known) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR,
                            "ledger due needs --at STAMP: there is no clock in an answer");
        return exit;
    }
    if (plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_READ)) {
        enum plm_status status = plmi_cli_ledger_entries(&ledger, call->operands[0], &entries);
        exit = status == PLM_STATUS_OK ? due_find(&ledger, entries) : plmi_cli_exit_of(status);
    }
    plm_entries_free(entries);
    plmi_cli_ledger_close(&ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_due = {
    .name = "ledger due",
    .operands = "DIVER",
    .summary =
        "Tells what a diver carries at a moment: tissues, oxygen, hours since the last dive; no permission to dive",
    .operands_min = 1,
    .operands_max = 1,
    .report = PLM_REPORT_LEDGER_DUE,
    .options = groups,
    .run = due_run,
};
