/*
 * What the builder takes, repairs, drops and tells. Source: the contract in plimsoll/dive_builder.h, and for the edges
 * of a record the rules of this project in plimsoll(1).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <plimsoll/dive_builder.h>
#include <stdlib.h>

#include "unit/dive/built.h"

/* Depths at every 10 s. */
static void record_depths(const double *depths, int count)
{
    begin();
    for (int i = 0; i < count; i++) {
        add(10 * i, depths[i], (uint32_t)i + 2);
    }
    finish();
}

static void wet_is(double surface_m, int64_t expected_from_ms, int64_t expected_to_ms)
{
    struct plm_rules other = plm_rules_default();
    int64_t from_ms, to_ms;
    other.surface_depth_m = surface_m;
    plm_dive_wet(dive, &other, &from_ms, &to_ms);
    ck_assert_int_eq(from_ms, expected_from_ms);
    ck_assert_int_eq(to_ms, expected_to_ms);
}

START_TEST(under_water_from_the_sample_before_to_the_end_of_the_rise)
{
    static const double depths[] = {0, 0.3, 5, 0.2, 9, 0.4, 0, 0};
    record_depths(depths, 8);
    wet_is(0.5, 10000, 60000);
    wet_is(20, 0, 70000);
    end();
}
END_TEST

/* A head that comes no deeper than 1.0 m is at the surface, whatever a shallower bound would say. */
START_TEST(a_swim_at_the_surface_is_no_time_under_water)
{
    static const double depths[] = {0, 9, 3, 0.9, 0.2, 0.8, 0.9, 0.3, 0.9, 0.7};
    record_depths(depths, 10);
    wet_is(1.0, 0, 40000);
    wet_is(0.5, 0, 90000);
    end();
}
END_TEST

/* After a minute at the surface a head under water at 1.4 m is no dive; at 1.6 m, nearer to a stop at 3 m, it is. */
START_TEST(who_dips_under_after_a_minute_has_surfaced_before)
{
    static const double dips[] = {0, 9, 0.9, 0, 0, 0, 0, 0, 0, 1.4, 0, 0},
                        down[] = {0, 9, 0.9, 0, 0, 0, 0, 0, 0, 1.6, 0, 0},
                        early[] = {0, 9, 0.9, 0, 0, 0, 0, 1.4, 0, 0, 0, 0},
                        ends[] = {0, 9, 0.9, 0, 0, 0, 0, 0, 0, 1.6, 2, 3};
    record_depths(dips, 12);
    wet_is(1.0, 0, 30000);
    end();
    record_depths(down, 12);
    wet_is(1.0, 0, 100000);
    end();
    record_depths(early, 12);
    wet_is(1.0, 0, 80000);
    end();
    record_depths(ends, 12);
    wet_is(1.0, 0, 110000);
    end();
}
END_TEST

START_TEST(a_plain_dive)
{
    add(0, 0, 2);
    add(60, 20, 3);
    add(120, 0, 4);
    finish();
    const struct plm_sample *all = samples(3);
    ck_assert_int_eq(all[1].time_ms, 60000);
    ck_assert(all[1].depth_m == 20);
    ck_assert_uint_eq(all[2].line, 4);
    ck_assert_int_eq(told.count, 0);
    size_t count;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert(mixes[0].mix.o2_frac == 0.21 && mixes[0].mix.he_frac == 0);
    ck_assert(!plm_dive_info_get(dive)->gas_known);
    ck_assert(!plm_dive_info_get(dive)->mode_known);
    ck_assert(isnan(plm_dive_info_get(dive)->surface_interval_s));
    end();
}
END_TEST

