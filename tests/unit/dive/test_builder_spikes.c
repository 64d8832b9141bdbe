/*
 * Samples that no diver can swim are dropped, and what can be swum is kept. Source: the rules spike_m_min,
 * spike_least_m, above_surface_max_m and doubt_m_min, conventions of ours; plimsoll-log(5). Depths and times are made
 * up. SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "unit/dive/built.h"

/* A dive at a level, a sample every step_s; depths of some samples told, the surface at both ends. Line i + 2 is sample
 * i. */
struct level_dive {
    double depth_m, step_s;
    size_t count, first; /* odd samples begin at `first` */
    double odd_m[4];
    size_t odd_count;
};

static void add_level(const struct level_dive *level)
{
    size_t down = 10;
    for (size_t i = 0; i < level->count; i++) {
        size_t from_end = level->count - 1 - i, edge = i < from_end ? i : from_end;
        double depth_m = edge < down ? level->depth_m * (double)edge / (double)down : level->depth_m;
        if (i >= level->first && i < level->first + level->odd_count) {
            depth_m = level->odd_m[i - level->first];
        }
        add((double)i * level->step_s, depth_m, (uint32_t)i + 2);
    }
}

static const struct plm_dive_info *info(void)
{
    return plm_dive_info_get(dive);
}

/* [m] the depth at a moment that a sample was recorded; NaN where it is not there. */
static double depth_at_m(double time_s)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (all[i].time_ms == (int64_t)(time_s * 1000)) {
            return all[i].depth_m;
        }
    }
    return (double)NAN;
}

START_TEST(one_sample_away_and_back)
{
    static const struct {
        double odd_m;
        const char *told;
    } trials[] = {
        {0, "d.csv:32: warning: a depth of 0.0 m between 22.0 m and 22.0 m: nobody swims at 132 m/min there and back "
            "(rule spike_m_min); sample dropped [spike]"},
        {60, "d.csv:32: warning: a depth of 60.0 m between 22.0 m and 22.0 m"},
        {-2.5, "d.csv:32: warning: a depth of 0.0 m between 22.0 m and 22.0 m"},
        {-3.5, "d.csv:32: warning: a depth of -3.5 m is above the surface by more than 3 m (rule above_surface_max_m); "
               "sample dropped [depth-negative]"},
        {-50, "d.csv:32: warning: a depth of -50.0 m is higher than no pressure at all would read; sample dropped "
              "[depth-negative]"},
        {6553.5, "d.csv:32: warning: a depth of 6553.5 m is beyond 500 m (rule depth_max_m); sample dropped [range]"},
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        begin();
        add_level(&(struct level_dive){22, 10, 60, 30, {trials[i].odd_m}, 1});
        finish();
        (void)samples(59);
        ck_assert_msg(isnan(depth_at_m(300)), "trial %zu", i);
        ck_assert_msg(diag_list_has(&told, trials[i].told), "trial %zu: %s", i, told.lines[0]);
        ck_assert(info()->partial);
        ck_assert_uint_eq(info()->odd_count, 1);
        ck_assert_uint_eq(info()->odd[0].line, 32);
        ck_assert_int_eq(info()->odd[0].time_ms, 300000);
        ck_assert(info()->odd[0].dropped);
        ck_assert(!(fabs(info()->odd[0].depth_m - (trials[i].odd_m == -2.5 ? 0 : trials[i].odd_m)) > 0));
        end();
    }
}
END_TEST

/* A recorder whose zero is off by 4 m reads so at the surface for long, and at the ends of its record: 0 m is taken. */
START_TEST(a_zero_that_is_off_is_no_spike)
{
    static const double depths_m[] = {-2.8, -4, -2.9, 2, 8, 8, -3.5, -3.5, 8, 2, -4, -3.8, -4};
    for (uint32_t i = 0; i < 13; i++) {
        add(20.0 * i, depths_m[i], i + 2);
    }
    finish();
    const struct plm_sample *all = samples(11);
    for (size_t i = 0; i < 3; i++) {
        ck_assert(!signbit(all[i].depth_m) && all[i].depth_m == 0 && all[10 - i].depth_m == 0);
    }
    ck_assert_uint_eq(info()->odd_count, 2);
    ck_assert(diag_list_has(&told, "d.csv:3: warning: a depth of -4.0 m is above the surface; 0 m taken"));
    end();
    begin();
    add(0, 0, 2);
    add(60, 12, 3);
    add(120, -3.5, 4);
    finish();
    ck_assert(samples(3)[2].depth_m == 0 && !info()->partial);
    end();
}
END_TEST

