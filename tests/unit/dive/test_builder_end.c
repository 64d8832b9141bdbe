/*
 * Where a record ends that cannot be followed: holes, dives without end, more samples than there is room for. Source:
 * the rules gap_max_min, dive_max_h and samples_max, conventions of ours; plimsoll-log(5).
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "unit/dive/built.h"

/* Nobody knows what was dived in a hole of more than an hour: the rule gap_max_min, a convention of ours. */
START_TEST(a_long_gap_in_the_water_ends_the_record)
{
    struct plm_event early = {.time_ms = 60000, .kind = PLM_EVENT_MARKER, .text = "1"},
                     late = {.time_ms = 4000000, .kind = PLM_EVENT_MARKER, .text = "2"};
    add(0, 0, 2);
    add(60, 20, 3);
    ck_assert_int_eq(plm_dive_builder_event(builder, &early), PLM_STATUS_OK);
    ck_assert_int_eq(plm_dive_builder_event(builder, &late), PLM_STATUS_OK);
    add(3661, 20, 4);
    add(3700, 10, 5);
    add(3800, 0, 6);
    finish();
    (void)samples(2);
    size_t events;
    (void)plm_dive_events(dive, &events);
    ck_assert(plm_dive_info_get(dive)->ends_in_water && events == 1);
    ck_assert(diag_list_has(&told, "d.csv:4: warning: 3601 s without samples at 20.0 m, longer than 60 min (rule "
                                   "gap_max_min); the record ends there, in "
                                   "the water; 3 samples and 1 events behind it are not used [gap]"));
    end();
}
END_TEST

START_TEST(gaps_that_end_nothing)
{
    /* An hour to the second; and however long at the surface. */
    add(0, 0, 2);
    add(9000, 0, 3);
    add(9060, 20, 4);
    add(12660, 20, 5);
    add(12700, 0, 6);
    add(22700, 0, 7);
    finish();
    (void)samples(6);
    ck_assert(!plm_dive_info_get(dive)->ends_in_water);
    end();
    begin();
    rules.gap_max_min = 10;
    builder = (plm_dive_builder_free(builder), plm_dive_builder_new("d.csv", &rules, &sink));
    add(0, 0, 2);
    add(60, 20, 3);
    add(661, 20, 4);
    add(700, 0, 5);
    finish();
    (void)samples(2);
    end();
}
END_TEST

START_TEST(a_dive_that_never_ends_is_cut)
{
    /* The longest dive is counted from the first sample in the water: rule dive_max_h, 48 h. */
    add(0, 0, 2);
    for (uint32_t i = 0; i <= 60; i++) {
        add(3600.0 * (1 + i), 10, i + 3);
    }
    finish();
    (void)samples(50);
    ck_assert(plm_dive_info_get(dive)->ends_in_water);
    ck_assert(diag_list_has(&told, "d.csv:52: warning: a record of 60 h from the first sample in the water, longer "
                                   "than 48 h (rule dive_max_h); it ends there, at "
                                   "10.0 m; 12 samples and 0 events behind it are not used [limit]"));
    end();
}
END_TEST

/* Recorders that sleep at the surface wake in the water: the way down did not take hours. */
START_TEST(a_long_gap_at_the_surface_is_spent_there)
{
    add(0, 0, 2);
    add(9000, 20, 3);
    add(9060, 0.3, 4);
    add(19060, 10, 5);
    add(19100, 0, 6);
    finish();
    const struct plm_sample *all = samples(7);
    ck_assert(all[1].time_ms == 9000000 && all[1].depth_m == 0 && all[1].line == 0 && isnan(all[1].po2_bar) &&
              all[2].depth_m == 20);
    ck_assert(all[4].time_ms == 19060000 && all[4].depth_m == 0 && all[5].depth_m == 10 &&
              !plm_dive_info_get(dive)->ends_in_water);
    ck_assert(diag_list_has(&told, "d.csv:3: note: 9000 s without samples before 20.0 m, longer than 60 min (rule "
                                   "gap_max_min); the surface is taken "
                                   "until then [gap]"));
    end();
}
END_TEST