START_TEST(settings_hold_from_the_next_sample_on)
{
    uint32_t bottom;
    uint32_t deco;
    ck_assert_int_eq(
        plm_dive_builder_mix(builder, "b", "bottom", 0.18, 0.45, NAN, NAN, NAN, PLM_MIX_USE_ANY, 1, &bottom),
        PLM_STATUS_OK);
    plm_dive_builder_mode(builder, PLM_MODE_CLOSED, 2);
    plm_dive_builder_switch(builder, bottom, 2);
    plm_dive_builder_setpoint(builder, 0.7, 2);
    add(0, 0, 2);
    add(60, 30, 3);
    plm_dive_builder_setpoint(builder, 1.3, 4);
    add(120, 60, 4);
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 0.5, 0, 5, &deco), PLM_STATUS_OK);
    plm_dive_builder_mode(builder, PLM_MODE_OPEN, 5);
    plm_dive_builder_switch(builder, deco, 5);
    add(900, 20, 5);
    add(1000, 0, 6);
    finish();
    const struct plm_sample *all = samples(5);
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    ck_assert_uint_eq(count, 3);
    ck_assert_uint_eq(all[1].setting, 0);
    ck_assert_uint_eq(all[2].setting, 1);
    ck_assert_uint_eq(all[4].setting, 2);
    ck_assert(settings[0].setpoint_bar == 0.7 && settings[1].setpoint_bar == 1.3 && settings[2].setpoint_bar == 1.3);
    ck_assert_int_eq(settings[2].mode, PLM_MODE_OPEN);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(mixes[1].name, "nitrox 50");
    ck_assert_int_eq(mixes[0].use, PLM_MIX_USE_DILUENT);
    ck_assert(!mixes[0].carried && mixes[1].carried);
    ck_assert(plm_dive_info_get(dive)->gas_known && plm_dive_info_get(dive)->mode_known);
    end();
}
END_TEST

START_TEST(what_cannot_be_is_dropped_and_told)
{
    add(0, 0, 2);
    add(60, 20, 3);
    add(58, 21, 4);
    add(70, NAN, 5);
    add(80, INFINITY, 6);
    add(90, 501, 7);
    struct plm_sample odd = {.time_ms = 100000,
                             .depth_m = 10,
                             .temp_c = INFINITY,
                             .po2_bar = 11,
                             .cell_bar = {-1, 1, NAN, NAN, NAN},
                             .line = 8};
    ck_assert_int_eq(plm_dive_builder_sample(builder, &odd), PLM_STATUS_OK);
    plm_dive_builder_setpoint(builder, 3.5, 9);
    plm_dive_builder_setpoint(builder, 0, 9);
    add(120, 0, 9);
    finish();
    const struct plm_sample *all = samples(4);
    ck_assert(isnan(all[2].temp_c) && isnan(all[2].po2_bar) && isnan(all[2].cell_bar[0]) && all[2].cell_bar[1] == 1);
    ck_assert(diag_list_has(&told, "d.csv:4: warning: time goes back by 2 s; sample dropped [time-order]"));
    ck_assert(diag_list_has(&told, "d.csv:5: warning: no depth; sample dropped [depth-missing]"));
    ck_assert(diag_list_has(&told, "d.csv:6: warning: no depth; sample dropped [depth-missing]"));
    ck_assert(diag_list_has(&told, "d.csv:7: warning: a depth of 501.0 m is beyond 500 m"));
    ck_assert(diag_list_has(&told, "d.csv:8: warning: an oxygen pressure of 11.00 bar cannot be"));
    ck_assert(diag_list_has(&told, "d.csv:8: warning: an oxygen pressure of -1.00 bar cannot be"));
    ck_assert(diag_list_has(&told, "d.csv:9: warning: a set point of 3.50 bar cannot be"));
    end();
}
END_TEST

START_TEST(depths_above_the_surface_become_zero)
{
    add(0, -0.4, 2);
    add(60, 20, 3);
    add(100, -2.5, 4);
    add(120, -0.0, 5);
    finish();
    const struct plm_sample *all = samples(4);
    for (int i = 0; i < 4; i++) {
        ck_assert(all[i].depth_m >= 0 && !signbit(all[i].depth_m));
    }
    ck_assert_int_eq(told.count, 1);
    ck_assert(
        diag_list_has(&told, "d.csv:4: warning: a depth of -2.5 m is above the surface; 0 m taken [depth-negative]"));
    end();
}
END_TEST

