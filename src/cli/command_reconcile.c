/*
 * plimsoll reconcile: the records of one diver on one dive laid over each other. Must not judge; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/export.h>
#include <plimsoll/report_team.h>

#include "cli/run_logs.h"

#define RECORDS_MAX 16

static const char *set_merge(struct plmi_cli_settings *settings, const char *value)
{
    settings->merge = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"format", 0, "", "how the answer is written: text for people, json with everything", plmi_cli_set_format},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
    {"merge", 0, "FILE",
     "write one record made of all to FILE: as a table where its name says csv, else as UDDF; notes tell which samples "
     "are whose",
     set_merge},
    {"fail-on", 0, "note|caution|serious|never",
     "least severity of a finding that makes the exit status 1; caution unless told", plmi_cli_set_fail_on},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_model, &plmi_cli_options_reading,
                                                        NULL};

/* One record: its log and its debrief stay open while it is compared. */
struct record {
    struct plm_log *log;
    struct plm_debrief *debrief;
    struct plm_debriefed *one;
};

static enum plm_status record_open(struct record *record, const char *path, const struct plm_debrief_options *debrief,
                                   struct plmi_cli_call *call)
{
    struct plm_log_options reading = plmi_cli_log_options(&call->settings);
    reading.without_plan = true;
    enum plm_status status = plm_log_open(&record->log, path, &reading, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_open(&record->debrief, record->log, debrief, &call->talk.sink);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_next(record->debrief, &record->one);
    }
    if (status == PLM_STATUS_END) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "%s holds no dive", path);
        status = PLM_STATUS_INPUT;
    }
    return status;
}

static void record_close(struct record *record)
{
    plm_debriefed_free(record->one);
    plm_debrief_free(record->debrief);
    plm_log_free(record->log);
}

static enum plmi_cli_exit write_report(struct plmi_cli_call *call, const struct plm_reconciliation *reconciliation,
                                       const struct plm_debriefed *const *records, size_t count)
{
    const struct plm_report_reconciled what = {reconciliation, records, count};
    struct plmi_cli_output output;
    bool written = plmi_cli_output_open(&output, call, PLM_REPORT_RECONCILIATION, call->settings.format) &&
                   plm_report_reconciliation(output.report, &what) == PLM_STATUS_OK && plmi_cli_output_finish(&output);
    plmi_cli_output_free(&output);
    return written ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit merge_write(struct plmi_cli_call *call, const struct plm_dive *dive)
{
    const char *path = call->settings.merge;
    struct plmi_cli_file file;
    struct plm_export *export = NULL;
    if (!plmi_cli_file_open_at(&file, call, path)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plm_status status =
        plm_export_open(&export, strstr(path, ".csv") != NULL ? "csv" : "uddf", &file.sink, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        status = plm_export_add(export, dive);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_export_finish(export);
    }
    plm_export_free(export);
    bool whole = status == PLM_STATUS_OK && plmi_cli_file_finish(&file);
    plmi_cli_file_free(&file);
    return whole ? PLMI_CLI_EXIT_CLEAR : PLMI_CLI_EXIT_TROUBLE;
}

static enum plmi_cli_exit merge(struct plmi_cli_call *call, const struct plm_reconciliation *reconciliation)
{
    struct plm_dive *dive = NULL;
    if (call->settings.merge == NULL) {
        return PLMI_CLI_EXIT_CLEAR;
    }
    enum plm_status status =
        plm_reconciliation_merge(&dive, NULL, reconciliation, &call->settings.rules, &call->talk.sink);
    enum plmi_cli_exit exit = status == PLM_STATUS_OK ? merge_write(call, dive) : plmi_cli_exit_of(status);
    plm_dive_free(dive);
    return exit;
}

static bool any_fails(const struct plmi_cli_settings *settings, const struct plm_reconciliation *reconciliation)
{
    size_t count;
    const struct plm_reconciled_pair *pairs = plm_reconciliation_pairs(reconciliation, &count);
    for (size_t i = 0; i < count && !settings->fail_never; i++) {
        for (size_t k = 0; k < pairs[i].count; k++) {
            if (pairs[i].differences[k].severity >= settings->fail_on) {
                return true;
            }
        }
    }
    return false;
}

static enum plmi_cli_exit compare(struct plmi_cli_call *call, const struct record *records, size_t count)
{
    const struct plm_debriefed *ones[RECORDS_MAX];
    struct plm_reconciliation *reconciliation = NULL;
    for (size_t i = 0; i < count; i++) {
        ones[i] = records[i].one;
    }
    enum plm_status status = plm_reconcile(&reconciliation, ones, count, &ones[0]->replay, &call->talk.sink);
    if (status != PLM_STATUS_OK) {
        return plmi_cli_exit_of(status);
    }
    enum plmi_cli_exit exit =
        plmi_cli_worse(write_report(call, reconciliation, ones, count), merge(call, reconciliation));
    if (!plm_reconciliation_same_dive(reconciliation) || any_fails(&call->settings, reconciliation)) {
        exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_FOUND);
    }
    plm_reconciliation_free(reconciliation);
    return exit;
}

static enum plmi_cli_exit reconcile_run(struct plmi_cli_call *call)
{
    struct record records[RECORDS_MAX] = {{NULL, NULL, NULL}};
    struct plm_debrief_options debrief = plmi_cli_debrief_options(&call->settings);
    enum plm_status status = PLM_STATUS_OK;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    size_t count = (size_t)call->operand_count;
    debrief.schedules = false;
    debrief.decompression = false;
    debrief.replay_only = true;
    for (size_t i = 0; i < count && status == PLM_STATUS_OK; i++) {
        status = record_open(&records[i], call->operands[i], &debrief, call);
    }
    exit = plmi_cli_exit_of(status);
    if (status == PLM_STATUS_OK) {
        exit = compare(call, records, count);
    }
    for (size_t i = 0; i < count; i++) {
        if (records[i].debrief != NULL && plm_debrief_partial(records[i].debrief)) {
            exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_PARTIAL);
        }
        record_close(&records[i]);
    }
    return exit;
}

const struct plmi_cli_command plmi_cli_command_reconcile = {
    .name = "reconcile",
    .operands = "LOG LOG...",
    .summary = "Lays the records of one diver on one dive over each other and tells what they tell differently",
    .operands_min = 2,
    .operands_max = RECORDS_MAX,
    .reads = true,
    .report = PLM_REPORT_RECONCILIATION,
    .options = groups,
    .run = reconcile_run,
};