START_TEST(two_spikes_in_a_row_and_two_with_a_good_sample_between)
{
    static const double pairs[][3] = {{0, 0, -1}, {60, 60, -1}, {0, 70, -1}, {70, 0, -1}, {0, 22, 0}, {60, 22, 0}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        struct level_dive level = {22, 5, 80, 40, {pairs[i][0], pairs[i][1], pairs[i][2]}, pairs[i][2] < 0 ? 2 : 3};
        begin();
        add_level(&level);
        finish();
        (void)samples(78);
        ck_assert_uint_eq(info()->odd_count, 2);
        ck_assert(isnan(depth_at_m(200)));
        ck_assert(isnan(depth_at_m(pairs[i][2] < 0 ? 205 : 210)));
        end();
    }
}
END_TEST

/* Three in a row are no spike: the record says so for long enough, and is told to be doubtful as a whole. */
START_TEST(three_in_a_row_stay)
{
    add_level(&(struct level_dive){22, 5, 80, 40, {60, 60, 60}, 3});
    finish();
    (void)samples(80);
    ck_assert_uint_eq(info()->odd_count, 0);
    ck_assert(!info()->partial);
    ck_assert(diag_list_has(&told, "depth changes by up to 7.6 m/s, faster than a diver"));
    end();
}
END_TEST

/* From 6 m to the surface and back at 36 m/min is a surfacing; one sample of it is told as doubtful and stays. */
START_TEST(what_can_be_swum_stays)
{
    static const struct {
        double depth_m, step_s, odd_m;
        bool doubted;
    } trials[] = {
        {6, 10, 0, true},     /* 36 m/min */
        {14.9, 10, 0, true},  /* 89.4 m/min */
        {22, 20, 0, true},    /* 66 m/min */
        {22, 10, 8, true},    /* 84 m/min */
        {20, 1, 18.1, false}, /* 114 m/min, an arm lifted */
        {3, 10, 0, false},    /* 18 m/min */
        {22, 60, 0, false},   /* 22 m/min */
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        begin();
        add_level(&(struct level_dive){trials[i].depth_m, trials[i].step_s, 60, 30, {trials[i].odd_m}, 1});
        finish();
        (void)samples(60);
        ck_assert(!info()->partial);
        ck_assert_msg(info()->odd_count == (trials[i].doubted ? 1 : 0), "trial %zu", i);
        if (trials[i].doubted) {
            ck_assert(!info()->odd[0].dropped && info()->odd[0].line == 32);
        }
        end();
    }
    begin();
    add_level(&(struct level_dive){6, 10, 60, 30, {0}, 1});
    finish();
    ck_assert(diag_list_has(&told,
                            "d.csv:32: warning: a single sample at 0.0 m between 6.0 m and 6.0 m, at 36 m/min there "
                            "and back; is it wrong? taken as recorded [doubtful-sample]"));
    end();
    begin();
    add_level(&(struct level_dive){6, 10, 60, 30, {0, 0}, 2}); /* two samples up there are a surfacing */
    finish();
    (void)samples(60);
    ck_assert_uint_eq(info()->odd_count, 0);
    end();
}
END_TEST

START_TEST(just_below_and_above_the_rule)
{
    for (int fast = 0; fast <= 1; fast++) {
        begin();
        add_level(&(struct level_dive){22, 10, 60, 30, {fast ? 6.9 : 7.0}, 1}); /* 90.6 and 90 m/min */
        finish();
        (void)samples(fast ? 59 : 60);
        end();
    }
}
END_TEST

