/*
 * The edges of schedules: starts that cannot be, stops that never clear, mixes and set points chosen.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ascent/breathing.h"
#include "ascent/schedule.h"
#include "tissue/tissue.h"

static const struct plm_mix air = {0.21, 0.0, 0.79};

/* At depth for a time, all at once from the surface. */
static struct plmi_ascent_from bottom(double depth_m, double minutes, const struct plm_mix *mix)
{
    struct plmi_ascent_from from = {
        .tissue = plm_tissue_saturated(1.01325, 0.0627, 0.7902),
        .depth_m = depth_m,
        .surface_bar = 1.01325,
        .water_kg_m3 = 1019.7162,
        .anchor_bar = (double)NAN,
        .gas = {.mode = PLM_MODE_OPEN, .mix = *mix},
    };
    double ambient_bar = plm_ambient_bar(from.surface_bar, depth_m, from.water_kg_m3);
    struct plmi_inspired inspired = plmi_inspired_open(mix, ambient_bar, 0.0627);
    plmi_tissue_hold(&from.tissue, plm_zhl16_get(2), inspired.n2_bar, inspired.he_bar, 60.0 * minutes);
    return from;
}

static struct plmi_schedule schedule_of(const struct plmi_ascent_from *from, const struct plm_rules *rules)
{
    struct plmi_schedule schedule;
    plmi_schedule_find(&schedule, from, plm_zhl16_get(2), rules);
    return schedule;
}

START_TEST(at_the_surface_nothing_is_left_to_do)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(0.0, 60.0, &air);
    for (double depth_m = 0.0; depth_m > -1.0; depth_m -= 0.4) {
        from.depth_m = depth_m;
        struct plmi_schedule schedule = schedule_of(&from, &rules);
        ck_assert_int_eq(schedule.status, PLM_STATUS_OK);
        ck_assert_double_eq(schedule.tts_s, 0.0);
        ck_assert_int_eq(schedule.stop_count, 0);
        ck_assert_mem_eq(&schedule.at_surface, &from.tissue, sizeof from.tissue);
        ck_assert_double_eq(plmi_no_stop_s(&from, plm_zhl16_get(2), &rules), 999.0 * 60.0);
    }
}
END_TEST

/* Everything that can be no number, one at a time. */
START_TEST(starts_that_cannot_be_are_refused)
{
    struct plm_rules rules = plm_rules_default();
    const struct plmi_ascent_from good = bottom(40.0, 30.0, &air);
    struct plmi_ascent_from bad[12];
    for (int i = 0; i < 12; i++) {
        bad[i] = good;
    }
    bad[0].depth_m = (double)NAN;
    bad[1].surface_bar = (double)NAN;
    bad[2].surface_bar = 0.0;
    bad[3].water_kg_m3 = (double)INFINITY;
    bad[4].tissue.n2_bar[5] = (double)NAN;
    bad[5].tissue.he_bar[15] = -1.0;
    bad[6].gas.mix.o2_frac = (double)NAN;
    bad[7].gas.mix.o2_frac = 0.0;
    bad[8].gas.carried_count = PLMI_CARRIED_MAX + 1;
    bad[9].gas.mode = PLM_MODE_CLOSED;
    bad[9].gas.setpoint_bar = (double)NAN;
    bad[10].depth_m = (double)INFINITY;
    bad[11].gas.carried_count = 1;
    bad[11].gas.carried[0].he_frac = 2.0;
    for (int i = 0; i < 12; i++) {
        struct plmi_schedule schedule = schedule_of(&bad[i], &rules);
        ck_assert_int_eq(schedule.status, PLM_STATUS_ARGUMENT);
        ck_assert_int_eq(schedule.stop_count, 0);
        ck_assert(isnan(schedule.tts_s));
        ck_assert(isnan(plmi_tts_s(&bad[i], plm_zhl16_get(2), &rules)));
        ck_assert(isnan(plmi_no_stop_s(&bad[i], plm_zhl16_get(2), &rules)));
    }
    ck_assert_int_eq(schedule_of(&good, &rules).status, PLM_STATUS_OK);
}
END_TEST

