/*
 * plimsoll ledger export: everything that the ledger holds, as files that can be read without it. Must not change
 * anything.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/export.h>
#include <plimsoll/report_ledger.h>

#include "cli/diver_file.h"
#include "cli/ledger.h"
#include "cli/print.h"
#include "cli/run_logs.h"

#define PATH_BYTES 4096

static const char *set_to(struct plmi_cli_settings *settings, const char *value)
{
    if (strcmp(value, "logs") != 0 && plm_export_format_find(value) == NULL) {
        return "uddf, csv or logs";
    }
    settings->format = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"to", 0, "uddf|csv|logs",
     "each record as UDDF, as a table, or as the very log that was added, a card beside each; uddf unless told",
     set_to},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, NULL};

struct exporting {
    struct plmi_cli_ledger ledger;
    const char *folder, *to;
    long records;
};

/* A name as a part of a path: what a path or a shell would take otherwise becomes '_'. */
static void name_part(char *buffer, size_t size, const char *name)
{
    size_t n = 0;
    for (; name[n] != '\0' && n + 1 < size; n++) {
        unsigned char c = (unsigned char)name[n];
        bool plain = c >= 0x80 ||
                     strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-", c) != NULL ||
                     (c == '.' && n > 0);
        buffer[n] = plain ? name[n] : '_';
    }
    buffer[n] = '\0';
}

/* Where a record goes, without its ending: FOLDER/Tern/2031-05-06-dive-14-1. Returns: false when reported. */
static bool record_path(struct exporting *exporting, const struct plm_exposure *exposure, size_t k, char *path,
                        size_t size)
{
    char diver[PLMI_CLI_DIVER_FILE_BYTES], start[40];
    struct plm_stamp stamp = plm_stamp_of(exposure->span.start_utc_ms, exposure->span.offset_min);
    if (!plmi_cli_diver_file(exposure->diver, diver, &exporting->ledger.call->talk.sink)) {
        return false;
    }
    int n = snprintf(path, size, "%s/%s", exporting->folder, diver);
    if (n < 0 || (size_t)n + 100 > size || !plmi_cli_folder_make(exporting->ledger.call, path)) {
        return false;
    }
    (void)snprintf(path + n, size - (size_t)n, "/%.10s-dive-%lld-%zu", plm_stamp_write(&stamp, start, sizeof start),
                   (long long)exposure->id, k + 1);
    return true;
}

/* Opens PATH.ENDING; gives it to write; makes it whole. */
static enum plm_status file_write(struct exporting *exporting, const char *path, const char *ending,
                                  enum plm_status (*write)(void *context, const struct plm_sink *sink), void *context)
{
    char whole[PATH_BYTES + 300];
    struct plmi_cli_file file;
    (void)snprintf(whole, sizeof whole, "%s%s", path, ending);
    if (!plmi_cli_file_open_at(&file, exporting->ledger.call, whole)) {
        return PLM_STATUS_IO;
    }
    enum plm_status status = write(context, &file.sink);
    if (status == PLM_STATUS_OK && !plmi_cli_file_finish(&file)) {
        status = PLM_STATUS_IO;
    }
    plmi_cli_file_free(&file);
    return status;
}

struct record_out {
    struct exporting *exporting;
    const struct plm_record *record;
    const struct plm_exposure *exposure;
    const struct plm_dive *dive;
};

static enum plm_status write_dive(void *context, const struct plm_sink *sink)
{
    const struct record_out *out = context;
    const struct plm_diag_sink *diag = &out->exporting->ledger.call->talk.sink;
    struct plm_export *export = NULL;
    enum plm_status status = plm_export_open(&export, out->exporting->to, sink, diag);
    if (status == PLM_STATUS_OK) {
        status = plm_export_add(export, out->dive);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_export_finish(export);
    }
    plm_export_free(export);
    return status;
}

static enum plm_status write_log(void *context, const struct plm_sink *sink)
{
    const struct record_out *out = context;
    void *bytes = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_log_get(out->exporting->ledger.file, out->record->log_sha256, &bytes, &count);
    if (status == PLM_STATUS_OK) {
        status = sink->write(sink->context, bytes, count);
    }
    free(bytes);
    return status;
}

