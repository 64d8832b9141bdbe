/*
 * What one dive carries into the next of its file: by the interval told, by the clocks, by nothing, across groups.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "debrief/carry.h"
#include "support/made_dive.h"

static int warnings;

static void count_warning(void *context, const struct plm_diag *diag)
{
    (void)context;
    warnings += diag->level == PLM_LEVEL_WARNING && diag->id == PLM_DIAG_INTERVAL;
}

static const struct plm_diag_sink sink = {.report = count_warning};

/* 40 min at 30 m on air, 45 min in all. */
static struct plm_dive *dive_make(int index, int group, const char *start, double interval_s)
{
    struct made_dive made = made_start((double)NAN);
    struct plm_dive_info *info = plm_dive_builder_info(made.builder);
    info->index = index;
    info->group = group;
    info->surface_interval_s = interval_s;
    if (start != NULL) {
        ck_assert(plmi_clock_parse(start, strlen(start), &info->start));
    }
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 30);
    made_sample(&made, 2400, 30);
    made_sample(&made, 2700, 0);
    return made_finish(&made);
}

/* The start of the second dive after the first. */
static struct plm_start second_start(const char *first_clock, int group, const char *clock, double interval_s)
{
    struct plm_rules rules = plm_rules_default();
    static struct plmi_carry carry;
    struct plmi_diags diags;
    warnings = 0;
    plmi_diags_init(&diags, &sink, "two.uddf");
    plmi_carry_init(&carry, NULL);
    struct plm_dive *first = dive_make(1, 1, first_clock, (double)NAN);
    struct plm_start start = plmi_carry_into(&carry, first, &rules, &diags);
    ck_assert(!start.residual);
    struct plm_trace *trace = made_replay(first, &rules);
    plmi_carry_keep(&carry, first, trace, &rules);
    struct plm_dive *second = dive_make(2, group, clock, interval_s);
    start = plmi_carry_into(&carry, second, &rules, &diags);
    plm_trace_free(trace);
    plm_dive_free(first);
    plm_dive_free(second);
    return start;
}

START_TEST(told_interval_carries)
{
    struct plm_start start = second_start(NULL, 1, NULL, 3600);
    ck_assert(start.residual);
    ck_assert_str_eq(start.from, "dive 1");
    ck_assert_double_eq_tol(start.surface_interval_s, 3600, 1e-9);
    /* Half-time 12.5 min (compartment 3): after 60 min e^(-60 ln 2 / 12.5) of the excess is left; more than none. */
    double saturated = (1.01325 - 0.0627) * 0.7902;
    ck_assert_double_gt(start.tissue.n2_bar[2], saturated + 0.01);
    ck_assert_int_eq(warnings, 0);
}
END_TEST

/* A first dive whose record ends at 30 m leaves at least what it shows; that it is not all is told, and stands in the
 * name of the state. */
START_TEST(what_ends_in_the_water_is_carried_and_told)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_carry carry;
    struct plmi_diags diags;
    warnings = 0;
    plmi_diags_init(&diags, &sink, "two.uddf");
    plmi_carry_init(&carry, NULL);
    struct made_dive made = made_start((double)NAN);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 30);
    made_sample(&made, 2400, 30);
    struct plm_dive *first = made_finish(&made), *second = dive_make(2, 1, NULL, 3600);
    struct plm_trace *trace = made_replay(first, &rules);
    plmi_carry_keep(&carry, first, trace, &rules);
    struct plm_start start = plmi_carry_into(&carry, second, &rules, &diags);
    ck_assert(start.residual && start.tissue.n2_bar[2] > 0.8);
    ck_assert_str_eq(start.from, "dive 1, whose record ends in the water");
    ck_assert_int_eq(warnings, 1);
    plm_trace_free(trace);
    plm_dive_free(first);
    plm_dive_free(second);
}
END_TEST

START_TEST(clocks_carry)
{
    /* 45 min from 09:00 is 09:45, so that two hours lie between. */
    struct plm_start start = second_start("2031-05-06T09:00:00", 1, "2031-05-06T11:45:00", (double)NAN);
    ck_assert(start.residual);
    ck_assert_double_eq_tol(start.surface_interval_s, 7200, 1e-9);
    ck_assert_int_eq(warnings, 0);
}
END_TEST

START_TEST(zones_are_minded)
{
    struct plm_start start = second_start("2031-05-06T09:00:00+02:00", 1, "2031-05-06T12:45:00+03:00", (double)NAN);
    ck_assert_double_eq_tol(start.surface_interval_s, 7200, 1e-9);
}
END_TEST

START_TEST(told_interval_against_clocks_warns)
{
    struct plm_start start = second_start("2031-05-06T09:00:00", 1, "2031-05-06T11:45:00", 3600);
    ck_assert_double_eq_tol(start.surface_interval_s, 3600, 1e-9);
    ck_assert_int_eq(warnings, 1);
}
END_TEST

/* A surfacing is told to minutes and its clock set by hand: a quarter of an hour is no contradiction, a second more is.
 * Common practice, no source. */
START_TEST(clocks_may_be_a_quarter_of_an_hour_off)
{
    for (int way = -1; way <= 1; way += 2) {
        (void)second_start("2031-05-06T09:00:00", 1, "2031-05-06T11:45:00", 7200 + way * 900);
        ck_assert_int_eq(warnings, 0);
        (void)second_start("2031-05-06T09:00:00", 1, "2031-05-06T11:45:00", 7200 + way * 901);
        ck_assert_int_eq(warnings, 1);
    }
}
END_TEST

START_TEST(unknown_interval_warns_and_is_saturated)
{
    struct plm_start start = second_start(NULL, 1, "2031-05-06T11:45:00", (double)NAN);
    ck_assert(!start.residual);
    ck_assert_int_eq(warnings, 1);
}
END_TEST

START_TEST(overlap_warns_and_is_saturated)
{
    struct plm_start start = second_start("2031-05-06T09:00:00", 1, "2031-05-06T09:30:00", (double)NAN);
    ck_assert(!start.residual);
    ck_assert_int_eq(warnings, 1);
}
END_TEST

START_TEST(infinity_is_saturated)
{
    struct plm_start start = second_start("2031-05-06T09:00:00", 1, "2031-05-06T11:45:00", (double)INFINITY);
    ck_assert(!start.residual);
    ck_assert_int_eq(warnings, 0);
}
END_TEST

START_TEST(another_group_is_saturated)
{
    struct plm_start start = second_start("2031-05-06T09:00:00", 2, "2031-05-06T11:45:00", 3600);
    ck_assert(!start.residual);
    ck_assert_int_eq(warnings, 0);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("carry");
    tcase_add_test(tests, told_interval_carries);
    tcase_add_test(tests, what_ends_in_the_water_is_carried_and_told);
    tcase_add_test(tests, clocks_carry);
    tcase_add_test(tests, zones_are_minded);
    tcase_add_test(tests, told_interval_against_clocks_warns);
    tcase_add_test(tests, clocks_may_be_a_quarter_of_an_hour_off);
    tcase_add_test(tests, unknown_interval_warns_and_is_saturated);
    tcase_add_test(tests, overlap_warns_and_is_saturated);
    tcase_add_test(tests, infinity_is_saturated);
    tcase_add_test(tests, another_group_is_saturated);
    Suite *suite = suite_create("debrief");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
