/*
 * Starts and rules that no diver ever had: every schedule comes to an end, and what it tells hangs
 * together. Seeded; the number of the state is printed with what fails. Source: common sense: times
 * are finite or told as unsolvable, waits are above 0, depths fall.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "ascent/schedule.h"
#include "support/lung.h"

static const int states = 20000;

static struct plm_mix any_mix(uint32_t *seed, double least_o2)
{
    double o2_frac = lung_between(seed, least_o2, 1.0);
    double he_frac = lung_between(seed, 0.0, 1.0 - o2_frac);
    return (struct plm_mix){o2_frac, he_frac, fmax(0.0, 1.0 - o2_frac - he_frac)};
}

static struct plm_rules any_rules(uint32_t *seed)
{
    struct plm_rules rules = plm_rules_default();
    rules.gf_low_pct = floor(lung_between(seed, 1.0, 101.0));
    rules.gf_high_pct = floor(lung_between(seed, 1.0, 101.0));
    rules.stop_step_m = lung_between(seed, 0.0, 1.0) < 0.5 ? 3.0 : lung_between(seed, 1.0, 10.0);
    rules.last_stop_m = lung_between(seed, 0.0, 1.0) < 0.5 ? 3.0 : lung_between(seed, 1.0, 10.0);
    rules.schedule_shallow_rate_m_min = lung_between(seed, 1.0, 30.0);
    rules.schedule_shallow_band_m = fmax(0.0, lung_between(seed, -50.0, 50.0));
    rules.deco_setpoint_bar = fmax(0.0, lung_between(seed, -4.0, 2.0));
    return rules;
}

static struct plmi_ascent_from any_start(uint32_t *seed)
{
    struct plmi_ascent_from from = {
        .depth_m = pow(10.0, lung_between(seed, -3.0, 2.3)),
        .surface_bar = lung_between(seed, 0.4, 1.2),
        .water_kg_m3 = lung_between(seed, 900.0, 1100.0),
        .anchor_bar = lung_between(seed, 0.0, 1.0) < 0.4 ? (double)NAN : lung_between(seed, 0.3, 15.0),
    };
    double load_bar = lung_between(seed, 0.1, 10.0), helium = lung_between(seed, 0.0, 1.0);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        from.tissue.n2_bar[i] = load_bar * lung_between(seed, 0.0, 1.0 - helium);
        from.tissue.he_bar[i] = load_bar * lung_between(seed, 0.0, helium);
    }
    from.gas.mode = (enum plm_mode)(int)lung_between(seed, 0.0, 3.0);
    from.gas.mix = any_mix(seed, 0.01);
    from.gas.setpoint_bar = lung_between(seed, 0.0, 2.5);
    from.gas.carried_count = (int)fmax(0.0, lung_between(seed, -16.0, 17.0));
    for (int i = 0; i < from.gas.carried_count; i++) {
        from.gas.carried[i] = any_mix(seed, 0.04);
        from.gas.carried_po2_max_bar[i] = lung_between(seed, 1.0, 2.0);
    }
    return from;
}

static void check_schedule(int state, const struct plmi_schedule *schedule, const struct plmi_ascent_from *from,
                           const struct plm_rules *rules)
{
    double sum_s = 0.0, last_m = from->depth_m + 1e-9;
    for (int i = 0; i < schedule->stop_count; i++) {
        const struct plmi_stop *stop = &schedule->stops[i];
        ck_assert_msg(stop->wait_s > 0.0 && stop->depth_m > 0.0 && stop->depth_m <= last_m, "state %d, stop %d", state,
                      i);
        last_m = stop->depth_m;
        sum_s += stop->wait_s;
    }
    double shallow_m = fmin(from->depth_m, rules->schedule_shallow_band_m);
    double travel_s = 60.0 * (from->depth_m - shallow_m) / rules->schedule_rate_m_min +
                      60.0 * shallow_m / rules->schedule_shallow_rate_m_min;
    ck_assert_msg(fabs(sum_s + travel_s - schedule->tts_s) < 1e-3, "state %d: times do not add up", state);
    double surfacing_pct = plmi_gradient_pct(&schedule->at_surface, plm_zhl16_get(2), from->surface_bar, NULL);
    ck_assert_msg(surfacing_pct < rules->gf_high_pct + 1e-6, "state %d: surfaces at %g percent", state, surfacing_pct);
}

START_TEST(every_schedule_comes_to_an_end)
{
    uint32_t seed = 1;
    static struct plmi_schedule schedule;
    int solved = 0;
    for (int state = 0; state < states; state++) {
        struct plm_rules rules = any_rules(&seed);
        struct plmi_ascent_from from = any_start(&seed);
        plmi_schedule_find(&schedule, &from, plm_zhl16_get(2), &rules);
        double no_stop_s = plmi_no_stop_s(&from, plm_zhl16_get(2), &rules);
        ck_assert_msg(no_stop_s >= 0.0 && no_stop_s <= 60.0 * rules.no_stop_max_min, "state %d", state);
        if (schedule.status == PLM_STATUS_OK) {
            check_schedule(state, &schedule, &from, &rules);
            ck_assert_msg(no_stop_s == 0.0 || schedule.stop_total_s < 1e-2, "state %d: stops and none", state);
            solved++;
        } else {
            ck_assert_int_eq(schedule.status, PLM_STATUS_UNSOLVABLE);
            ck_assert(isinf(schedule.tts_s));
        }
    }
    printf("%d of %d states have a schedule\n", solved, states);
    ck_assert_int_gt(solved, states / 2);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("schedule_strange");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, every_schedule_comes_to_an_end);
    Suite *suite = suite_create("ascent");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
