/*
 * A diver who follows the schedule second by second breaks no ceiling and surfaces within GF high; one who
 * leaves any stop up to 30 s early breaks the ceiling. Seeded; the seed is printed with what fails.
 * Source: plimsoll-model(7), SCHEDULE.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "ascent/breathing.h"
#include "ascent/schedule.h"
#include "support/lung.h"

static const int states = 60;

/* A diver on the way up with the ceiling watched. */
struct diver {
    struct lung lung;
    struct plm_tissue tissue;
    struct plmi_gf gf; /* with the anchor met so far */
    double depth_m, setpoint_bar;
    double highest_bar; /* the ceiling over ambient pressure, at its worst */
};

static void watch(struct diver *diver)
{
    const struct plm_zhl16 *model = diver->lung.decay.model;
    double low_bar = plmi_ceiling_constant_bar(&diver->tissue, model, diver->gf.low_frac, NULL);
    if (low_bar > diver->gf.surface_bar) {
        diver->gf.anchor_bar = fmax(diver->gf.anchor_bar, low_bar);
    }
    double ambient_bar = diver->gf.surface_bar + diver->depth_m * diver->lung.bar_per_m;
    double ceiling_bar = plmi_ceiling_bar(&diver->tissue, model, &diver->gf, NULL);
    diver->highest_bar = fmax(diver->highest_bar, ceiling_bar - ambient_bar);
}

/* To a depth in dt_s, by pieces of a second or less. */
static void go(struct diver *diver, double to_m, double dt_s)
{
    int pieces = (int)ceil(dt_s);
    double from_m = diver->depth_m;
    for (int i = 1; i <= pieces; i++) {
        double next_m = i == pieces ? to_m : from_m + (to_m - from_m) * i / pieces;
        lung_breathe(&diver->lung, &diver->tissue, diver->depth_m, next_m, diver->setpoint_bar, diver->setpoint_bar,
                     dt_s / pieces);
        diver->depth_m = next_m;
        watch(diver);
    }
}

static void invent(uint32_t seed, struct plm_rules *rules, struct plmi_ascent_from *from, struct diver *diver)
{
    uint32_t s = seed * 2654435761u;
    *rules = plm_rules_default();
    rules->gf_low_pct = floor(lung_between(&s, 20.0, 70.0));
    rules->gf_high_pct = floor(lung_between(&s, rules->gf_low_pct, 100.0));
    rules->last_stop_m = lung_between(&s, 0.0, 1.0) < 0.3 ? 6.0 : 3.0;
    if (seed % 3 == 0) {
        rules->schedule_shallow_rate_m_min = 1.0 + seed % 12;
        rules->schedule_shallow_band_m = seed % 2 == 0 ? 6.0 : 10.5;
    }
    bool on_loop = lung_between(&s, 0.0, 1.0) < 0.5;
    double depth_m = lung_between(&s, 25.0, 120.0);
    double o2 = fmin(0.32, 1.3 / (1.0 + depth_m / 10.0));
    struct plm_mix mix = lung_mix(o2, lung_between(&s, 0.0, 1.0) * depth_m / 150.0);
    double surface_bar = lung_between(&s, 0.7, 1.02), setpoint_bar = lung_between(&s, 1.0, 1.4);
    *diver = (struct diver){
        .lung = {on_loop, mix, surface_bar, plm_bar_per_m(rules->water_kg_m3), 0.0627, {0}},
        .tissue = plm_tissue_saturated(surface_bar, 0.0627, 0.7902),
        .gf = {rules->gf_low_pct / 100.0, rules->gf_high_pct / 100.0, surface_bar, (double)NAN},
        .setpoint_bar = setpoint_bar,
    };
    plmi_decay_init(&diver->lung.decay, plm_zhl16_get(rules->model));
    go(diver, depth_m, depth_m * 3.0);
    go(diver, depth_m, lung_between(&s, 8.0, 35.0) * 60.0);
    *from = (struct plmi_ascent_from){
        .tissue = diver->tissue,
        .depth_m = depth_m,
        .surface_bar = surface_bar,
        .water_kg_m3 = rules->water_kg_m3,
        .anchor_bar = diver->gf.anchor_bar,
        .gas = {.mode = on_loop ? PLM_MODE_CLOSED : PLM_MODE_OPEN,
                .mix = mix,
                .setpoint_bar = setpoint_bar,
                .carried_count = 3,
                .carried = {mix, {0.5, 0.0, 0.5}, {1.0, 0.0, 0.0}},
                .carried_po2_max_bar = {(double)NAN, (double)NAN, (double)NAN}},
    };
    diver->highest_bar = -1.0;
}