START_TEST(a_stop_that_never_clears_is_told)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix lean = {0.04, 0.0, 0.96};
    rules.gf_low_pct = rules.gf_high_pct = 1.0;
    struct plmi_ascent_from from = bottom(30.0, 2000.0, &lean);
    struct plmi_schedule schedule = schedule_of(&from, &rules);
    ck_assert_int_eq(schedule.status, PLM_STATUS_UNSOLVABLE);
    ck_assert(isinf(schedule.tts_s));
    ck_assert(isinf(plmi_tts_s(&from, plm_zhl16_get(2), &rules)));
    ck_assert_double_eq(plmi_no_stop_s(&from, plm_zhl16_get(2), &rules), 0.0);
}
END_TEST

START_TEST(a_schedule_has_a_longest_length)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(60.0, 120.0, &air);
    ck_assert_double_gt(plmi_tts_s(&from, plm_zhl16_get(2), &rules), 2.0 * 3600.0);
    rules.schedule_max_h = 1.0;
    ck_assert_int_eq(schedule_of(&from, &rules).status, PLM_STATUS_UNSOLVABLE);
    /* The rule is about hours of stops: a second more than they take is enough, a second less is not. */
    rules.schedule_max_h = 100.0;
    double stops_s = schedule_of(&from, &rules).stop_total_s;
    rules.schedule_max_h = (stops_s + 1.0) / 3600.0;
    ck_assert_int_eq(schedule_of(&from, &rules).status, PLM_STATUS_OK);
    rules.schedule_max_h = (stops_s - 1.0) / 3600.0;
    ck_assert_int_eq(schedule_of(&from, &rules).status, PLM_STATUS_UNSOLVABLE);
}
END_TEST

START_TEST(as_many_mixes_are_carried_as_there_is_room_for)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(30.0, 30.0, &air);
    for (int i = 0; i < PLMI_CARRIED_MAX; i++) {
        from.gas.carried[i] = air;
        from.gas.carried_po2_max_bar[i] = (double)NAN;
    }
    from.gas.carried_count = PLMI_CARRIED_MAX;
    ck_assert_int_eq(schedule_of(&from, &rules).status, PLM_STATUS_OK);
    from.gas.carried_count = PLMI_CARRIED_MAX + 1;
    ck_assert_int_eq(schedule_of(&from, &rules).status, PLM_STATUS_ARGUMENT);
}
END_TEST

START_TEST(stops_are_where_rules_put_them)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(47.3, 40.0, &air);
    static const double steps_m[][2] = {{3.0, 3.0}, {3.0, 6.0}, {3.0, 4.5}, {2.0, 5.0}, {5.0, 1.5}};
    for (int i = 0; i < 5; i++) {
        rules.stop_step_m = steps_m[i][0];
        rules.last_stop_m = steps_m[i][1];
        struct plmi_schedule schedule = schedule_of(&from, &rules);
        double sum_s = 0.0;
        ck_assert_int_gt(schedule.stop_count, 1);
        for (int s = 0; s < schedule.stop_count; s++) {
            double depth_m = schedule.stops[s].depth_m;
            double off_m = fabs(remainder(depth_m, rules.stop_step_m));
            ck_assert(off_m < 1e-9 || fabs(depth_m - rules.last_stop_m) < 1e-9);
            ck_assert(depth_m >= rules.last_stop_m && schedule.stops[s].wait_s > 0.0);
            ck_assert(s == 0 || depth_m < schedule.stops[s - 1].depth_m);
            sum_s += schedule.stops[s].wait_s;
        }
        double band_m = rules.schedule_shallow_band_m;
        double travel_s = (from.depth_m - band_m) / rules.schedule_rate_m_min * 60.0 +
                          band_m / rules.schedule_shallow_rate_m_min * 60.0;
        ck_assert_double_eq_tol(schedule.stop_total_s, sum_s, 1e-9);
        ck_assert_double_eq_tol(schedule.tts_s, sum_s + travel_s, 1e-6);
        ck_assert_double_eq(schedule.tts_s, plmi_tts_s(&from, plm_zhl16_get(2), &rules));
    }
}
END_TEST

