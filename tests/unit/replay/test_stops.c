/*
 * The minutes of an ascent sorted by stop depth, worked out by hand.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/stops.h"
#include "support/suite.h"

START_TEST(bands_lie_half_way_between_stops)
{
    struct plmi_stop_grid grid = {3.0, 3.0};
    ck_assert_int_eq(plmi_stop_index(&grid, 1.4), -1);
    ck_assert_int_eq(plmi_stop_index(&grid, 1.5), 0);
    ck_assert_int_eq(plmi_stop_index(&grid, 4.4), 0);
    ck_assert_int_eq(plmi_stop_index(&grid, 4.5), 1);
    ck_assert_int_eq(plmi_stop_index(&grid, 6.0), 1);
    ck_assert_int_eq(plmi_stop_index(&grid, 300.0), 99);
    ck_assert_double_eq_tol(plmi_stop_depth_m(&grid, 4), 15.0, 1e-12);
}
END_TEST

START_TEST(a_last_stop_at_6_m_has_the_surface_above_it)
{
    struct plmi_stop_grid grid = {6.0, 3.0};
    ck_assert_double_eq_tol(plmi_stop_upper_m(&grid, 0), 3.0, 1e-12);
    ck_assert_double_eq_tol(plmi_stop_lower_m(&grid, 0), 7.5, 1e-12);
    ck_assert_int_eq(plmi_stop_index(&grid, 2.9), -1);
    ck_assert_int_eq(plmi_stop_index(&grid, 3.0), 0);
    struct plmi_stop_grid odd = {4.5, 3.0};
    ck_assert_double_eq_tol(plmi_stop_depth_m(&odd, 0), 4.5, 1e-12);
    ck_assert_double_eq_tol(plmi_stop_depth_m(&odd, 1), 6.0, 1e-12);
    ck_assert_double_eq_tol(plmi_stop_depth_m(&odd, 2), 9.0, 1e-12);
}
END_TEST

/* 12 m to 6 m in 60 s, 600 s at 6 m, to the surface in 60 s; bands of 3 m. */
START_TEST(seconds_fall_into_their_bands)
{
    struct plmi_stop_grid grid = {3.0, 3.0};
    struct plm_point points[4];
    memset(points, 0, sizeof points);
    const double when_s[] = {0, 60, 660, 720}, depth_m[] = {12, 6, 6, 0};
    for (int i = 0; i < 4; i++) {
        points[i].time_ms = llround(when_s[i] * 1000.0);
        points[i].depth_m = depth_m[i];
    }
    double seconds[4] = {0, 0, 0, 0};
    plmi_stop_seconds(seconds, 4, &grid, points, 0, 3);
    ck_assert_double_eq_tol(seconds[0], 30.0, 1e-9);                /* 4.5 .. 1.5 m at 0.1 m/s */
    ck_assert_double_eq_tol(seconds[1], 15.0 + 600.0 + 15.0, 1e-9); /* 7.5 .. 6, the stop, 6 .. 4.5 */
    ck_assert_double_eq_tol(seconds[2], 30.0, 1e-9);
    ck_assert_double_eq_tol(seconds[3], 15.0, 1e-9); /* 12 .. 10.5 */
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {bands_lie_half_way_between_stops, a_last_stop_at_6_m_has_the_surface_above_it,
                                  seconds_fall_into_their_bands};
    return SUITE_RUN("stops", tests);
}