/* Up by the schedule; early_s sooner from one stop, after which the next depth is the end. */
static void follow(struct diver *diver, const struct plmi_ascent_from *from, const struct plm_rules *rules,
                   const struct plmi_schedule *schedule, int early_stop, double early_s)
{
    struct plmi_breathing breathing;
    plmi_breathing_find(&breathing, &from->gas, rules);
    int stop = 0;
    while (diver->depth_m > 0.0) {
        double ambient_bar = diver->gf.surface_bar + diver->depth_m * diver->lung.bar_per_m;
        diver->lung.mix = *plmi_breathing_mix(&breathing, ambient_bar);
        bool early = false;
        if (stop < schedule->stop_count && fabs(schedule->stops[stop].depth_m - diver->depth_m) < 1e-6) {
            early = stop == early_stop;
            go(diver, diver->depth_m, schedule->stops[stop].wait_s - (early ? early_s : 0.0));
            stop++;
        }
        double next_m = (ceil(diver->depth_m / 3.0 - 1e-6) - 1.0) * 3.0;
        next_m = next_m < rules->last_stop_m ? 0.0 : next_m;
        if (diver->depth_m > rules->last_stop_m + 1e-6) {
            next_m = fmax(next_m, rules->last_stop_m);
        }
        double edge_m = fmax(next_m, fmin(diver->depth_m, rules->schedule_shallow_band_m));
        go(diver, edge_m, (diver->depth_m - edge_m) / rules->schedule_rate_m_min * 60.0);
        go(diver, next_m, (edge_m - next_m) / rules->schedule_shallow_rate_m_min * 60.0);
        if (early) {
            return;
        }
    }
}

START_TEST(following_the_schedule_breaks_no_ceiling)
{
    struct plm_rules rules;
    struct plmi_ascent_from from;
    struct plmi_schedule schedule;
    struct diver start, diver;
    invent((uint32_t)_i + 1, &rules, &from, &start);
    const struct plm_zhl16 *model = plm_zhl16_get(rules.model);
    plmi_schedule_find(&schedule, &from, model, &rules);
    ck_assert_int_eq(schedule.status, PLM_STATUS_OK);
    diver = start;
    follow(&diver, &from, &rules, &schedule, -1, 0.0);
    double surfacing_pct = plmi_gradient_pct(&diver.tissue, model, from.surface_bar, NULL);
    printf("seed %d: %d stops, worst clearance %.2g bar, surfaced at %.6f of %g percent\n", _i + 1, schedule.stop_count,
           -diver.highest_bar, surfacing_pct, rules.gf_high_pct);
    ck_assert_msg(diver.highest_bar < 1e-6, "seed %d: ceiling broken by %g bar", _i + 1, diver.highest_bar);
    ck_assert_double_lt(surfacing_pct, rules.gf_high_pct + 1e-6);
    for (int i = 0; i < schedule.stop_count; i++) {
        diver = start;
        follow(&diver, &from, &rules, &schedule, i, fmin(30.0, schedule.stops[i].wait_s));
        ck_assert_msg(diver.highest_bar > 1e-9, "seed %d: the stop at %g m can be left early", _i + 1,
                      schedule.stops[i].depth_m);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("schedule_follow");
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, following_the_schedule_breaks_no_ceiling, 0, states);
    Suite *suite = suite_create("ascent");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