START_TEST(a_record_far_longer_than_its_dive)
{
    /* Two samples of a year before and after: the longest dive (48 h) is kept of each. */
    const double year_s = 365 * 86400.0;
    add(0, 0, 2);
    add(year_s, 0, 3);
    add(year_s + 60, 20, 4);
    add(year_s + 120, 0, 5);
    add(year_s + 600, 0, 6);
    add(2 * year_s, 0, 7);
    finish();
    const struct plm_sample *all = samples(4);
    ck_assert(all[0].line == 3 && all[3].line == 6 && !plm_dive_info_get(dive)->ends_in_water);
    ck_assert(diag_list_has(&told, "d.csv:2: warning: the record begins more than 48 h before the dive (rule "
                                   "dive_max_h); 1 samples at the surface are not "
                                   "used [limit]"));
    ck_assert(diag_list_has(&told, "d.csv:7: warning: a record of 8760 h from the first sample in the water, longer "
                                   "than 48 h (rule dive_max_h); it ends "
                                   "there, at 0.0 m; 1 samples and 0 events behind it are not used [limit]"));
    end();
}
END_TEST

START_TEST(more_samples_than_there_is_room_for)
{
    struct plm_event event = {.kind = PLM_EVENT_MARKER, .text = "1"};
    rules.samples_max = 3;
    plm_dive_builder_free(builder);
    builder = plm_dive_builder_new("d.csv", &rules, &sink);
    for (int i = 0; i < 6; i++) {
        add(i * 10, i * 2, (uint32_t)i + 2);
        event.time_ms = i * 10000;
        ck_assert_int_eq(plm_dive_builder_event(builder, &event), PLM_STATUS_OK);
    }
    finish();
    (void)samples(3);
    size_t events;
    (void)plm_dive_events(dive, &events);
    ck_assert(events == 3 && plm_dive_info_get(dive)->ends_in_water);
    ck_assert(diag_list_has(&told, "d.csv:5: warning: more than 3 samples or events (rule samples_max); the record "
                                   "ends there, at 4.0 m; 3 samples and 3 "
                                   "events behind it are not used [limit]"));
    /* A copy may have more: what is edited gets samples of its own. */
    struct plm_dive_builder *copy = plm_dive_builder_from(dive, &rules, NULL);
    struct plm_sample more = {.time_ms = 30000, .depth_m = 0};
    struct plm_dive *longer = NULL;
    ck_assert_int_eq(plm_dive_builder_sample(copy, &more), PLM_STATUS_OK);
    ck_assert_int_eq(plm_dive_builder_finish(copy, &longer), PLM_STATUS_OK);
    (void)plm_dive_samples(longer, &events);
    ck_assert(events == 4);
    plm_dive_free(longer);
    end();
}
END_TEST

START_TEST(ends_in_the_water)
{
    /* Recorders stop at 3 m or shallower: that is no end in the water. */
    static const struct {
        double last_m;
        bool in_water;
    } ends[] = {{0, false}, {0.6, false}, {2.9, false}, {3, true}, {40, true}};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        begin();
        add(0, 0, 2);
        add(60, 40, 3);
        add(300, ends[i].last_m, 4);
        finish();
        ck_assert_msg(plm_dive_info_get(dive)->ends_in_water == ends[i].in_water, "%g m", ends[i].last_m);
        struct plm_dive_builder *copy = plm_dive_builder_from(dive, &rules, NULL);
        struct plm_dive *again = NULL;
        ck_assert_int_eq(plm_dive_builder_finish(copy, &again), PLM_STATUS_OK);
        ck_assert(plm_dive_info_get(again)->ends_in_water == ends[i].in_water);
        plm_dive_free(again);
        end();
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("builder end");
    tcase_add_checked_fixture(tests, begin, NULL);
    tcase_add_test(tests, a_long_gap_in_the_water_ends_the_record);
    tcase_add_test(tests, gaps_that_end_nothing);
    tcase_add_test(tests, a_dive_that_never_ends_is_cut);
    tcase_add_test(tests, a_long_gap_at_the_surface_is_spent_there);
    tcase_add_test(tests, a_record_far_longer_than_its_dive);
    tcase_add_test(tests, more_samples_than_there_is_room_for);
    tcase_add_test(tests, ends_in_the_water);
    Suite *suite = suite_create("dive");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