/* Without stops the way up is all: 14 m at 9 m/min and 6 m at 6 m/min; at one rate; and the last 5 m at 3 m/min. */
START_TEST(the_shallow_band_has_a_rate_of_its_own)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(20.0, 5.0, &air);
    ck_assert_double_eq_tol(schedule_of(&from, &rules).tts_s, 14.0 / 9.0 * 60.0 + 60.0, 1e-9);
    rules.schedule_shallow_band_m = 0.0;
    ck_assert_double_eq_tol(schedule_of(&from, &rules).tts_s, 20.0 / 9.0 * 60.0, 1e-9);
    rules.schedule_shallow_rate_m_min = 3.0;
    ck_assert_double_eq_tol(schedule_of(&from, &rules).tts_s, 20.0 / 9.0 * 60.0, 1e-9);
    rules.schedule_shallow_band_m = 5.0;
    ck_assert_double_eq_tol(schedule_of(&from, &rules).tts_s, 15.0 / 9.0 * 60.0 + 100.0, 1e-9);
    from.depth_m = 4.0;
    ck_assert_double_eq_tol(schedule_of(&from, &rules).tts_s, 80.0, 1e-9);
}
END_TEST

/* Between stops, above the ceiling: the wait is where the diver is. */
START_TEST(a_start_between_stops_waits_there)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(40.0, 60.0, &air);
    from.depth_m = 7.5;
    struct plmi_schedule schedule = schedule_of(&from, &rules);
    ck_assert_int_eq(schedule.status, PLM_STATUS_OK);
    ck_assert_double_eq(schedule.stops[0].depth_m, 7.5);
    ck_assert_double_eq(schedule.stops[1].depth_m, 6.0);
}
END_TEST

START_TEST(more_stops_than_fit_are_added_to_the_last)
{
    struct plm_rules rules = plm_rules_default();
    rules.stop_step_m = 1.0;
    rules.last_stop_m = 1.0;
    rules.gf_low_pct = 1.0;
    rules.schedule_max_h = 1000.0;
    const struct plm_mix deep = {0.01, 0.98, 0.01};
    struct plmi_ascent_from from = bottom(1500.0, 5000.0, &deep);
    from.gas.carried_count = 2;
    from.gas.carried[0] = deep;
    from.gas.carried[1] = (struct plm_mix){0.2, 0.8, 0.0};
    from.gas.carried_po2_max_bar[0] = 100.0;
    from.gas.carried_po2_max_bar[1] = 1.6;
    struct plmi_schedule schedule = schedule_of(&from, &rules);
    ck_assert_int_eq(schedule.stop_count, PLMI_STOPS_MAX);
    double sum_s = 0.0;
    for (int i = 0; i < schedule.stop_count; i++) {
        sum_s += schedule.stops[i].wait_s;
    }
    ck_assert_double_eq_tol(sum_s, schedule.stop_total_s, 1e-3);
}
END_TEST

/* The mix at each depth: oxygen limit, its slack, the density limit, and what is left when none holds. */
START_TEST(mixes_are_taken_as_rules_allow)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_gas gas = {
        .mode = PLM_MODE_OPEN,
        .mix = {0.15, 0.55, 0.30},
        .carried_count = 4,
        .carried = {{0.15, 0.55, 0.30}, {0.21, 0.0, 0.79}, {0.5, 0.0, 0.5}, {1.0, 0.0, 0.0}},
        .carried_po2_max_bar = {(double)NAN, (double)NAN, (double)NAN, (double)NAN},
    };
    struct plmi_breathing breathing;
    plmi_breathing_find(&breathing, &gas, &rules);
    static const double expected[][2] = {
        /* ambient bar, oxygen of the mix */
        {1.01325, 1.0},  {1.61325, 1.0}, /* 6 m: 1.613 bar, within the slack */
        {1.63, 0.5},     {3.11325, 0.5}, /* 21 m */
        {3.41325, 0.21},                 /* 24 m: air within its density, 4.34 g/L */
        {6.01325, 0.15},                 /* air would be 7.6 g/L */
        {9.0, 0.15},     {30.0, 0.15},   /* too rich as well: the one that is breathed */
    };
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        ck_assert_double_eq(plmi_breathing_mix(&breathing, expected[i][0])->o2_frac, expected[i][1]);
    }
    gas.carried_po2_max_bar[3] = 1.4;
    plmi_breathing_find(&breathing, &gas, &rules);
    ck_assert_double_eq(plmi_breathing_mix(&breathing, 1.61325)->o2_frac, 0.5);
    /* Where none keeps the density, it does not choose. */
    gas.carried_count = 1;
    gas.mix = gas.carried[0] = air;
    plmi_breathing_find(&breathing, &gas, &rules);
    ck_assert_double_eq(plmi_breathing_mix(&breathing, 7.0)->o2_frac, 0.21);
}
END_TEST