static enum plm_status write_card(void *context, const struct plm_sink *sink)
{
    const struct record_out *out = context;
    return plm_logbook_card_write(out->exposure, out->record, out->dive, sink);
}

static enum plm_status write_kept_card(void *context, const struct plm_sink *sink)
{
    const struct record_out *out = context;
    return sink->write(sink->context, out->record->card, strlen(out->record->card));
}

/* Beside a log: the card that was laid over it; where there was none, one that says what the command line said. */
static enum plm_status log_card_write(struct exporting *exporting, struct record_out *out, const char *path,
                                      const char *ending)
{
    struct plm_dive *dive = NULL;
    if (out->record->card != NULL && plm_stated_any(&out->record->stated)) {
        plmi_cli_ledger_tell(&exporting->ledger, PLM_LEVEL_NOTE, out->record->log_name,
                             "what was told beside its card when it was added is not in the card");
    }
    if (out->record->card != NULL) {
        return file_write(exporting, path, ending, write_kept_card, out);
    }
    /* A start in a card is that of the first dive of a log. */
    if (!plm_stated_any(&out->record->stated) || out->record->log_index > 1) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_logbook_dive(exporting->ledger.logbook, out->record, &dive);
    out->dive = dive;
    if (status == PLM_STATUS_OK) {
        status = file_write(exporting, path, ending, write_card, out);
    }
    plm_dive_free(dive);
    return status;
}

/* The record's log and its card. */
static enum plm_status log_write(struct exporting *exporting, struct record_out *out, const char *path)
{
    char name[200], tail[256];
    name_part(name, sizeof name, out->record->log_name);
    /* A gzipped log is not packed a second time: the sink does so where it sees .gz, so the ending is hidden from it.
     */
    size_t length = strlen(name);
    bool packed = length > 3 && strcmp(name + length - 3, ".gz") == 0;
    (void)snprintf(tail, sizeof tail, "-%s%s", name, packed ? "ip" : "");
    enum plm_status status = file_write(exporting, path, tail, write_log, out);
    char *dot = strrchr(tail, '.');
    if (dot != NULL) {
        *dot = '\0';
    }
    (void)snprintf(tail + strlen(tail), sizeof tail - strlen(tail), ".card");
    return status == PLM_STATUS_OK ? log_card_write(exporting, out, path, tail) : status;
}

static enum plm_status record_write(struct exporting *exporting, const struct plm_exposure *exposure,
                                    const struct plm_record *record, size_t k)
{
    struct record_out out = {.exporting = exporting, .record = record, .exposure = exposure};
    struct plm_dive *dive = NULL;
    char path[PATH_BYTES], ending[16];
    if (!record_path(exporting, exposure, k, path, sizeof path)) {
        return PLM_STATUS_IO;
    }
    exporting->records++;
    if (strcmp(exporting->to, "logs") == 0) {
        return log_write(exporting, &out, path);
    }
    (void)snprintf(ending, sizeof ending, ".%s", exporting->to);
    enum plm_status status = plm_logbook_dive(exporting->ledger.logbook, record, &dive);
    out.dive = dive;
    if (status == PLM_STATUS_OK) {
        status = file_write(exporting, path, ending, write_dive, &out);
    }
    if (status == PLM_STATUS_OK) {
        status = file_write(exporting, path, ".card", write_card, &out);
    }
    plm_dive_free(dive);
    return status;
}

static enum plm_status exposure_write(struct exporting *exporting, const struct plm_exposure *exposure)
{
    struct plm_records *records = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_records(&records, exporting->ledger.file, exposure->id);
    const struct plm_record *list = status == PLM_STATUS_OK ? plm_records_get(records, &count) : NULL;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i++) {
        status = record_write(exporting, exposure, &list[i], i);
    }
    plm_records_free(records);
    return status;
}

struct figures_out {
    struct exporting *exporting;
    const struct plm_entry *dives;
    size_t count;
};

