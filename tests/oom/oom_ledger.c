/*
 * Makes a ledger, puts a dive in, reads it back and writes the reports over it while the n-th allocation fails,
 * SQLite's own among them, for n = 1, 2, ... until none is left to fail. Each time: an error that was reported, or the
 * very same reports; nothing leaked; and the file is sound afterwards, with the dive as a whole or not at all.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/ledger_days.h>
#include <plimsoll/report_ledger.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "oom/allocation.h"

/* SHA-256 of "abc": FIPS 180-2, appendix B.1. */
#define ABC "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

static char path[64];

struct outcome {
    enum plm_status status;
    size_t errors;
    uint64_t sum;
};

static void count_errors(void *context, const struct plm_diag *diag)
{
    struct outcome *outcome = context;
    outcome->errors += diag->level == PLM_LEVEL_ERROR;
}

static enum plm_status sum_bytes(void *context, const void *bytes, size_t count)
{
    struct outcome *outcome = context;
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++) {
        outcome->sum = (outcome->sum ^ byte[i]) * 0x100000001B3u;
    }
    return PLM_STATUS_OK;
}

static void forget_file(void)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal"};
    char beside[80];
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        (void)snprintf(beside, sizeof beside, "%s%s", path, endings[i]);
        (void)unlink(beside);
    }
}

/* One dive, in one transaction. */
static enum plm_status put(struct plm_ledger *ledger)
{
    const struct plm_ledger_log log = {ABC, "a.csv", "abc", 3};
    struct plm_exposure exposure = {.diver = "Skua", .span = {1000000, 600, 3600000, 1000, 3590000}};
    struct plm_record record = {.log_sha256 = ABC,
                                .log_index = 1,
                                .card = "[dive]\n",
                                .rules = "gf_low_pct = 30\n",
                                .span = exposure.span,
                                .covered_s = 3600,
                                .step_s = 10,
                                .stated = {.zone = "+10:00", .surface_bar = (double)NAN}};
    struct plm_figures figures = {
        .program = "0", .rules = record.rules, .surface_bar = 1, .otu = 50, .worst = "it was so", .serious = 1};
    enum plm_status status = plm_ledger_begin(ledger);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_log_put(ledger, &log);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_exposure_put(ledger, &exposure);
    }
    record.exposure = exposure.id;
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_record_put(ledger, &record);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_record_choose(ledger, &record);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_figures_put(ledger, exposure.id, &figures);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_commit(ledger);
    }
    plm_ledger_undo(ledger);
    return status;
}

/* Every report over what the ledger gives. */
static enum plm_status write_reports(struct outcome *outcome, const struct plm_entry *list, size_t count,
                                     const struct plm_diag_sink *diag)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plm_report_options options = plm_report_options_default(&rules);
    const struct plm_sink sink = {sum_bytes, outcome};
    struct plm_day days[4];
    const struct plm_ledger_listed listed = {list, count};
    const struct plm_ledger_shown shown = {"Skua", days, plm_days_find(days, list, count), list, count};
    const struct plm_ledger_due due = {.diver = "Skua",
                                       .at = {.local_ms = 90000000, .known = true, .has_clock = true, .has_zone = true},
                                       .surface_bar = 1,
                                       .residual = {.tissue = plm_tissue_saturated(1, 0.0627, 0.7902)},
                                       .past = list,
                                       .past_count = count};
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; status == PLM_STATUS_OK && i < plm_report_format_count(); i++) {
        const struct plm_report_format *format = plm_report_format_get(i);
        struct plm_report *report = NULL;
        if (format->subject < PLM_REPORT_LEDGER_LIST) {
            continue;
        }
        status = plm_report_open(&report, format->subject, format->name, &options, &sink, diag);
        if (status == PLM_STATUS_OK) {
            status = format->subject == PLM_REPORT_LEDGER_LIST   ? plm_report_ledger_list(report, &listed)
                     : format->subject == PLM_REPORT_LEDGER_SHOW ? plm_report_ledger_show(report, &shown)
                                                                 : plm_report_ledger_due(report, &due);
        }
        if (status == PLM_STATUS_OK) {
            status = plm_report_finish(report);
        }
        plm_report_free(report);
    }
    return status;
}

