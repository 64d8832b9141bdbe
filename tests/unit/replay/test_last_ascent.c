/*
 * The last way to the surface, on records whose times are known.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/last_ascent.h"
#include "support/suite.h"

static struct plm_point at(double time_s, double depth_m)
{
    return (struct plm_point){.time_ms = llround(time_s * 1000.0), .depth_m = depth_m};
}

/* Up at 6 m/min from 12 m, with a stop of a minute at 5 m, a sample every 10 s: the surface at 0.5 m is met 10 s before
 * 0. */
START_TEST(times_are_those_of_straight_lines)
{
    struct plm_point points[40];
    size_t count = 0;
    for (int i = 0; i <= 7; i++) {
        points[count++] = at(10.0 * i, 12.0 - i);
    }
    for (int i = 8; i <= 13; i++) {
        points[count++] = at(10.0 * i, 5.0);
    }
    for (int i = 14; i <= 18; i++) {
        points[count++] = at(10.0 * i, 18.0 - i);
    }
    struct plm_trace_summary summary = {.bottom_end = 0, .surfaced = count - 1};
    plmi_last_ascent_fill(&summary, points, 0.5);
    ck_assert_double_eq_tol(summary.last_ascent_s[0], 175.0 - 20.0, 1e-9);
    ck_assert_double_eq_tol(summary.last_ascent_s[1], 175.0 - 60.0, 1e-9);
    ck_assert_double_eq_tol(summary.last_ascent_s[2], 25.0, 1e-9);
    ck_assert_double_eq_tol(summary.fastest_step_m_min, 6.0, 1e-9);
    struct plmi_passage passage;
    ck_assert(plmi_passage_find(&passage, points, summary.surfaced, 3.0, 0.5));
    ck_assert_double_eq_tol(plmi_passage_rate_m_min(&passage), 6.0, 1e-9);
    ck_assert(!plmi_passage_find(&passage, points, summary.surfaced, 12.1, 0.5));
}
END_TEST

/* The last time counts: a diver who went down again begins anew. */
START_TEST(the_last_time_at_a_depth_counts)
{
    const struct plm_point points[] = {at(0, 12), at(60, 2), at(120, 7), at(180, 0)};
    struct plm_trace_summary summary = {.bottom_end = 0, .surfaced = 3};
    plmi_last_ascent_fill(&summary, points, 0.0);
    ck_assert_double_eq_tol(summary.last_ascent_s[0], 180.0 - 12.0, 1e-9);
    ck_assert_double_eq_tol(summary.last_ascent_s[1], 60.0 * 6.0 / 7.0, 1e-9);
    ck_assert_double_eq_tol(summary.fastest_step_m_min, 10.0, 1e-9);
    ck_assert_double_eq_tol(summary.fastest_step_at_s, 60.0, 1e-9);
}
END_TEST

/* Never so deep, or a record that ends in the water: not known. A record that ends short of the surface ends the way.
 */
START_TEST(what_is_not_known)
{
    const struct plm_point points[] = {at(0, 0), at(60, 5), at(120, 5), at(180, 1.0)};
    struct plm_trace_summary summary = {.bottom_end = 2, .surfaced = 3};
    plmi_last_ascent_fill(&summary, points, 0.5);
    ck_assert(isnan(summary.last_ascent_s[0]) && isnan(summary.last_ascent_s[1]));
    ck_assert_double_eq_tol(summary.last_ascent_s[2], 30.0, 1e-9);
    summary.ends_in_water = true;
    plmi_last_ascent_fill(&summary, points, 0.5);
    ck_assert(isnan(summary.last_ascent_s[2]));
    const struct plm_point still[] = {at(0, 0), at(60, 5), at(60, 5)};
    summary = (struct plm_trace_summary){.bottom_end = 1, .surfaced = 2};
    plmi_last_ascent_fill(&summary, still, 0.5);
    ck_assert(isnan(summary.last_ascent_s[2]) && isnan(summary.fastest_step_m_min));
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {times_are_those_of_straight_lines, the_last_time_at_a_depth_counts,
                                  what_is_not_known};
    return SUITE_RUN("last ascent", tests);
}
