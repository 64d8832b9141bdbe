/*
 * Rates of ascent and gaps: what raises each finding, and what just does not.
 * Limits: common practice, no source (rules.def); bounds of severity: conventions of this program.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

/* Down to from_m, five minutes there, up to to_m at a rate, a minute there and slowly out. */
static void climb_at(struct reviewed *reviewed, double from_m, double to_m, double rate_m_min,
                     const struct review_wish *wish)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, from_m, from_m * 3, 2);
    leg(&made, &time_s, &depth_m, from_m, 300, 2);
    leg(&made, &time_s, &depth_m, to_m, (from_m - to_m) / rate_m_min * 60, 2);
    leg(&made, &time_s, &depth_m, to_m, 60, 2);
    leg(&made, &time_s, &depth_m, 0, to_m * 12 + 2, 2);
    leg(&made, &time_s, &depth_m, 0, 30, 2);
    reviewed_make(reviewed, &made, wish);
}

static const struct review_wish plain = {.plan = NULL};
static const struct review_wish costed = {.cost = true, .hold = true};

START_TEST(raises_ascent_rate)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 30, 10, 10.5, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq_tol(finding->value, 10.5, 0.05);
    ck_assert_double_eq(finding->limit, 10);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 30, 8, 21, &plain);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_ascent_rate_in_the_shallow_band)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 12, 1, 8, &costed);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq(finding->limit, 6);
    ck_assert_double_lt(finding->from_depth_m, 6.01);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 12, 0.6, 12, &costed);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_ascent_rate)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 30, 10, 9.95, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 5.5, 1, 5.9, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(lowers_a_deep_ascent_without_cost_and_says_why)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 60, 30, 15, &costed);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_ptr_nonnull(strstr(finding->text, "A note, because"));
    ck_assert(finding->cost.known);
    ck_assert_double_lt(finding->cost.decompression_min, 1);
    ck_assert_double_lt(finding->cost.surfacing_gradient_points, 1);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 60, 15, 15, &costed);
    ck_assert_int_gt(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
}
END_TEST

/* Two fast legs of 6 m with a pause between them. */
static size_t fast_twice(double pause_s)
{
    struct made_dive made = made_start(1.0);
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 2);
    leg(&made, &time_s, &depth_m, 30, 120, 2);
    leg(&made, &time_s, &depth_m, 22, 24, 2);
    leg(&made, &time_s, &depth_m, 22, pause_s, 2);
    leg(&made, &time_s, &depth_m, 14, 24, 2);
    leg(&made, &time_s, &depth_m, 14, 120, 2);
    reviewed_make(&reviewed, &made, &plain);
    size_t count = reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE);
    reviewed_free(&reviewed);
    return count;
}

START_TEST(joins_neighbours_less_than_30_s_apart)
{
    ck_assert_uint_eq(fast_twice(20), 1);
    ck_assert_uint_eq(fast_twice(60), 2);
}
END_TEST

/* A sample every 5 s at 20 m with one hole. */
static void with_hole(struct reviewed *reviewed, double hole_s)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 20, 120, 5);
    leg(&made, &time_s, &depth_m, 20, hole_s, hole_s);
    leg(&made, &time_s, &depth_m, 20, 120, 5);
    leg(&made, &time_s, &depth_m, 0, 300, 5);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(raises_log_gap)
{
    struct reviewed reviewed;
    with_hole(&reviewed, 61);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_LOG_GAP);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq(finding->value, 61);
    reviewed_free(&reviewed);
    with_hole(&reviewed, 301);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_LOG_GAP)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_log_gap)
{
    struct reviewed reviewed;
    with_hole(&reviewed, 60);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LOG_GAP), 0);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {raises_ascent_rate,
                                  raises_ascent_rate_in_the_shallow_band,
                                  spares_ascent_rate,
                                  lowers_a_deep_ascent_without_cost_and_says_why,
                                  joins_neighbours_less_than_30_s_apart,
                                  raises_log_gap,
                                  spares_log_gap};
    return SUITE_RUN("ascent kinds", tests);
}