START_TEST(a_deco_set_point_takes_the_place_of_the_one_in_force)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix diluent = {0.10, 0.60, 0.30};
    struct plmi_ascent_from from = bottom(60.0, 30.0, &diluent);
    from.gas.mode = PLM_MODE_CLOSED;
    from.gas.setpoint_bar = 1.0;
    double at_one_s = plmi_tts_s(&from, plm_zhl16_get(2), &rules);
    rules.deco_setpoint_bar = 1.3;
    double by_rule_s = plmi_tts_s(&from, plm_zhl16_get(2), &rules);
    rules.deco_setpoint_bar = 0.0;
    from.gas.setpoint_bar = 1.3;
    ck_assert_double_lt(by_rule_s, at_one_s - 60.0);
    ck_assert_double_eq(plmi_tts_s(&from, plm_zhl16_get(2), &rules), by_rule_s);
}
END_TEST

START_TEST(semiclosed_is_open_circuit_on_its_mix)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_from from = bottom(40.0, 40.0, &air);
    double open_s = plmi_tts_s(&from, plm_zhl16_get(2), &rules);
    from.gas.mode = PLM_MODE_SEMICLOSED;
    from.gas.carried_count = 1;
    from.gas.carried[0] = (struct plm_mix){1.0, 0.0, 0.0};
    ck_assert_double_eq(plmi_tts_s(&from, plm_zhl16_get(2), &rules), open_s);
}
END_TEST

/* One more second of bottom is more decompression, but by little: no jumps, the same each time. */
START_TEST(time_to_surface_grows_smoothly)
{
    struct plm_rules rules = plm_rules_default();
    double last_s = 0.0;
    for (int second = 0; second < 600; second++) {
        struct plmi_ascent_from from = bottom(50.0, 20.0 + second / 60.0, &air);
        double tts_s = plmi_tts_s(&from, plm_zhl16_get(2), &rules);
        ck_assert_double_eq(tts_s, plmi_tts_s(&from, plm_zhl16_get(2), &rules));
        if (second > 0) {
            ck_assert_double_gt(tts_s, last_s);
            ck_assert_double_lt(tts_s, last_s + 10.0);
        }
        last_s = tts_s;
    }
}
END_TEST

START_TEST(strange_rules_come_to_an_end)
{
    static const double gf[][2] = {{100, 1}, {1, 100}, {1, 1}, {100, 100}, {90, 20}};
    for (int i = 0; i < 5; i++) {
        for (double depth_m = 0.01; depth_m < 400.0; depth_m *= 3.1) {
            struct plm_rules rules = plm_rules_default();
            rules.gf_low_pct = gf[i][0];
            rules.gf_high_pct = gf[i][1];
            struct plmi_ascent_from from = bottom(depth_m, 30.0, &air);
            struct plmi_schedule schedule = schedule_of(&from, &rules);
            ck_assert(schedule.tts_s > 0.0);
            ck_assert(plmi_no_stop_s(&from, plm_zhl16_get(2), &rules) >= 0.0);
        }
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("schedule");
    tcase_add_test(tests, at_the_surface_nothing_is_left_to_do);
    tcase_add_test(tests, starts_that_cannot_be_are_refused);
    tcase_add_test(tests, a_stop_that_never_clears_is_told);
    tcase_add_test(tests, a_schedule_has_a_longest_length);
    tcase_add_test(tests, as_many_mixes_are_carried_as_there_is_room_for);
    tcase_add_test(tests, stops_are_where_rules_put_them);
    tcase_add_test(tests, the_shallow_band_has_a_rate_of_its_own);
    tcase_add_test(tests, a_start_between_stops_waits_there);
    tcase_add_test(tests, more_stops_than_fit_are_added_to_the_last);
    tcase_add_test(tests, mixes_are_taken_as_rules_allow);
    tcase_add_test(tests, a_deco_set_point_takes_the_place_of_the_one_in_force);
    tcase_add_test(tests, semiclosed_is_open_circuit_on_its_mix);
    tcase_add_test(tests, time_to_surface_grows_smoothly);
    tcase_add_test(tests, strange_rules_come_to_an_end);
    Suite *suite = suite_create("ascent");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
