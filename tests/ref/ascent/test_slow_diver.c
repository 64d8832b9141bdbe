/*
 * Schedules against the slow diver, who is written apart: 100 seeded states, time to surface and
 * each stop within 2 s; and no-stop times against the longest stay from which the slow diver goes
 * up directly. Source of the definitions: plimsoll-model(7), SCHEDULE.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "ascent/schedule.h"
#include "ref/ascent/slow_diver.h"

static const int states = 100;
static const double tolerance_s = 2.0;

/* Numerical Recipes' linear congruence; the seed is printed with what fails. */
static double between(uint32_t *seed, double low, double high)
{
    *seed = *seed * 1664525u + 1013904223u;
    return low + (high - low) * (*seed >> 8) / 16777216.0;
}

static struct plm_mix mix_of(const struct slow_mix *mix)
{
    return (struct plm_mix){mix->o2, mix->he, 1.0 - mix->o2 - mix->he};
}

/* Rules and a diver at the bottom, by seed. */
static void invent(uint32_t seed, struct plm_rules *rules, struct slow_diver *d)
{
    uint32_t s = seed * 2654435761u;
    *rules = plm_rules_default();
    rules->model = (int)between(&s, 0.0, 2.999);
    rules->gf_low_pct = floor(between(&s, 20.0, 60.0));
    rules->gf_high_pct = floor(between(&s, rules->gf_low_pct, 100.0));
    rules->last_stop_m = between(&s, 0.0, 1.0) < 0.3 ? 6.0 : 3.0;
    rules->stop_step_m = between(&s, 0.0, 1.0) < 0.2 ? 2.0 : 3.0;
    rules->schedule_rate_m_min = floor(between(&s, 6.0, 12.0));
    /* One in two goes slower in a shallow band, or faster, from wherever its edge may be. */
    uint32_t own = seed * 2246822519u;
    if (between(&own, 0.0, 1.0) < 0.5) {
        rules->schedule_shallow_rate_m_min = between(&own, 1.0, 12.0);
        rules->schedule_shallow_band_m = between(&own, 1.0, 30.0);
    }
    double surface_bar = plm_standard_atmosphere_bar(between(&s, 0.0, 1.0) < 0.3 ? 2000.0 : 0.0);
    *d = (struct slow_diver){
        .model = plm_zhl16_get(rules->model),
        .surface_bar = surface_bar,
        .bar_per_m = between(&s, 1000.0, 1030.0) * 9.80665e-5,
        .vapour_bar = rules->water_vapour_bar,
        .gf_low = rules->gf_low_pct / 100.0,
        .gf_high = rules->gf_high_pct / 100.0,
        .step_m = rules->stop_step_m,
        .last_m = rules->last_stop_m,
        .rate_m_s = rules->schedule_rate_m_min / 60.0,
        .shallow_rate_m_s = rules->schedule_shallow_rate_m_min / 60.0,
        .shallow_m = rules->schedule_shallow_band_m,
        .po2_max_bar = rules->deco_po2_max_bar + rules->deco_po2_slack_bar,
        .density_max_g_l = rules->deco_density_max_g_l,
        .on_loop = between(&s, 0.0, 1.0) < 0.5,
        .setpoint_bar = between(&s, 1.0, 1.4),
        .mix_count = 1,
    };
    double depth_m = between(&s, 15.0, 120.0);
    double o2 = fmin(0.32, 1.3 / (surface_bar + depth_m / 10.0));
    d->mixes[0] = (struct slow_mix){o2, fmin(0.98 - o2, between(&s, 0.0, depth_m / 150.0))};
    if (!d->on_loop && between(&s, 0.0, 1.0) < 0.8) {
        d->mixes[d->mix_count++] = (struct slow_mix){0.5, between(&s, 0.0, 1.0) < 0.3 ? 0.2 : 0.0};
        d->mixes[d->mix_count++] = (struct slow_mix){1.0, 0.0};
    }
    slow_go_down(d, depth_m, between(&s, 10.0, 40.0) * 60.0);
}

