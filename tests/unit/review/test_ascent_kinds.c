/*
 * Rates of ascent and gaps: what raises each finding, and what just does not.
 * Limits: common practice, no source (rules.def); bounds of severity: conventions of this program.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/climbed.h"
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

/* A finding beyond 1.25 times the limit of 10 m/min; serious from twice the limit on. */
START_TEST(raises_ascent_rate)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 30, 10, 13, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq_tol(finding->value, 13, 0.05);
    ck_assert_double_eq(finding->limit, 10);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 30, 8, 21, &plain);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

static int severity_at(double from_m, double to_m, double rate_m_min)
{
    struct reviewed reviewed;
    climb_at(&reviewed, from_m, to_m, rate_m_min, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    int severity = (int)finding->severity;
    ck_assert_double_eq(finding->limit, 6);
    reviewed_free(&reviewed);
    return severity;
}

/* Between stops what the deeper band allows is a note; beyond it a caution, serious from twice the limit of 6 m/min on.
 */
START_TEST(a_brisk_way_between_shallow_stops_is_a_note)
{
    ck_assert_int_eq(severity_at(6, 2.5, 9), PLM_SEVERITY_NOTE);
    ck_assert_int_eq(severity_at(6, 2, 11.9), PLM_SEVERITY_CAUTION);
    ck_assert_int_eq(severity_at(6, 1, 14), PLM_SEVERITY_SERIOUS);
}
END_TEST

/* From 6 m to the surface after ten minutes there, a sample every step_s. */
static void surface_from_6_m(struct reviewed *reviewed, double rate_m_min, double step_s)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 6, 60, step_s);
    leg(&made, &time_s, &depth_m, 6, 600, step_s);
    leg(&made, &time_s, &depth_m, 0, 6 / rate_m_min * 60, step_s);
    leg(&made, &time_s, &depth_m, 0, 120, step_s);
    reviewed_make(reviewed, &made, &plain);
}

/* To the surface it is a caution, and serious from the limit of the deeper band on. */
START_TEST(raises_ascent_rate_to_the_surface)
{
    struct reviewed reviewed;
    surface_from_6_m(&reviewed, 8, 2);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_CAUTION);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 1);
    reviewed_free(&reviewed);
    surface_from_6_m(&reviewed, 12, 2);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

/* 6 m in 5 s are 72 m/min. A line through 20 s of them, sampled every 5 s, makes (10 + 5) x 6 / 250 m/s of it, which is
 * 21.6 m/min. */
START_TEST(the_last_ascent_is_judged_as_it_was_swum)
{
    struct reviewed reviewed;
    surface_from_6_m(&reviewed, 72, 5);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 1);
    ck_assert_double_eq_tol(finding->value, 72, 1e-6);
    ck_assert_double_eq(finding->limit, 6);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    ck_assert_ptr_nonnull(strstr(finding->text, "up to 21.6 m/min"));
    reviewed_free(&reviewed);
}
END_TEST

/* A slow way to the surface from 3 m on, and 2 m of it in no time: less than 3 m of rise make no rate. */
START_TEST(less_than_three_metres_are_not_judged_as_swum)
{
    struct made_dive made = made_start(1.0);
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 6, 60, 2);
    leg(&made, &time_s, &depth_m, 6, 600, 2);
    leg(&made, &time_s, &depth_m, 1.5, 120, 2);
    leg(&made, &time_s, &depth_m, 0, 2, 2);
    leg(&made, &time_s, &depth_m, 0, 120, 2);
    reviewed_make(&reviewed, &made, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
    ck_assert_double_eq_tol(plm_trace_summary_get(reviewed.trace)->fastest_step_m_min, 45, 1e-6);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_ascent_rate)
{
    static const double way[][3] = {{30, 10, 12.4}, {5.5, 1, 7.4}};
    for (size_t i = 0; i < sizeof way / sizeof way[0]; i++) {
        struct reviewed reviewed;
        climb_at(&reviewed, way[i][0], way[i][1], way[i][2], &plain);
        ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
        reviewed_free(&reviewed);
    }
}
END_TEST

/* A quick step of a diver: the fit over 20 s makes up to 1.5 x 1.9 m / 20 s of it, 8.6 m/min, but it is no rise of 2 m.
 */
START_TEST(a_small_rise_is_no_ascent)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 4.9, 3.0, 57, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
    reviewed_free(&reviewed);
    climb_at(&reviewed, 4.9, 2.8, 63, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 1);
    reviewed_free(&reviewed);
}
END_TEST

/* Up and down by so much from one sample to the next at the bottom, then up at 13 m/min; a sample every 10 s. */
static enum plm_hold hold_with_noise(double noise_m)
{
    struct made_dive made = made_start(1.0);
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    struct review_wish held = {.hold = true};
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 10);
    for (int i = 0; i < 60; i++) {
        made_sample(&made, time_s += 10, 30 + (i % 2 == 0 ? noise_m : -noise_m));
    }
    leg(&made, &time_s, &depth_m, 30 - 13.0, 60, 10);
    leg(&made, &time_s, &depth_m, 0, 300, 10);
    reviewed_make(&reviewed, &made, &held);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    /* Three samples 10 s apart: the error of a slope is the noise by the root of 200 s2. */
    double noise_found_m = plm_trace_assumed(reviewed.trace)->depth_noise_m;
    ck_assert_double_eq_tol(finding->value_error, 60 * noise_found_m / sqrt(200), 1e-9);
    ck_assert_double_eq_tol(finding->value_high - finding->value, 2 * finding->value_error, 1e-9);
    enum plm_hold hold = finding->hold;
    reviewed_free(&reviewed);
    return hold;
}