static enum plm_status look(struct outcome *outcome, struct plm_ledger *ledger, const struct plm_diag_sink *diag)
{
    struct plm_entries *entries = NULL;
    struct plm_records *records = NULL;
    void *bytes = NULL;
    size_t count = 0, bytes_count;
    enum plm_status status = plm_ledger_entries_before(&entries, ledger, "skua", INT64_MAX);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_records(&records, ledger, list[0].exposure.id);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_log_get(ledger, ABC, &bytes, &bytes_count);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_check(ledger);
    }
    if (status == PLM_STATUS_OK) {
        status = write_reports(outcome, list, count, diag);
    }
    free(bytes);
    plm_records_free(records);
    plm_entries_free(entries);
    return status;
}

static struct outcome use_ledger(void)
{
    struct outcome outcome = {.status = PLM_STATUS_OK};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    struct plm_ledger *ledger = NULL;
    outcome.status = plm_ledger_open(&ledger, path, PLM_LEDGER_MAKE, &sink);
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = put(ledger);
    }
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = look(&outcome, ledger, &sink);
    }
    plm_ledger_close(ledger);
    return outcome;
}

/* The file afterwards: none, one without tables, or a sound one with the dive as a whole or without it. */
static bool is_sound(void)
{
    struct outcome outcome = {.status = PLM_STATUS_OK};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    struct plm_ledger *ledger = NULL;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    if (plm_ledger_open(&ledger, path, PLM_LEDGER_MAKE, &sink) != PLM_STATUS_OK) {
        return false;
    }
    bool sound = plm_ledger_check(ledger) == PLM_STATUS_OK &&
                 plm_ledger_entries(&entries, ledger, NULL, INT64_MIN, INT64_MAX) == PLM_STATUS_OK;
    const struct plm_entry *list = sound ? plm_entries_get(entries, &count) : NULL;
    sound = sound && (count == 0 || (count == 1 && list[0].has_figures && list[0].exposure.record_count == 1));
    plm_entries_free(entries);
    plm_ledger_close(ledger);
    return sound;
}

static const char *find_fault(const struct outcome *run, const struct outcome *whole, long live)
{
    if (live != allocation_live()) {
        return "it leaked";
    }
    allocation_fail(0, false);
    if (!is_sound()) {
        return "the file is not sound afterwards";
    }
    if (run->status == PLM_STATUS_OK) {
        return run->sum == whole->sum ? NULL : "it tells success and other reports";
    }
    return run->errors > 0 ? NULL : "it failed and reported no error";
}

int main(void)
{
    /* In memory where that can be: thousands of files are made sure of. */
    (void)snprintf(path, sizeof path, "%s",
                   access("/dev/shm", W_OK) == 0 ? "/dev/shm/plimsoll-oom-XXXXXX" : "/tmp/plimsoll-oom-XXXXXX");
    int file = mkstemp(path), faults = 0;
    if (file < 0) {
        return EXIT_FAILURE;
    }
    (void)close(file);
    forget_file();
    /* The first run leaves what SQLite keeps for good. */
    struct outcome whole = use_ledger();
    bool good = whole.status == PLM_STATUS_OK && is_sound(), refused = true;
    size_t n = 0;
    while (good && refused) {
        forget_file();
        long live = allocation_live();
        allocation_fail(++n, false);
        const struct outcome run = use_ledger();
        refused = allocation_refused();
        const char *fault = refused ? find_fault(&run, &whole, live) : NULL;
        allocation_fail(0, false);
        if (fault && ++faults <= 20) {
            (void)printf("allocation %zu refused: %s (status %s)\n", n, fault, plm_status_text(run.status));
        }
    }
    forget_file();
    (void)printf("%zu allocations, each refused once; %d faults\n", n > 0 ? n - 1 : 0, faults);
    return good && faults == 0 && n > 100 ? EXIT_SUCCESS : EXIT_FAILURE;
}
