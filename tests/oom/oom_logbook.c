/*
 * Adds a log and a second record of its dive to a ledger, asks what is carried and removes the dive while the n-th
 * allocation fails, SQLite's own among them, for n = 1, 2, ... until none is left to fail. Each time: an error that was
 * reported, or the very same figures; nothing leaked; and the file is sound afterwards, each dive there as a whole.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/logbook.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "oom/allocation.h"

/* 2031-05-06T22:40:00Z, half a day behind the dive */
#define LATER_UTC_MS INT64_C(1935873600000)

static char ledger_path[64];

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

static void sum_start(struct outcome *outcome, const struct plm_start *start)
{
    const unsigned char *byte = (const unsigned char *)&start->tissue;
    for (size_t i = 0; i < sizeof start->tissue; i++) {
        outcome->sum = (outcome->sum ^ byte[i]) * 0x100000001B3u;
    }
}

/* The ledger; at the end the logs as well. */
static void forget_files(bool logs)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal", "-a.csv", "-b.csv"};
    char beside[80];
    for (size_t i = 0; i < (logs ? 6 : 4); i++) {
        (void)snprintf(beside, sizeof beside, "%s%s", ledger_path, endings[i]);
        (void)unlink(beside);
    }
}

/* A dive of half an hour to some 20 m, with ups and downs by which it is known again: a log beside the ledger. */
static void log_write(const char *ending, int step_s)
{
    char path[80];
    (void)snprintf(path, sizeof path, "%s%s", ledger_path, ending);
    FILE *file = fopen(path, "w");
    for (int time_s = 0; file != NULL && time_s <= 1860; time_s += step_s) {
        double wave_m = 3 * sin(time_s / 37.0) + 2 * sin(time_s / 91.0) + sin(time_s / 13.0);
        double depth_m = fmin(fmin(time_s / 10.0, 20 + wave_m), fmax(0, (1800 - time_s) / 8.0));
        (void)fprintf(file, "%s%d,%.2f%s\n", time_s == 0 ? "time_s,depth_m,mode,o2_frac,he_frac\n" : "", time_s,
                      depth_m, time_s == 0 ? ",open,0.21,0" : ",,,");
    }
    if (file != NULL) {
        (void)fclose(file);
    }
}

/* Adds the dive of a log. */
static enum plm_status log_add(struct plm_logbook *logbook, const char *ending, const struct plm_diag_sink *sink)
{
    char path[80];
    const struct plm_rules rules = plm_rules_default();
    struct plm_log_options reading = plm_log_options_default(&rules);
    const struct plm_debrief_options debrief = plm_debrief_options_default(&rules);
    const struct plm_logbook_options options = {.log = &reading, .debrief = &debrief, .diver = "Tern"};
    struct plm_logbook_addition addition;
    struct plm_logbook_log *log = NULL;
    struct plm_dive *dive = NULL;
    reading.start_clock = "2031-05-06T09:30+11:00";
    (void)snprintf(path, sizeof path, "%s%s", ledger_path, ending);
    enum plm_status status = plm_logbook_log_open(&log, logbook, path, &options, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_logbook_log_take(log, &dive);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_logbook_add(log, dive, &addition);
    }
    plm_logbook_log_free(log);
    return status;
}

/* What is carried later, and then takes the dive out. */
static enum plm_status ask_and_remove(struct outcome *outcome, struct plm_logbook *logbook, struct plm_ledger *ledger)
{
    const struct plm_rules rules = plm_rules_default();
    struct plm_entries *entries = NULL;
    struct plm_start start;
    size_t count = 0;
    size_t recomputed;
    enum plm_status status = plm_logbook_start(logbook, "Tern", LATER_UTC_MS, 660, &rules, &start);
    if (status == PLM_STATUS_OK) {
        sum_start(outcome, &start);
        status = plm_ledger_entries(&entries, ledger, "Tern", INT64_MIN, INT64_MAX);
    }
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (count > 0) {
        outcome->sum += (uint64_t)list[0].exposure.record_count;
        status = plm_logbook_remove(logbook, &list[0].exposure, &recomputed);
    }
    plm_entries_free(entries);
    return status;
}

static struct outcome use_logbook(void)
{
    struct outcome outcome = {.status = PLM_STATUS_OK};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    struct plm_ledger *ledger = NULL;
    struct plm_logbook *logbook = NULL;
    outcome.status = plm_ledger_open(&ledger, ledger_path, PLM_LEDGER_MAKE, &sink);
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = plm_logbook_open(&logbook, ledger, &sink);
    }
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = log_add(logbook, "-a.csv", &sink);
    }
    /* Held against the first record, which is read again. */
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = log_add(logbook, "-b.csv", &sink);
    }
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = ask_and_remove(&outcome, logbook, ledger);
    }
    plm_logbook_free(logbook);
    plm_ledger_close(ledger);
    return outcome;
}

/* The file afterwards: no dive, or one as a whole. */
static bool is_sound(void)
{
    struct outcome outcome = {.status = PLM_STATUS_OK};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    struct plm_ledger *ledger = NULL;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    if (plm_ledger_open(&ledger, ledger_path, PLM_LEDGER_MAKE, &sink) != PLM_STATUS_OK) {
        return false;
    }
    bool sound = plm_ledger_check(ledger) == PLM_STATUS_OK &&
                 plm_ledger_entries(&entries, ledger, NULL, INT64_MIN, INT64_MAX) == PLM_STATUS_OK;
    const struct plm_entry *list = sound ? plm_entries_get(entries, &count) : NULL;
    sound = sound && (count == 0 || (count == 1 && list[0].has_figures && list[0].exposure.record_count >= 1));
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
        return run->sum == whole->sum ? NULL : "it tells success and other figures";
    }
    return run->errors > 0 ? NULL : "it failed and reported no error";
}

int main(void)
{
    /* In memory where that can be: thousands of files are made sure of. */
    (void)snprintf(ledger_path, sizeof ledger_path, "%s",
                   access("/dev/shm", W_OK) == 0 ? "/dev/shm/plimsoll-oom-XXXXXX" : "/tmp/plimsoll-oom-XXXXXX");
    int file = mkstemp(ledger_path), faults = 0;
    if (file < 0) {
        return EXIT_FAILURE;
    }
    (void)close(file);
    forget_files(true);
    log_write("-a.csv", 20);
    log_write("-b.csv", 10);
    /* The first run leaves what SQLite keeps for good. */
    const struct outcome whole = use_logbook();
    bool good = whole.status == PLM_STATUS_OK && is_sound(), refused = true;
    size_t n = 0;
    while (good && refused) {
        forget_files(false);
        (void)is_sound(); /* makes a ledger */
        long live = allocation_live();
        allocation_fail(++n, false);
        const struct outcome run = use_logbook();
        refused = allocation_refused();
        const char *fault = refused ? find_fault(&run, &whole, live) : NULL;
        allocation_fail(0, false);
        if (fault != NULL && ++faults <= 20) {
            (void)printf("allocation %zu refused: %s (status %s)\n", n, fault, plm_status_text(run.status));
        }
    }
    forget_files(true);
    (void)printf("%zu allocations, each refused once; %d faults\n", n > 0 ? n - 1 : 0, faults);
    return good && faults == 0 && n > 100 ? EXIT_SUCCESS : EXIT_FAILURE;
}
