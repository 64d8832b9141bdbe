/*
 * Opens a log with the card and the plan that lie beside it, debriefs it and writes all reports and exports, again and
 * again while the n-th allocation fails, for n = 1, 2, ... until none is left to fail. Each time: an error that was
 * reported, or the very same result; and nothing leaked.
 * Once more for the first file with all later allocations failing too.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/export.h>
#include <plimsoll/report.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "oom/allocation.h"

/* What one run came to. */
struct outcome {
    enum plm_status status;
    size_t errors, dives;
    uint64_t report_sum;
};

static void count_errors(void *context, const struct plm_diag *diag)
{
    struct outcome *outcome = context;
    outcome->errors += diag->level == PLM_LEVEL_ERROR;
}

/* Takes bytes of a report into a sum (FNV-1a). */
static enum plm_status sum_bytes(void *context, const void *bytes, size_t count)
{
    struct outcome *outcome = context;
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++) {
        outcome->report_sum = (outcome->report_sum ^ byte[i]) * 0x100000001B3u;
    }
    return PLM_STATUS_OK;
}

/* Every report of one dive, one after the other. */
static enum plm_status write_reports(struct outcome *outcome, const struct plm_debriefed *one,
                                     const struct plm_rules *rules, const struct plm_diag_sink *diag)
{
    const struct plm_report_options options = plm_report_options_default(rules);
    const struct plm_sink sink = {sum_bytes, outcome};
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < plm_report_format_count() && status == PLM_STATUS_OK; i++) {
        const struct plm_report_format *format = plm_report_format_get(i);
        struct plm_report *report = NULL;
        if (format->subject > PLM_REPORT_HANDOVER) {
            continue; /* not about a dive */
        }
        status = plm_report_open(&report, format->subject, format->name, &options, &sink, diag);
        if (status == PLM_STATUS_OK) {
            status = plm_report_add(report, one);
        }
        if (status == PLM_STATUS_OK) {
            status = plm_report_finish(report);
        }
        plm_report_free(report);
    }
    return status;
}

/* The dive as every log that can be written. */
static enum plm_status write_exports(struct outcome *outcome, const struct plm_dive *dive,
                                     const struct plm_diag_sink *diag)
{
    const struct plm_sink sink = {sum_bytes, outcome};
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < plm_export_format_count() && status == PLM_STATUS_OK; i++) {
        struct plm_export *export = NULL;
        status = plm_export_open(&export, plm_export_format_get(i)->name, &sink, diag);
        if (status == PLM_STATUS_OK) {
            status = plm_export_add(export, dive);
        }
        if (status == PLM_STATUS_OK) {
            status = plm_export_finish(export);
        }
        plm_export_free(export);
    }
    return status;
}

/* The whole way over a file and what lies beside it; OK when it came to the end. */
static struct outcome review_log(const char *path)
{
    struct outcome outcome = {.status = PLM_STATUS_OK};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    const struct plm_rules rules = plm_rules_default();
    const struct plm_debrief_options options = plm_debrief_options_default(&rules);
    struct plm_log_options reading = plm_log_options_default(&rules);
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    reading.digest = true;
    reading.keep = true;
    reading.start_clock = "2031-05-06T09:30";
    reading.zone = "+11:00";
    outcome.status = plm_log_open(&log, path, &reading, &sink);
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = plm_debrief_open(&debrief, log, &options, &sink);
    }
    while (outcome.status == PLM_STATUS_OK) {
        struct plm_debriefed *one = NULL;
        outcome.status = plm_debrief_next(debrief, &one);
        if (outcome.status == PLM_STATUS_OK) {
            outcome.dives++;
            outcome.status = write_reports(&outcome, one, &rules, &sink);
        }
        if (outcome.status == PLM_STATUS_OK) {
            outcome.status = write_exports(&outcome, one->dive, &sink);
        }
        plm_debriefed_free(one);
    }
    if (outcome.status == PLM_STATUS_END) {
        outcome.status = PLM_STATUS_OK;
    }
    plm_debrief_free(debrief);
    plm_log_free(log);
    return outcome;
}

static bool is_same(const struct outcome *one, const struct outcome *other)
{
    return one->dives == other->dives && one->report_sum == other->report_sum;
}

/* What is wrong with a run during which an allocation was refused, or NULL. */
static const char *find_fault(const struct outcome *run, const struct outcome *sound, long live)
{
    if (live != allocation_live()) {
        return "it leaked";
    }
    if (run->status == PLM_STATUS_OK) {
        return is_same(run, sound) ? NULL : "it tells success and another result";
    }
    if (run->errors == 0) {
        return "it failed and reported no error";
    }
    return run->status == PLM_STATUS_MEMORY ? NULL : "its status is not MEMORY";
}

static int fail_each(const char *path, bool for_good)
{
    allocation_fail(0, false);
    long live = allocation_live();
    const struct outcome sound = review_log(path);
    if (sound.status != PLM_STATUS_OK || sound.dives == 0 || live != allocation_live()) {
        (void)printf("%s: without a fault: status %s, %zu dives, %ld blocks leaked\n", path,
                     plm_status_text(sound.status), sound.dives, allocation_live() - live);
        return 1;
    }
    size_t n = 0;
    int faults = 0;
    do {
        n++;
        live = allocation_live();
        allocation_fail(n, for_good);
        const struct outcome run = review_log(path);
        const char *fault = allocation_refused() ? find_fault(&run, &sound, live) : NULL;
        if (fault != NULL && ++faults <= 20) {
            (void)printf("%s: allocation %zu%s refused: %s (status %s)\n", path, n, for_good ? " and all later" : "",
                         fault, plm_status_text(run.status));
        }
    } while (allocation_refused());
    allocation_fail(0, false);
    (void)printf("%s: %zu allocations%s, each refused once; %d faults\n", path, n - 1, for_good ? " and all later" : "",
                 faults);
    return faults > 0 || n < 10;
}

int main(int argc, char **argv)
{
    int failed = argc < 2;
    for (int i = 1; i < argc; i++) {
        failed |= fail_each(argv[i], false);
        if (i == 1) {
            failed |= fail_each(argv[i], true);
        }
    }
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
