/*
 * A dive that follows its schedule at 30/70 second by second achieves no more than that: it surfaces at a gradient of
 * at most 70 percent, passes with GF low 30, and does what it owed. Prints the seed that fails.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/decompression.h>
#include <stdio.h>
#include <stdlib.h>

#include "replay/ascent_from.h"
#include "support/made_dive.h"
#include "support/random.h"
#include "support/suite.h"

#define SEEDS 40

struct diver {
    struct made_dive made;
    double time_s, depth_m;
};

/* Straight to a depth at a rate, or a wait, sampled every second and at the end. */
static void go(struct diver *diver, double to_m, double seconds)
{
    double from_s = diver->time_s, from_m = diver->depth_m;
    for (double t_s = floor(from_s) + 1.0; t_s < from_s + seconds - 0.002; t_s += 1.0) {
        if (t_s > from_s + 0.002) {
            made_sample(&diver->made, t_s, from_m + (to_m - from_m) * (t_s - from_s) / seconds);
        }
    }
    /* Recordings hold whole milliseconds: a wait is never cut short by rounding. */
    diver->time_s = ceil((from_s + seconds) * 1000.0 - 1e-6) / 1000.0;
    diver->depth_m = to_m;
    made_sample(&diver->made, diver->time_s, to_m);
}

static void breathe(struct diver *diver, bool loop)
{
    if (loop) {
        made_loop(&diver->made, 0.10, 0.60, 1.3);
    } else {
        made_open(&diver->made, 0.21, 0.20);
    }
}

/* Down and along the bottom; from here on it is left to the schedule. */
static void down(struct diver *diver, uint64_t seed)
{
    struct seeded seeded = {seed};
    *diver = (struct diver){.made = made_start(seed % 3 == 0 ? 0.9 : 1.01325)};
    breathe(diver, seed % 2 == 0);
    made_sample(&diver->made, 0.0, 0.0);
    double bottom_m = seeded_between(&seeded, 30.0, seed % 2 == 0 ? 110.0 : 60.0);
    go(diver, bottom_m, bottom_m / 18.0 * 60.0);
    go(diver, bottom_m, seeded_between(&seeded, 600.0, 1800.0));
}

/* The schedule owed at the end of the bottom, by a replay of the dive so far. */
static void schedule_of(struct plmi_schedule *schedule, uint64_t seed)
{
    struct diver diver;
    down(&diver, seed);
    struct plm_rules rules = diver.made.rules;
    struct plm_dive *dive = made_finish(&diver.made);
    struct plm_trace *trace = made_replay(dive, &rules);
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, dive);
    plmi_ascent_from_point(&from, plm_trace_assumed(trace), &points[count - 1]);
    plmi_schedule_find(schedule, &from, plm_zhl16_get(rules.model), &rules);
    plm_trace_free(trace);
    plm_dive_free(dive);
}

/* Up at the rates of schedules: 9 m/min up to 6 m, from there 6 m/min. */
static void rise(struct diver *diver, double to_m)
{
    double edge_m = fmax(to_m, fmin(diver->depth_m, 6.0));
    if (diver->depth_m > edge_m) {
        go(diver, edge_m, (diver->depth_m - edge_m) / 9.0 * 60.0);
    }
    if (edge_m > to_m) {
        go(diver, to_m, (edge_m - to_m) / 6.0 * 60.0);
    }
}

static void follow(struct diver *diver, const struct plmi_schedule *schedule)
{
    for (int i = 0; i < schedule->stop_count; i++) {
        double stop_m = schedule->stops[i].depth_m;
        if (stop_m < diver->depth_m) {
            rise(diver, stop_m);
        }
        go(diver, stop_m, schedule->stops[i].wait_s);
    }
    rise(diver, 0.0);
    go(diver, 0.0, 30.0);
}

/* [m] least clearance of the dive replayed anew with these gradient factors; 0 where there never was a ceiling. */
static double clearance_m(const struct plm_dive *dive, const struct plm_rules *by, double low_pct, double high_pct)
{
    struct plm_rules rules = *by;
    rules.gf_low_pct = low_pct;
    rules.gf_high_pct = high_pct;
    struct plm_trace *trace = made_replay(dive, &rules);
    double least_m = plm_trace_summary_get(trace)->min_clearance_m;
    plm_trace_free(trace);
    return isnan(least_m) ? 0.0 : least_m;
}