static struct plmi_ascent_from from_of(const struct slow_diver *d)
{
    struct plmi_ascent_from from = {
        .depth_m = d->depth_m,
        .surface_bar = d->surface_bar,
        .water_kg_m3 = d->bar_per_m / 9.80665e-5,
        .anchor_bar = d->anchor_bar > d->surface_bar ? d->anchor_bar : (double)NAN,
        .gas = {.mode = d->on_loop ? PLM_MODE_CLOSED : PLM_MODE_OPEN,
                .mix = mix_of(&d->mixes[0]),
                .setpoint_bar = d->setpoint_bar,
                .carried_count = d->on_loop ? 0 : d->mix_count},
    };
    for (int i = 0; i < from.gas.carried_count; i++) {
        from.gas.carried[i] = mix_of(&d->mixes[i]);
        from.gas.carried_po2_max_bar[i] = (double)NAN;
    }
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        from.tissue.n2_bar[c] = d->n2[c];
        from.tissue.he_bar[c] = d->he[c];
    }
    return from;
}

/* [s] the wait at a depth in a schedule; 0 when there is none. */
static double wait_at_s(const struct plmi_schedule *schedule, double depth_m)
{
    double sum_s = 0.0;
    for (int i = 0; i < schedule->stop_count; i++) {
        sum_s += fabs(schedule->stops[i].depth_m - depth_m) < 1e-6 ? schedule->stops[i].wait_s : 0.0;
    }
    return sum_s;
}

START_TEST(schedule_is_that_of_the_slow_diver)
{
    uint32_t seed = (uint32_t)_i + 1;
    struct plm_rules rules;
    struct slow_diver d;
    struct plmi_schedule schedule;
    invent(seed, &rules, &d);
    struct plmi_ascent_from from = from_of(&d);
    plmi_schedule_find(&schedule, &from, d.model, &rules);
    ck_assert_int_eq(schedule.status, PLM_STATUS_OK);
    ck_assert_msg(slow_go_up(&d, 4e5), "seed %u: the slow diver never surfaces", seed);
    double worst_s = 0.0;
    for (int i = 0; i < d.stop_count; i++) {
        double off_s = fabs(wait_at_s(&schedule, d.depths_m[i]) - d.waits_s[i]);
        ck_assert_msg(off_s < tolerance_s, "seed %u: at %g m %g s, slow diver %g s", seed, d.depths_m[i],
                      wait_at_s(&schedule, d.depths_m[i]), d.waits_s[i]);
        worst_s = fmax(worst_s, off_s);
    }
    printf("seed %3u: %2d stops, to surface %8.2f s, slow diver %8.2f s, worst stop off by %.3f s\n", seed,
           schedule.stop_count, schedule.tts_s, d.tts_s, worst_s);
    ck_assert_msg(fabs(schedule.tts_s - d.tts_s) < tolerance_s, "seed %u: %g s, slow diver %g s", seed, schedule.tts_s,
                  d.tts_s);
    ck_assert_int_le(abs(schedule.stop_count - d.stop_count), 1);
}
END_TEST

START_TEST(no_stop_time_is_that_of_the_slow_diver)
{
    uint32_t s = ((uint32_t)_i + 1) * 2654435761u;
    double depth_m = between(&s, 12.0, 45.0);
    struct plm_rules rules;
    struct slow_diver d;
    invent((uint32_t)_i + 1, &rules, &d);
    d.on_loop = false;
    d.mix_count = 1;
    d.mixes[0] = (struct slow_mix){0.21, between(&s, 0.0, 1.0) < 0.5 ? 0.0 : 0.35};
    slow_go_down(&d, depth_m, depth_m * 3.0 + 1.0);
    struct plmi_ascent_from from = from_of(&d);
    double no_stop_s = plmi_no_stop_s(&from, d.model, &rules);
    struct slow_diver stayed = d;
    ck_assert(no_stop_s < rules.no_stop_max_min * 60.0);
    if (no_stop_s > tolerance_s) {
        slow_stay(&stayed, no_stop_s - tolerance_s);
        ck_assert_msg(slow_is_direct(&stayed), "at %g m %g s is too long", depth_m, no_stop_s);
        slow_stay(&stayed, 2.0 * tolerance_s);
    }
    printf("%.1f m, helium %.2f: no stop for %.1f s\n", depth_m, d.mixes[0].he, no_stop_s);
    ck_assert_msg(!slow_is_direct(&stayed), "at %g m %g s is too short", depth_m, no_stop_s);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("slow_diver");
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, schedule_is_that_of_the_slow_diver, 0, states);
    tcase_add_loop_test(tests, no_stop_time_is_that_of_the_slow_diver, 0, 20);
    Suite *suite = suite_create("ascent");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