START_TEST(one_moment_twice)
{
    add(0, 0, 2);
    add(60, 20, 3);
    struct plm_sample more = {.time_ms = 60000,
                              .depth_m = 20,
                              .temp_c = 11,
                              .po2_bar = NAN,
                              .cell_bar = {1.2, NAN, NAN, NAN, NAN},
                              .line = 4};
    ck_assert_int_eq(plm_dive_builder_sample(builder, &more), PLM_STATUS_OK);
    add(60, 21, 5); /* a step stays */
    add(120, 0, 6);
    finish();
    const struct plm_sample *all = samples(4);
    ck_assert(all[1].temp_c == 11 && all[1].cell_bar[0] == 1.2);
    ck_assert(all[2].time_ms == 60000 && all[2].depth_m == 21);
    end();
}
END_TEST

START_TEST(a_record_that_begins_below_gets_a_surface)
{
    add(10, 6, 2);
    add(20, 12, 3);
    add(30, 0, 4);
    finish();
    const struct plm_sample *all = samples(4);
    ck_assert(all[0].time_ms == 0 && all[0].depth_m == 0 && all[0].line == 0 && all[0].setting == all[1].setting);
    ck_assert(diag_list_has(&told, "d.csv:2: warning: the record begins at 6.0 m, 10 s; a start at the surface at 0 s "
                                   "is put before it [dive-edges]"));
    end();
    begin();
    add(0, 4, 2);
    add(20, 12, 3);
    add(30, 8, 4);
    finish();
    all = samples(4);
    ck_assert(all[0].time_ms == 0 && all[0].depth_m == 0 && all[1].time_ms == 0 && all[1].depth_m == 4);
    ck_assert(
        diag_list_has(&told, "d.csv:4: warning: the record ends at 8.0 m; the dive is closed there [dive-edges]"));
    end();
    begin();
    add(7200, 4, 2); /* a clock that ran before the dive */
    add(7220, 12, 3);
    add(7230, 0, 4);
    finish();
    all = samples(4);
    ck_assert(all[0].time_ms == 7200000 && all[0].depth_m == 0);
    end();
    begin();
    /* samples far apart, and longer before the first than a gap in the water may be: no descent of two hours */
    add(7200, 31.5, 2);
    add(10200, 12, 3);
    add(13200, 0, 4);
    finish();
    all = samples(4);
    ck_assert(all[0].time_ms == 7200000 && all[0].depth_m == 0 && all[1].time_ms == 7200000);
    ck_assert(diag_list_has(&told, "d.csv:2: warning: the record begins at 31.5 m, 7200 s; a start at the surface at "
                                   "7200 s is put before it [dive-edges]"));
    end();
}
END_TEST

/* Shallower than 3 m an edge is one that a diver swims to; from there on a start or an end is missing. Common practice,
 * no source. */
START_TEST(edges_count_from_3_m_on)
{
    for (int deep = 0; deep <= 1; deep++) {
        if (deep) {
            begin();
        }
        add(10, deep ? 3.0 : 2.99, 2);
        add(20, 6, 3);
        add(30, deep ? 3.0 : 2.99, 4);
        finish();
        ck_assert_int_eq(told.count, 2);
        ck_assert_msg(
            diag_list_has(&told, deep ? "d.csv:2: warning: the record begins" : "d.csv:2: note: the record begins"),
            "%s", told.lines[0]);
        ck_assert_msg(
            diag_list_has(&told, deep ? "d.csv:4: warning: the record ends" : "d.csv:4: note: the record ends"), "%s",
            told.lines[1]);
        ck_assert_int_eq(plm_dive_info_get(dive)->ends_in_water, deep);
        end();
    }
}
END_TEST