/* A table of days, or where shown is NULL of dives. */
static enum plm_status write_table(const struct figures_out *out, const struct plm_ledger_shown *shown,
                                   const struct plm_sink *sink)
{
    struct plmi_cli_call *call = out->exporting->ledger.call;
    const struct plm_report_options settled = plmi_cli_report_options(call);
    const struct plm_ledger_listed listed = {out->dives, out->count};
    struct plm_report *report = NULL;
    enum plm_status status = plm_report_open(&report, shown != NULL ? PLM_REPORT_LEDGER_SHOW : PLM_REPORT_LEDGER_LIST,
                                             "csv", &settled, sink, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        status = shown != NULL ? plm_report_ledger_show(report, shown) : plm_report_ledger_list(report, &listed);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_report_finish(report);
    }
    plm_report_free(report);
    return status;
}

static enum plm_status write_dives(void *context, const struct plm_sink *sink)
{
    return write_table(context, NULL, sink);
}

/* The days of the one diver whose dives these are. */
static enum plm_status write_days(void *context, const struct plm_sink *sink)
{
    const struct figures_out *out = context;
    struct plm_day *days = calloc(out->count + 1, sizeof *days);
    if (days == NULL) {
        return PLM_STATUS_MEMORY;
    }
    const struct plm_ledger_shown shown = {out->dives[0].exposure.diver, days,
                                           plm_days_find(days, out->dives, out->count), out->dives, out->count};
    enum plm_status status = write_table(out, &shown, sink);
    free(days);
    return status;
}

/* FOLDER/dives.csv, and FOLDER/DIVER-days.csv for each diver. */
static enum plm_status figures_write(struct exporting *exporting, const struct plm_entry *list, size_t count)
{
    struct figures_out out = {exporting, list, count};
    char path[PATH_BYTES], diver[PLMI_CLI_DIVER_FILE_BYTES];
    enum plm_status status = file_write(exporting, exporting->folder, "/dives.csv", write_dives, &out);
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i += out.count) {
        out.dives = &list[i];
        out.count = 1;
        while (i + out.count < count && strcmp(list[i + out.count].exposure.diver, list[i].exposure.diver) == 0) {
            out.count++;
        }
        if (!plmi_cli_diver_file(list[i].exposure.diver, diver, &exporting->ledger.call->talk.sink)) {
            return PLM_STATUS_MEMORY;
        }
        (void)snprintf(path, sizeof path, "%.3900s/%s-days.csv", exporting->folder, diver);
        status = file_write(exporting, path, "", write_days, &out);
    }
    return status;
}

static enum plmi_cli_exit export_all(struct exporting *exporting)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    enum plm_status worst = plm_ledger_entries(&entries, exporting->ledger.file, NULL, INT64_MIN, INT64_MAX);
    const struct plm_entry *list = worst == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (worst == PLM_STATUS_OK) {
        worst = plmi_cli_folder_make(exporting->ledger.call, exporting->folder) ? figures_write(exporting, list, count)
                                                                                : PLM_STATUS_IO;
    }
    /* A record that cannot be read any more does not keep the others from being written. */
    for (size_t i = 0; worst != PLM_STATUS_IO && worst != PLM_STATUS_MEMORY && i < count; i++) {
        enum plm_status status = exposure_write(exporting, &list[i].exposure);
        worst = status != PLM_STATUS_OK ? status : worst;
    }
    plm_entries_free(entries);
    plmi_cli_print(stdout, "written: %ld record%s of %zu dive%s\n", exporting->records,
                   exporting->records == 1 ? "" : "s", count, count == 1 ? "" : "s");
    return worst == PLM_STATUS_IO ? PLMI_CLI_EXIT_TROUBLE : plmi_cli_exit_of(worst);
}

static enum plmi_cli_exit export_run(struct plmi_cli_call *call)
{
    struct exporting exporting = {.folder = call->operands[0],
                                  .to = call->settings.format != NULL ? call->settings.format : "uddf"};
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plmi_cli_ledger_open(&exporting.ledger, call, PLM_LEDGER_READ)) {
        exit = export_all(&exporting);
    }
    plmi_cli_ledger_close(&exporting.ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_export = {
    .name = "ledger export",
    .operands = "FOLDER",
    .summary = "Writes all records with their cards, and the figures of dives and days as tables, into a folder",
    .operands_min = 1,
    .operands_max = 1,
    .options = groups,
    .run = export_run,
};