/* A recorder that writes on change alone: a minute without a change, then the spike, and back a second later. */
START_TEST(records_on_change_alone)
{
    add(0, 0, 2);
    for (uint32_t i = 1; i <= 44; i++) {
        add(3.0 * i, 0.5 * i, i + 2);
    }
    add(192, 22.1, 50);
    add(252, 0, 51);
    add(253, 22.1, 52);
    add(313, 22.0, 53);
    add(314, 70, 54);
    add(380, 22.0, 55);
    for (uint32_t i = 1; i <= 44; i++) {
        add(400 + 3.0 * i, 22 - 0.5 * i, i + 60);
    }
    finish();
    ck_assert_uint_eq(info()->odd_count, 2);
    ck_assert_uint_eq(info()->odd[0].line, 51);
    ck_assert_uint_eq(info()->odd[1].line, 54);
    ck_assert(isnan(depth_at_m(252)) && isnan(depth_at_m(314)) && depth_at_m(253) == 22.1);
    end();
}
END_TEST

/* In a gap on both sides a diver can have been anywhere. */
START_TEST(a_sample_between_two_gaps_stays)
{
    for (uint32_t i = 0; i <= 60; i++) {
        add(2.0 * i, 0.5 * i, i + 2);
    }
    add(300, 0, 70);
    for (uint32_t i = 0; i <= 60; i++) {
        add(500 + 2.0 * i, 30 - 0.5 * i, i + 71);
    }
    finish();
    ck_assert_uint_eq(info()->odd_count, 0);
    ck_assert(depth_at_m(300) == 0);
    end();
}
END_TEST

/* Behind a gap the diver is at the surface: the one sample that says otherwise is wrong, not the first of the surface.
 */
START_TEST(a_spike_behind_a_gap)
{
    for (uint32_t i = 0; i <= 60; i++) {
        add(5.0 * i, i < 40 ? 0.5 * i : 20, i + 2);
    }
    add(600, 0, 70);
    add(605, 20, 71);
    for (uint32_t i = 0; i < 10; i++) {
        add(610 + 5.0 * i, 0, i + 72);
    }
    finish();
    ck_assert_uint_eq(info()->odd_count, 1);
    ck_assert_uint_eq(info()->odd[0].line, 71);
    ck_assert(depth_at_m(600) == 0);
    end();
}
END_TEST

/* Times that stand still tell no rate: two samples of one moment are a step, and a clock of whole minutes is no spike.
 */
START_TEST(steps_are_no_spikes)
{
    add(0, 0, 2);
    add(60, 20, 3);
    add(120, 20, 4);
    add(120, 14, 5);
    add(120, 20, 6);
    add(180, 20, 7);
    add(240, 0, 8);
    finish();
    (void)samples(7);
    end();
}
END_TEST

/* At the ends only what is deeper than all around it: recorders close a record at the surface. */
START_TEST(at_the_ends)
{
    add(0, 80, 2);
    add(10, 0, 3);
    for (uint32_t i = 0; i < 30; i++) {
        add(20 + 10.0 * i, i < 15 ? i : 29 - i, i + 4);
    }
    add(320, 3, 40);
    add(322, 0, 41);
    add(332, 90, 42);
    finish();
    ck_assert_uint_eq(info()->odd_count, 2);
    ck_assert_uint_eq(info()->odd[0].line, 2);
    ck_assert_uint_eq(info()->odd[1].line, 42);
    ck_assert(depth_at_m(322) == 0 && !info()->ends_in_water);
    end();
}
END_TEST

/* Where a quarter of a record jumps, its depths or times are wrong as a whole: nothing is picked out of it. */
START_TEST(a_record_that_jumps_all_over_stays_whole)
{
    add(0, 0, 2);
    for (uint32_t i = 1; i < 60; i++) {
        add(5.0 * i, i % 3 == 1 ? 60 : 20, i + 2);
    }
    add(300, 0, 70);
    finish();
    (void)samples(61);
    ck_assert_uint_eq(info()->odd_count, 0);
    ck_assert(diag_list_has(&told, "faster than a diver"));
    end();
}
END_TEST

/* Only the first are kept one by one; all are counted, and a copy of the dive tells of the same. */
START_TEST(more_than_are_kept)
{
    add(0, 0, 2);
    for (uint32_t i = 1; i < 200; i++) {
        add(5.0 * i, i % 10 == 9 && i < 190 ? 70 : 20, i + 2);
    }
    add(1000, 0, 300);
    finish();
    ck_assert_uint_eq(info()->odd_count, 19);
    struct plm_dive_builder *copy = plm_dive_builder_from(dive, &rules, NULL);
    struct plm_dive *again = NULL;
    ck_assert_int_eq(plm_dive_builder_finish(copy, &again), PLM_STATUS_OK);
    ck_assert_uint_eq(plm_dive_info_get(again)->odd_count, info()->odd_count);
    ck_assert_uint_eq(plm_dive_info_get(again)->odd[PLM_ODD_SAMPLES - 1].line, info()->odd[PLM_ODD_SAMPLES - 1].line);
    plm_dive_free(again);
    end();
}
END_TEST