/* Whole replays at the factors found: they pass to a millimetre, one percent less does not. */
static void achieved_is_least(const struct plm_dive *dive, const struct plm_rules *rules,
                              const struct plm_decompression *found, int seed)
{
    double low_pct = found->achieved_gf_low_pct, high_pct = fmax(1.0, found->achieved_gf_high_pct);
    if (isnan(low_pct)) {
        ck_assert_msg(clearance_m(dive, rules, 100.0, high_pct) < -9e-4, "seed %d", seed);
        return;
    }
    ck_assert_msg(clearance_m(dive, rules, low_pct, high_pct) > -1.1e-3, "seed %d: %g", seed, low_pct);
    if (low_pct > 1.0) {
        ck_assert_msg(clearance_m(dive, rules, low_pct - 1.0, high_pct) < -9e-4, "seed %d: %g is not the least", seed,
                      low_pct);
    }
}

START_TEST(a_followed_schedule_achieves_its_factors)
{
    struct plmi_schedule *schedule = malloc(sizeof *schedule);
    struct plm_decompression *found = malloc(sizeof *found);
    double highest_pct = 0.0, deepest_m = 0.0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        struct diver diver;
        schedule_of(schedule, seed);
        down(&diver, seed);
        follow(&diver, schedule);
        struct plm_dive *dive = made_finish(&diver.made);
        struct plm_trace *trace = made_replay(dive, &diver.made.rules);
        struct plm_replay_options options = plm_replay_options_default(&diver.made.rules);
        ck_assert_int_eq(plm_decompression_find(found, dive, trace, &options, NULL), PLM_STATUS_OK);
        const struct plm_trace_summary *summary = plm_trace_summary_get(trace);
        ck_assert_msg(summary->surfacing_gradient_pct <= 70.0 + 1e-4, "seed %d: %.9g %%", (int)seed,
                      summary->surfacing_gradient_pct);
        /* A dive that owes nothing surfaces below 70 percent, and need not pass 30 with its own gradient as GF high. */
        if (schedule->stop_count > 0) {
            ck_assert_msg(found->achieved_gf_low_pct <= 30.0, "seed %d: GF low %g", (int)seed,
                          found->achieved_gf_low_pct);
            ck_assert_msg(found->done_s >= found->owed_s - 0.1, "seed %d: owed %g s, done %g s", (int)seed,
                          found->owed_s, found->done_s);
            ck_assert_double_eq_tol(found->ascent_s, found->tts_s, 1.1);
        }
        if (!isnan(summary->min_clearance_m)) {
            ck_assert_msg(summary->min_clearance_m > -1e-3, "seed %d: %g m above the ceiling", (int)seed,
                          -summary->min_clearance_m);
            deepest_m = fmin(deepest_m, summary->min_clearance_m);
        }
        achieved_is_least(dive, &diver.made.rules, found, (int)seed);
        highest_pct = fmax(highest_pct, summary->surfacing_gradient_pct);
        plm_trace_free(trace);
        plm_dive_free(dive);
    }
    printf("%d dives by their schedule at 30/70: highest surfacing gradient %.7f %%, least clearance %.2g m\n", SEEDS,
           highest_pct, deepest_m);
    free(schedule);
    free(found);
}
END_TEST

/* The same dive with its last stop left out: a higher surfacing gradient, and less done than owed. */
START_TEST(a_stop_left_out_is_seen)
{
    struct plmi_schedule *schedule = malloc(sizeof *schedule);
    struct plm_decompression *found = malloc(sizeof *found);
    schedule_of(schedule, 2);
    ck_assert_int_gt(schedule->stop_count, 3);
    schedule->stop_count--;
    struct diver diver;
    down(&diver, 2);
    follow(&diver, schedule);
    struct plm_dive *dive = made_finish(&diver.made);
    struct plm_trace *trace = made_replay(dive, &diver.made.rules);
    struct plm_replay_options options = plm_replay_options_default(&diver.made.rules);
    ck_assert_int_eq(plm_decompression_find(found, dive, trace, &options, NULL), PLM_STATUS_OK);
    const struct plm_stop *last = &found->stops[found->stop_count - 1];
    ck_assert_double_eq_tol(last->depth_m, 3.0, 1e-9);
    ck_assert_double_gt(last->owed_s, 300.0);
    ck_assert_double_lt(last->done_s, 31.0); /* on the way: 3 m at 6 m/min */
    ck_assert_double_gt(found->achieved_gf_high_pct, 72.0);
    ck_assert_double_gt(found->owed_s - found->done_s, 60.0);
    achieved_is_least(dive, &diver.made.rules, found, 2);
    plm_trace_free(trace);
    plm_dive_free(dive);
    free(schedule);
    free(found);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_followed_schedule_achieves_its_factors, a_stop_left_out_is_seen};
    return SUITE_RUN("achieved", tests);
}