/* 13 m/min are firmly beyond 10 where two standard errors are less than 3: up to 0.35 m of noise. */
START_TEST(a_rate_is_firm_beyond_two_standard_errors)
{
    ck_assert_int_eq(hold_with_noise(0.1), PLM_HOLD_FIRM);
    ck_assert_int_eq(hold_with_noise(0.45), PLM_HOLD_MARGINAL);
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

/* 45 m/min from 110 m to 25 m: at 25 m they are 4.5 bar of 3.5 a minute. However little decompression that asks for. */
START_TEST(never_lowers_what_is_fast_for_its_pressure)
{
    struct reviewed reviewed;
    climb_at(&reviewed, 110, 25, 45, &costed);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert(finding->cost.known);
    ck_assert_double_lt(finding->cost.decompression_min, 1);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    ck_assert_ptr_null(strstr(finding->text, "A note, because"));
    reviewed_free(&reviewed);
}
END_TEST

/* 40 min of air at 60 m and up to 21 m at 14 m/min, 45 % of ambient pressure a minute at the most, under a ceiling that
 * is deeper: never a note. */
START_TEST(never_lowers_what_breaks_a_ceiling)
{
    struct made_dive made = made_start(1.0);
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 60, 180, 5);
    leg(&made, &time_s, &depth_m, 60, 2400, 5);
    leg(&made, &time_s, &depth_m, 21, 39.0 / 14 * 60, 5);
    static const double stops[][2] = {{21, 10}, {15, 15}, {9, 30}, {6, 60}, {3, 120}};
    for (size_t i = 0; i < sizeof stops / sizeof stops[0]; i++) {
        leg(&made, &time_s, &depth_m, stops[i][0], 60, 5);
        leg(&made, &time_s, &depth_m, stops[i][0], 60 * stops[i][1], 5);
    }
    leg(&made, &time_s, &depth_m, 0, 60, 5);
    reviewed_make(&reviewed, &made, &costed);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE);
    ck_assert_uint_gt(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    ck_assert_double_lt(finding->cost.decompression_min, 1);
    ck_assert_double_lt(finding->cost.surfacing_gradient_points, 1);
    ck_assert_int_ge(finding->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

/* Who follows a schedule of ours keeps every limit of ours. */
START_TEST(a_followed_schedule_is_never_too_fast)
{
    struct climb climb = {.depth_m = 50, .bottom_min = 25, .o2_frac = 0.21, .he_frac = 0.35, .step_s = 2};
    struct made_dive made = climb_make(&climb);
    struct reviewed reviewed;
    reviewed_make(&reviewed, &made, &costed);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE), 0);
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

/* A recorder that writes changes of 0.3 m alone: ten minutes about 20 m with long silences, then one of 200 s over
 * which depth changes by moved_m. */
static size_t on_change(double moved_m)
{
    struct made_dive made = made_start(1.0);
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 20.1, 134, 2);
    for (int i = 0; i < 10; i++) {
        leg(&made, &time_s, &depth_m, depth_m + (i % 2 == 0 ? 0.3 : -0.3), 61, 61);
    }
    leg(&made, &time_s, &depth_m, depth_m - moved_m, 200, 200);
    leg(&made, &time_s, &depth_m, 0, 134, 2);
    reviewed_make(&reviewed, &made, &plain);
    size_t count = reviewed_count(&reviewed, PLM_FINDING_LOG_GAP);
    if (count > 0) {
        ck_assert_double_eq(reviewed_first(&reviewed, PLM_FINDING_LOG_GAP)->value, 200);
    }
    reviewed_free(&reviewed);
    return count;
}

/* The bound: 0.3 m, and 2 s at 18 m/min (rule silent_rate_m_min), 0.6 m. */
START_TEST(spares_silences_at_one_depth_of_a_recorder_of_changes)
{
    ck_assert_uint_eq(on_change(0.3), 0);
    ck_assert_uint_eq(on_change(0.88), 0);
}
END_TEST

START_TEST(raises_log_gap_where_a_recorder_of_changes_misses_some)
{
    ck_assert_uint_eq(on_change(0.93), 1);
    ck_assert_uint_eq(on_change(5), 1);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {raises_ascent_rate,
                                  a_brisk_way_between_shallow_stops_is_a_note,
                                  raises_ascent_rate_to_the_surface,
                                  the_last_ascent_is_judged_as_it_was_swum,
                                  less_than_three_metres_are_not_judged_as_swum,
                                  spares_ascent_rate,
                                  a_small_rise_is_no_ascent,
                                  a_rate_is_firm_beyond_two_standard_errors,
                                  never_lowers_what_is_fast_for_its_pressure,
                                  never_lowers_what_breaks_a_ceiling,
                                  a_followed_schedule_is_never_too_fast,
                                  lowers_a_deep_ascent_without_cost_and_says_why,
                                  joins_neighbours_less_than_30_s_apart,
                                  raises_log_gap,
                                  spares_log_gap,
                                  spares_silences_at_one_depth_of_a_recorder_of_changes,
                                  raises_log_gap_where_a_recorder_of_changes_misses_some};
    return SUITE_RUN("ascent kinds", tests);
}
