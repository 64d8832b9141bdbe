/*
 * One record of several: every sample lies where the body was, whichever record it is from and whichever is the best.
 * What is planted in the records is the truth: their clocks, drifts, depths and holes.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>

#include <plimsoll/reconcile.h>

#include "support/made_dive.h"
#include "support/planted.h"
#include "support/suite.h"

/* The full record has a hole on the way up, at 0.15 m/s; three lesser ones, without cells, have it all. */
static const struct planted full = {
    .recorder = "unit", .step_s = 2, .cells = true, .gap_from_s = 1900, .gap_to_s = 1998};
static const struct planted late = {.recorder = "late", .step_s = 5, .begin_s = 95, .behind_s = 30};
static const struct planted early = {.recorder = "early", .step_s = 5, .begin_s = -10};
static const struct planted off = {
    .recorder = "off", .step_s = 5, .begin_s = 60, .fast_ppm = 300, .less_m = 0.8, .less_frac = -0.02};

/* Merges records and holds every sample against the body, on the clock and by the depth of the full one. */
static void check(const struct planted *const planted[], size_t count, size_t best)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_replay_options options = plm_replay_options_default(&rules);
    struct plm_debriefed records[3];
    const struct plm_debriefed *all[3];
    for (size_t i = 0; i < count; i++) {
        records[i] = (struct plm_debriefed){.dive = planted_record(planted[i])};
        records[i].trace = made_replay(records[i].dive, &rules);
        all[i] = &records[i];
    }
    struct plm_reconciliation *reconciliation;
    struct plm_dive *merged;
    unsigned char *from;
    size_t samples_count, filled = 0;
    ck_assert_int_eq(plm_reconcile(&reconciliation, all, count, &options, NULL), PLM_STATUS_OK);
    ck_assert_uint_eq(plm_reconciliation_best(reconciliation), best);
    ck_assert_int_eq(plm_reconciliation_merge(&merged, &from, reconciliation, &rules, NULL), PLM_STATUS_OK);
    const struct plm_sample *samples = plm_dive_samples(merged, &samples_count);
    for (size_t i = 0; i < samples_count; i++) {
        double true_s = (double)samples[i].time_ms / 1000, body_m = planted_depth_m(0, true_s);
        ck_assert_msg(fabs(samples[i].depth_m - body_m) < 0.1, "record %d at %g s: %g m, the body at %g m", from[i],
                      true_s, samples[i].depth_m, body_m);
        ck_assert_msg(i == 0 || samples[i].time_ms - samples[i - 1].time_ms <= 5100, "a hole before %g s", true_s);
        filled += from[i] != best;
    }
    /* 98 s by samples every 5 s */
    ck_assert_uint_ge(filled, 19);
    ck_assert_uint_le(filled, 20);
    free(from);
    plm_dive_free(merged);
    plm_reconciliation_free(reconciliation);
    for (size_t i = 0; i < count; i++) {
        plm_trace_free(records[i].trace);
        plm_dive_free(records[i].dive);
    }
}

START_TEST(a_hole_is_filled_at_its_time)
{
    const struct planted *const others[] = {&late, &early, &off};
    for (int i = 0; i < 3; i++) {
        check((const struct planted *const[]){&full, others[i]}, 2, 0);
        check((const struct planted *const[]){others[i], &full}, 2, 1);
    }
}
END_TEST

/* All are laid over the first; the best is another, and the hole is filled by a third. */
START_TEST(of_three_any_may_be_the_best)
{
    check((const struct planted *const[]){&late, &full, &off}, 3, 1);
    check((const struct planted *const[]){&off, &early, &full}, 3, 2);
    check((const struct planted *const[]){&full, &off, &late}, 3, 0);
}
END_TEST

/* A record of more samples without cells takes those of the other, where it has them. */
START_TEST(cells_are_taken_from_the_other)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_replay_options options = plm_replay_options_default(&rules);
    const struct planted longer = {.recorder = "longer", .step_s = 2},
                         shorter = {.recorder = "shorter", .step_s = 5, .begin_s = 35, .end_s = 3000, .cells = true};
    struct plm_debriefed records[2] = {{.dive = planted_record(&longer)}, {.dive = planted_record(&shorter)}};
    const struct plm_debriefed *both[2] = {&records[0], &records[1]};
    for (int i = 0; i < 2; i++) {
        records[i].trace = made_replay(records[i].dive, &rules);
    }
    struct plm_reconciliation *reconciliation;
    struct plm_dive *merged;
    size_t count;
    ck_assert_int_eq(plm_reconcile(&reconciliation, both, 2, &options, NULL), PLM_STATUS_OK);
    ck_assert_uint_eq(plm_reconciliation_best(reconciliation), 0);
    ck_assert_int_eq(plm_reconciliation_merge(&merged, NULL, reconciliation, &rules, NULL), PLM_STATUS_OK);
    const struct plm_sample *samples = plm_dive_samples(merged, &count);
    for (size_t i = 0; i < count; i++) {
        double true_s = (double)samples[i].time_ms / 1000;
        /* a cell counts for 15 s around */
        bool within = true_s > 35 && true_s < 3000, outside = true_s < 19 || true_s > 3016;
        ck_assert_msg(!within || samples[i].cell_bar[0] == 1.3, "%g s", true_s);
        ck_assert_msg(!outside || isnan(samples[i].cell_bar[0]), "%g s", true_s);
    }
    plm_dive_free(merged);
    plm_reconciliation_free(reconciliation);
    for (int i = 0; i < 2; i++) {
        plm_trace_free(records[i].trace);
        plm_dive_free(records[i].dive);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_hole_is_filled_at_its_time, of_three_any_may_be_the_best,
                                  cells_are_taken_from_the_other};
    return SUITE_RUN("merge", tests);
}
