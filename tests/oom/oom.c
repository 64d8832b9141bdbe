/*
 * Debriefs a file's bytes again and again while the n-th allocation fails, for
 * n = 1, 2, ... until none is left to fail. Each time: an error that was
 * reported, or the very same result; and nothing leaked.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/debrief.h>
#include <stdio.h>
#include <stdlib.h>

#include "oom/allocation.h"

/* What one run came to. */
struct outcome {
    enum plm_status status;
    size_t errors, dives, points, findings;
    double surfacing_gradient_sum;
};

static void count_errors(void *context, const struct plm_diag *diag)
{
    struct outcome *outcome = context;
    outcome->errors += diag->level == PLM_LEVEL_ERROR;
}

static void add_dive(struct outcome *outcome, const struct plm_debriefed *debriefed)
{
    size_t points = 0;
    size_t findings = 0;
    (void)plm_trace_points(debriefed->trace, &points);
    (void)plm_findings_get(debriefed->findings, &findings);
    outcome->dives++;
    outcome->points += points;
    outcome->findings += findings;
    outcome->surfacing_gradient_sum += plm_trace_summary_get(debriefed->trace)->surfacing_gradient_pct;
}

/* The whole pipeline over bytes in memory; OK when it came to the end. */
static struct outcome debrief_bytes(const void *bytes, size_t count)
{
    struct outcome outcome = {PLM_STATUS_OK, 0, 0, 0, 0, 0.0};
    const struct plm_diag_sink sink = {count_errors, &outcome};
    const struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.schedules = true;
    options.decompression = true;
    options.review.hold = true;
    options.review.cost = true;
    struct plm_source *source = NULL;
    struct plm_debrief *debrief = NULL;
    outcome.status = plm_source_open_memory(&source, bytes, count, "bytes", &rules, &sink);
    if (outcome.status == PLM_STATUS_OK) {
        outcome.status = plm_debrief_open(&debrief, source, &options, &sink);
    }
    while (outcome.status == PLM_STATUS_OK) {
        struct plm_debriefed *debriefed = NULL;
        outcome.status = plm_debrief_next(debrief, &debriefed);
        if (outcome.status == PLM_STATUS_OK) {
            add_dive(&outcome, debriefed);
            plm_debriefed_free(debriefed);
        }
    }
    if (outcome.status == PLM_STATUS_END) {
        outcome.status = PLM_STATUS_OK;
    }
    plm_debrief_free(debrief);
    plm_source_free(source);
    return outcome;
}

static bool is_same(const struct outcome *one, const struct outcome *other)
{
    return one->dives == other->dives && one->points == other->points && one->findings == other->findings &&
           !(one->surfacing_gradient_sum < other->surfacing_gradient_sum) &&
           !(one->surfacing_gradient_sum > other->surfacing_gradient_sum);
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

static int fail_each(const char *name, const void *bytes, size_t count, bool for_good)
{
    allocation_fail(0, false);
    long live = allocation_live();
    const struct outcome sound = debrief_bytes(bytes, count);
    if (sound.status != PLM_STATUS_OK || sound.dives == 0 || live != allocation_live()) {
        (void)printf("%s: without a fault: status %s, %zu dives, %ld blocks leaked\n", name, plm_status_text(sound.status),
                     sound.dives, allocation_live() - live);
        return 1;
    }
    size_t n = 0;
    int faults = 0;
    do {
        n++;
        live = allocation_live();
        allocation_fail(n, for_good);
        const struct outcome run = debrief_bytes(bytes, count);
        const char *fault = allocation_refused() ? find_fault(&run, &sound, live) : NULL;
        if (fault != NULL && ++faults <= 20) {
            (void)printf("%s: allocation %zu%s refused: %s (status %s)\n", name, n, for_good ? " and all later" : "", fault,
                         plm_status_text(run.status));
        }
    } while (allocation_refused());
    allocation_fail(0, false);
    (void)printf("%s: %zu allocations%s, each refused once; %d faults\n", name, n - 1, for_good ? " and all later" : "", faults);
    return faults > 0 || n < 10;
}

int main(int argc, char **argv)
{
    static char bytes[1 << 16];
    int failed = argc < 2;
    for (int i = 1; i < argc; i++) {
        FILE *file = fopen(argv[i], "rb");
        if (file == NULL) {
            perror(argv[i]);
            return EXIT_FAILURE;
        }
        size_t count = fread(bytes, 1, sizeof bytes, file);
        (void)fclose(file);
        failed |= fail_each(argv[i], bytes, count, false);
        failed |= fail_each(argv[i], bytes, count, true);
    }
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
