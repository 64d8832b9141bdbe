/*
 * plimsoll ledger due: what a diver carries at a moment. Must not say that anything is enough.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/report_ledger.h>

#include "cli/ledger.h"
#include "cli/run_logs.h"

static const char *set_format(struct plmi_cli_settings *settings, const char *value)
{
    if (!plm_report_ledger_known(PLM_LEDGER_REPORT_DUE, value)) {
        return "one of text, json and csv";
    }
    settings->format = value;
    return NULL;
}

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
    {"format", 0, "text|json|csv", "how the answer is written: text for people, json with everything, csv as one row",
     set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, &plmi_cli_options_model,
                                                        NULL};

/* Whether the diver is under water at the moment. */
static enum plm_status refuse_wet(struct plmi_cli_ledger *ledger, const char *diver, int64_t at_utc_ms)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    char name[256];
    enum plm_status status = plm_ledger_entries_wet(&entries, ledger->file, diver, at_utc_ms, at_utc_ms + 1);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (count > 0) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "%s is under water at that time, in %s", diver,
                             plmi_cli_ledger_name(&list[0].exposure, name, sizeof name));
        status = PLM_STATUS_INPUT;
    }
    plm_entries_free(entries);
    return status;
}

/* Where the diver is: as told, else where the last dive was. */
static double surface_of(const struct plmi_cli_settings *settings, const struct plm_ledger_due *due)
{
    if (!isnan(settings->surface_bar)) {
        return settings->surface_bar;
    }
    return due->past_count > 0 ? due->past[due->past_count - 1].figures.surface_bar
                               : settings->rules.surface_default_bar;
}

static bool due_write(struct plmi_cli_ledger *ledger, const struct plm_ledger_due *due)
{
    struct plmi_cli_call *call = ledger->call;
    const struct plm_report_options report = plmi_cli_report_options(call);
    struct plmi_cli_file file;
    bool written = plmi_cli_file_open(&file, call) &&
                   plm_report_ledger_due(due, call->settings.format != NULL ? call->settings.format : "text", &report,
                                         &file.sink, &call->talk.sink) == PLM_STATUS_OK &&
                   plmi_cli_file_finish(&file);
    plmi_cli_file_free(&file);
    return written;
}

static enum plmi_cli_exit due_find(struct plmi_cli_ledger *ledger, const struct plm_entries *all)
{
    const struct plmi_cli_settings *settings = &ledger->call->settings;
    size_t count = 0;
    struct plm_ledger_due due = {.diver = plm_entries_get(all, &count)[0].exposure.diver, .at = settings->at};
    int64_t at_utc_ms = due.at.local_ms - (int64_t)due.at.offset_min * 60000;
    const struct plm_dive_span span = {.start_utc_ms = at_utc_ms, .offset_min = due.at.offset_min};
    struct plm_entries *before = NULL;
    enum plm_status status = refuse_wet(ledger, due.diver, at_utc_ms);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_entries_before(&before, ledger->file, due.diver, at_utc_ms);
    }
    if (status == PLM_STATUS_OK) {
        status = plmi_cli_ledger_start(ledger, due.diver, &span, &settings->rules, &due.carried);
    }
    bool written = false;
    if (status == PLM_STATUS_OK) {
        due.past = plm_entries_get(before, &due.past_count);
        due.surface_bar = surface_of(settings, &due);
        if (!due.carried.carried) {
            due.carried.tissue =
                plm_tissue_saturated(due.surface_bar, settings->rules.water_vapour_bar, settings->rules.air_n2_frac);
        }
        written = due_write(ledger, &due);
    }
    plm_entries_free(before);
    return status != PLM_STATUS_OK ? plmi_cli_exit_of(status) : written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
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
    .options = groups,
    .run = due_run,
};