START_TEST(what_is_no_dive)
{
    add(0, 0, 2);
    ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_INPUT);
    builder = NULL;
    ck_assert_ptr_null(dive);
    ck_assert(diag_list_has(&told, "error: dive 1 has 1 usable samples, 2 are needed; not read [dive-skipped]"));
    begin();
    add(0, 0, 2);
    add(60, 0, 3);
    ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_INPUT);
    builder = NULL;
    ck_assert(diag_list_has(&told, "error: dive 1 never leaves the surface; not read [dive-skipped]"));
    begin();
    plm_dive_builder_free(builder);
    plm_dive_builder_free(NULL);
    plm_dive_free(NULL);
}
END_TEST

/* What a dive can have around it: plimsoll-log(5). What is left standing is what a log can tell, limits among it. */
START_TEST(surroundings_that_cannot_be_are_dropped_and_told)
{
    static const struct {
        double surface_bar, altitude_m, water_kg_m3;
        bool kept;
        const char *told;
    } trials[] = {
        {0.4, -500, 900, true, ""},
        {1.2, 9000, 1100, true, ""},
        {0, 0, 1000, false, "a surface pressure of 0.000 bar is not within 0.4 to 1.2; it is left aside"},
        {1.21, 0, 1000, false, "a surface pressure of 1.210 bar is not within"},
        {(double)INFINITY, 0, 1000, false, "a surface pressure of"},
        {1, 9001, 1000, false, "an altitude of 9001 m is not within -500 to 9000; it is left aside"},
        {1, 0, 1101, false, "a density of 1101 kg/m3 is not within 900 to 1100; it is left aside"},
        {1, 0, -1e300, false, "a density of"},
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        begin();
        struct plm_dive_info *info = plm_dive_builder_info(builder);
        info->surface_bar = trials[i].surface_bar;
        info->altitude_m = trials[i].altitude_m;
        info->water_kg_m3 = trials[i].water_kg_m3;
        add(0, 0, 2);
        add(60, 20, 3);
        add(120, 0, 4);
        finish();
        const struct plm_dive_info *kept = plm_dive_info_get(dive);
        bool all = kept->surface_bar == trials[i].surface_bar && kept->altitude_m == trials[i].altitude_m &&
                   kept->water_kg_m3 == trials[i].water_kg_m3;
        ck_assert_msg(all == trials[i].kept, "trial %zu", i);
        ck_assert_msg(trials[i].kept ? told.count == 0 : diag_list_has(&told, trials[i].told), "trial %zu: %s", i,
                      told.lines[0]);
        end();
    }
}
END_TEST

START_TEST(steps_and_intervals_that_cannot_be)
{
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    info->depth_step_m = 1e300;
    info->surface_interval_s = -5;
    add(0, 0, 2);
    add(60, 20, 3);
    add(120, 0, 4);
    finish();
    ck_assert(!(plm_dive_info_get(dive)->depth_step_m > 10) && isnan(plm_dive_info_get(dive)->surface_interval_s));
    ck_assert(diag_list_has(&told, "a step of depths of") &&
              diag_list_has(&told, "a surface interval of -5 s is not within"));
    end();
}
END_TEST

START_TEST(gaps_and_impossible_rates)
{
    for (int i = 0; i <= 20; i++) {
        add(i * 10, i < 10 ? i * 2 : 40 - i * 2, (uint32_t)(i + 2));
    }
    add(300, 10, 30);
    add(310, 12, 31);
    add(320, 62, 32);
    add(330, 60, 33);
    add(340, 56, 34);
    add(380, 0, 35);
    finish();
    ck_assert(diag_list_has(
        &told, "d.csv:30: note: 100 s without samples; a straight line from 0.0 m to 10.0 m is taken [gap]"));
    ck_assert(diag_list_has(&told, "d.csv:32: warning: depth changes by up to 5.0 m/s, faster than a diver"));
    ck_assert_int_eq(told.count, 2);
    end();
}
END_TEST