/* What was set at a sample that is dropped holds from the next one on. */
START_TEST(settings_of_one_dropped_sample_go_with_it)
{
    uint32_t air, oxygen;
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 0.21, 0, 1, &air), PLM_STATUS_OK);
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 1, 0, 1, &oxygen), PLM_STATUS_OK);
    for (uint32_t i = 0; i < 40; i++) {
        plm_dive_builder_switch(builder, i == 20 ? oxygen : air, i + 2);
        add(10.0 * i, i == 20 ? 70 : i < 10 ? i * 2 : i > 30 ? (39 - i) * 2 : 20, i + 2);
    }
    finish();
    size_t settings;
    const struct plm_setting *in_force = plm_dive_settings(dive, &settings);
    ck_assert_uint_eq(settings, 1);
    ck_assert_uint_eq(in_force[samples(39)[38].setting].mix, air);
    end();
}
END_TEST

/* Behind a spike that goes another one shows: a dive that is read again stays as it is. */
START_TEST(a_dive_read_again_stays)
{
    static const double depths_m[] = {0, 8, 16, 24, 60, 24, 90, 58, 24, 0, 24, 70, 71, 24, 2, 90, 24, 16, 8, 0};
    for (uint32_t i = 0; i < 60; i++) {
        add(5.0 * i, i < 20 ? depths_m[i] : 0.1 * (i % 7), i + 2);
    }
    finish();
    struct plm_dive *first = dive;
    size_t count;
    const struct plm_sample *all = plm_dive_samples(first, &count);
    begin();
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(plm_dive_builder_sample(builder, &all[i]), PLM_STATUS_OK);
    }
    finish();
    ck_assert(plm_dive_info_get(first)->odd_dropped > 0);
    ck_assert_uint_eq(info()->odd_dropped, 0);
    (void)samples(count);
    plm_dive_free(first);
    end();
}
END_TEST

START_TEST(settings_outlive_the_sample)
{
    uint32_t oxygen;
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 1, 0, 1, &oxygen), PLM_STATUS_OK);
    for (uint32_t i = 0; i < 40; i++) {
        if (i == 20) {
            plm_dive_builder_switch(builder, oxygen, 22);
        }
        add(10.0 * i, i == 20 ? 70 : i < 10 ? i * 2 : i > 30 ? (39 - i) * 2 : 20, i + 2);
    }
    finish();
    size_t count, settings;
    const struct plm_sample *all = plm_dive_samples(dive, &count);
    const struct plm_setting *in_force = plm_dive_settings(dive, &settings);
    ck_assert_uint_eq(count, 39);
    ck_assert_uint_eq(in_force[all[20].setting].mix, oxygen);
    ck_assert_uint_ne(in_force[all[19].setting].mix, oxygen);
    end();
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("builder spikes");
    tcase_add_checked_fixture(tests, begin, NULL);
    tcase_add_test(tests, one_sample_away_and_back);
    tcase_add_test(tests, a_zero_that_is_off_is_no_spike);
    tcase_add_test(tests, two_spikes_in_a_row_and_two_with_a_good_sample_between);
    tcase_add_test(tests, three_in_a_row_stay);
    tcase_add_test(tests, what_can_be_swum_stays);
    tcase_add_test(tests, just_below_and_above_the_rule);
    tcase_add_test(tests, records_on_change_alone);
    tcase_add_test(tests, a_sample_between_two_gaps_stays);
    tcase_add_test(tests, a_spike_behind_a_gap);
    tcase_add_test(tests, steps_are_no_spikes);
    tcase_add_test(tests, at_the_ends);
    tcase_add_test(tests, a_record_that_jumps_all_over_stays_whole);
    tcase_add_test(tests, more_than_are_kept);
    tcase_add_test(tests, settings_outlive_the_sample);
    tcase_add_test(tests, settings_of_one_dropped_sample_go_with_it);
    tcase_add_test(tests, a_dive_read_again_stays);
    Suite *suite = suite_create("dive");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