START_TEST(times_that_cannot_be)
{
    struct plm_sample sample = {.depth_m = 5, .line = 4};
    add(0, 0, 2);
    add(60, 20, 3);
    static const int64_t times[] = {INT64_MAX, INT64_MIN, INT64_MAX - 60000};
    for (size_t i = 0; i < 3; i++) {
        sample.time_ms = times[i];
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    add(90, 0, 5);
    finish();
    (void)samples(3);
    ck_assert(diag_list_has(&told, "d.csv:4: warning: a time of huge s cannot be; sample dropped"));
    end();
}
END_TEST

START_TEST(the_step_of_depth)
{
    static const struct {
        double step_m;
        int decimals;
    } STEPS[] = {{1, 0},    {0.5, 1},     {0.3048, 4}, {0.25, 2}, {0.2, 1},   {0.1, 1},
                 {0.05, 2}, {0.03048, 5}, {0.02, 2},   {0.01, 2}, {0.005, 3}, {0.001, 3}};
    for (size_t s = 0; s < sizeof STEPS / sizeof STEPS[0]; s++) {
        begin();
        for (int i = 0; i < 60; i++) {
            add(i * 10, i == 59 ? 0 : (double)((i * 7) % 31) * STEPS[s].step_m, (uint32_t)i + 2);
        }
        finish();
        ck_assert(fabs(plm_dive_info_get(dive)->depth_step_m - STEPS[s].step_m) < 1e-12);
        end();
    }
    begin(); /* too few turning points say nothing */
    add(0, 0, 1);
    add(60, 18, 2);
    add(1800, 18, 3);
    add(1900, 0, 4);
    finish();
    ck_assert(isnan(plm_dive_info_get(dive)->depth_step_m));
    end();
}
END_TEST

START_TEST(a_copy_is_the_same_dive)
{
    uint32_t mix;
    struct plm_event event = {
        .time_ms = 5000, .kind = PLM_EVENT_ALARM, .value = 1, .value2 = NAN, .text = "ascent", .line = 3};
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    info->diver = plm_dive_builder_text(builder, "Tern");
    info->surface_bar = 0.95;
    ck_assert_int_eq(plm_dive_builder_mix(builder, "m1", "bottom", 0.32, 0, NAN, 0, 0, PLM_MIX_USE_BAILOUT, 1, &mix),
                     PLM_STATUS_OK);
    plm_dive_builder_switch(builder, mix, 1);
    add(0, 3, 2);
    add(60, 20, 3);
    add(600, 5, 4);
    ck_assert_int_eq(plm_dive_builder_event(builder, &event), PLM_STATUS_OK);
    finish();
    struct plm_dive *first = dive;
    sink = diag_list_sink(&told);
    builder = plm_dive_builder_from(first, &rules, &sink);
    ck_assert_ptr_nonnull(builder);
    finish();
    ck_assert_int_eq(told.count, 0);
    size_t count;
    size_t count_copy;
    const struct plm_sample *a = plm_dive_samples(first, &count);
    const struct plm_sample *b = plm_dive_samples(dive, &count_copy);
    ck_assert_uint_eq(count, count_copy);
    for (size_t i = 0; i < count; i++) {
        ck_assert(a[i].time_ms == b[i].time_ms && a[i].depth_m == b[i].depth_m && a[i].setting == b[i].setting &&
                  a[i].line == b[i].line);
    }
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_str_eq(mixes[0].id, "m1");
    ck_assert_str_eq(mixes[0].name, "bottom");
    size_t mix_count;
    /* what a copy says is its own and outlives this */
    const struct plm_dive_mix *from = plm_dive_mixes(first, &mix_count);
    ck_assert(mixes[0].name != from[0].name && mixes[0].id != from[0].id);
    ck_assert(mixes[0].mix.o2_frac == 0.32 && mixes[0].use == PLM_MIX_USE_BAILOUT);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Tern");
    ck_assert(plm_dive_info_get(dive)->surface_bar == 0.95 && plm_dive_info_get(dive)->gas_known &&
              !plm_dive_info_get(dive)->mode_known);
    const struct plm_event *events = plm_dive_events(dive, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_str_eq(events[0].text, "ascent");
    plm_dive_free(first);
    end();
}
END_TEST

START_TEST(an_assumption_stays_one_in_a_copy)
{
    add(0, 0, 2);
    add(60, 20, 3);
    add(600, 0, 4);
    finish();
    struct plm_dive *first = dive;
    builder = plm_dive_builder_from(first, &rules, &sink);
    plm_dive_builder_restart(builder);
    size_t count;
    const struct plm_sample *all = plm_dive_samples(first, &count);
    const struct plm_setting *settings = plm_dive_settings(first, &count);
    for (size_t i = 0; i < 3; i++) {
        plm_dive_builder_mode(builder, settings[all[i].setting].mode, 0);
        plm_dive_builder_switch(builder, settings[all[i].setting].mix, 0);
        ck_assert_int_eq(plm_dive_builder_sample(builder, &all[i]), PLM_STATUS_OK);
    }
    finish();
    ck_assert(!plm_dive_info_get(dive)->gas_known && !plm_dive_info_get(dive)->mode_known);
    plm_dive_free(first);
    end();
}
END_TEST

START_TEST(a_cut_takes_the_later_away)
{
    struct plm_event event = {.time_ms = 90000, .kind = PLM_EVENT_MARKER, .text = "1"};
    add(0, 0, 2);
    add(60, 20, 3);
    plm_dive_builder_setpoint(builder, 1.2, 4);
    add(120, 0, 4);
    ck_assert_int_eq(plm_dive_builder_event(builder, &event), PLM_STATUS_OK);
    plm_dive_builder_cut(builder, 60000);
    add(130, 0, 5);
    finish();
    const struct plm_sample *all = samples(3);
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    ck_assert_uint_eq(count, 2);
    ck_assert(all[2].time_ms == 130000 && settings[all[2].setting].setpoint_bar == 1.2 &&
              isnan(settings[all[1].setting].setpoint_bar));
    (void)plm_dive_events(dive, &count);
    ck_assert_uint_eq(count, 0);
    end();
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("builder");
    tcase_add_checked_fixture(tests, begin, NULL);
    tcase_add_test(tests, under_water_from_the_sample_before_to_the_end_of_the_rise);
    tcase_add_test(tests, a_swim_at_the_surface_is_no_time_under_water);
    tcase_add_test(tests, who_dips_under_after_a_minute_has_surfaced_before);
    tcase_add_test(tests, a_plain_dive);
    tcase_add_test(tests, settings_hold_from_the_next_sample_on);
    tcase_add_test(tests, what_cannot_be_is_dropped_and_told);
    tcase_add_test(tests, depths_above_the_surface_become_zero);
    tcase_add_test(tests, one_moment_twice);
    tcase_add_test(tests, a_record_that_begins_below_gets_a_surface);
    tcase_add_test(tests, edges_count_from_3_m_on);
    tcase_add_test(tests, what_is_no_dive);
    tcase_add_test(tests, surroundings_that_cannot_be_are_dropped_and_told);
    tcase_add_test(tests, steps_and_intervals_that_cannot_be);
    tcase_add_test(tests, gaps_and_impossible_rates);
    tcase_add_test(tests, times_that_cannot_be);
    tcase_add_test(tests, the_step_of_depth);
    tcase_add_test(tests, a_copy_is_the_same_dive);
    tcase_add_test(tests, an_assumption_stays_one_in_a_copy);
    tcase_add_test(tests, a_cut_takes_the_later_away);
    Suite *suite = suite_create("dive");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
