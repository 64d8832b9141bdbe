/*
 * Fitted rates of ascent on records whose slope is known.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "replay/rate.h"
#include "support/suite.h"

#define POINTS  400
#define NOISE_M 0.1

struct record {
    struct plm_point points[POINTS];
    size_t count;
};

static void put(struct record *record, double time_s, double depth_m)
{
    struct plm_point *point = &record->points[record->count++];
    memset(point, 0, sizeof *point);
    point->time_ms = llround(time_s * 1000.0);
    point->depth_m = depth_m;
    point->ambient_bar = 1.0 + depth_m / 10.0;
}

static void fit(struct record *record)
{
    plmi_rates_find(record->points, record->count, 20.0, 0.1, NOISE_M);
}

START_TEST(a_straight_ascent_has_its_slope_everywhere)
{
    struct record record = {.count = 0};
    for (int t_s = 0; t_s <= 200; t_s++) {
        put(&record, t_s, 40.0 - 0.15 * t_s);
    }
    fit(&record);
    for (size_t i = 0; i < record.count; i++) {
        ck_assert_double_eq_tol(record.points[i].rate_m_min, 9.0, 1e-9);
    }
    /* 9 m/min at 20 m (3 bar): 0.9 bar a minute, 30 percent */
    ck_assert_double_eq_tol(record.points[133].depth_m, 20.05, 1e-9);
    ck_assert_double_eq_tol(record.points[133].relative_rate_pct_min, 100.0 * 0.9 / 3.005, 1e-9);
}
END_TEST

START_TEST(a_corner_is_rounded_over_the_window)
{
    struct record record = {.count = 0};
    for (int t_s = 0; t_s <= 200; t_s++) {
        put(&record, t_s, t_s < 100 ? 30.0 : 30.0 - 0.2 * (t_s - 100));
    }
    fit(&record);
    ck_assert_double_eq_tol(record.points[89].rate_m_min, 0.0, 1e-9);
    ck_assert_double_eq_tol(record.points[100].rate_m_min, 6.0, 1e-6);
    ck_assert_double_eq_tol(record.points[111].rate_m_min, 12.0, 1e-9);
    ck_assert(record.points[0].rate_m_min == 0.0 && !signbit(record.points[0].rate_m_min));
}
END_TEST

START_TEST(coarse_sampling_takes_the_interval_that_led_there)
{
    struct record record = {.count = 0};
    put(&record, 0, 0);
    put(&record, 60, 20);
    put(&record, 120, 14);
    put(&record, 180, 14);
    fit(&record);
    ck_assert_double_eq_tol(record.points[0].rate_m_min, -20.0, 1e-9);
    ck_assert_double_eq_tol(record.points[1].rate_m_min, -20.0, 1e-9);
    ck_assert_double_eq_tol(record.points[2].rate_m_min, 6.0, 1e-9);
    ck_assert_double_eq_tol(record.points[3].rate_m_min, 0.0, 1e-9);
}
END_TEST

/* Two samples a second apart beside long intervals: a step of 0.1 m must not read as 6 m/min. */
START_TEST(a_pair_among_coarse_samples_does_not_shout)
{
    struct record record = {.count = 0};
    put(&record, 0, 20.0);
    put(&record, 60, 20.0);
    put(&record, 61, 19.9);
    put(&record, 121, 19.9);
    fit(&record);
    ck_assert_double_lt(fabs(record.points[1].rate_m_min), 0.2);
    ck_assert_double_lt(fabs(record.points[2].rate_m_min), 0.2);
}
END_TEST

START_TEST(a_short_record_and_one_without_duration)
{
    struct record record = {.count = 0};
    put(&record, 0, 0);
    put(&record, 2, 1);
    fit(&record);
    ck_assert_double_eq_tol(record.points[0].rate_m_min, -30.0, 1e-9);
    ck_assert_double_eq_tol(record.points[1].rate_m_min, -30.0, 1e-9);
    record.count = 0;
    put(&record, 5, 0);
    put(&record, 5, 3);
    fit(&record);
    ck_assert(isnan(record.points[0].rate_m_min));
}
END_TEST

/* Sums that slide must not gather rounding: the same as fitted afresh, after a day of seconds. */
START_TEST(sliding_is_as_good_as_fitting_afresh)
{
    const int count = 86400;
    struct plm_point *points = calloc((size_t)count, sizeof *points);
    ck_assert_ptr_nonnull(points);
    for (int i = 0; i < count; i++) {
        points[i].time_ms = (int64_t)1000 * i;
        points[i].depth_m = 100.0 + 30.0 * sin(i / 17.0) + (i * 31 % 10) / 10.0;
        points[i].ambient_bar = 1.0 + points[i].depth_m / 10.0;
    }
    plmi_rates_find(points, (size_t)count, 20.0, 0.1, NOISE_M);
    for (int i = 10; i + 10 < count; i++) {
        double t = 0, d = 0, tt = 0, td = 0;
        for (int j = -10; j <= 10; j++) {
            t += j;
            d += points[i + j].depth_m;
            tt += j * j;
            td += j * points[i + j].depth_m;
        }
        double slope_m_s = (21 * td - t * d) / (21 * tt - t * t);
        double off_m_min = fabs(points[i].rate_m_min + 60.0 * slope_m_s);
        ck_assert_msg(off_m_min < 1e-9, "second %d: off by %g m/min", i, off_m_min);
    }
    free(points);
}
END_TEST

/*
 * The window never leaves the record: at its ends it is as long as elsewhere. A corner 10 s before the end lies in the
 * middle of the last 20 s, and the slope of a corner in the middle is half of the slope behind it: 6 m/min of 12 (as in
 * a_corner_is_rounded_over_the_window). The same at the beginning, with a corner 10 s after it.
 */
START_TEST(the_window_is_whole_at_the_ends)
{
    struct record record = {.count = 0};
    for (int t_s = 0; t_s <= 200; t_s++) {
        double before_m = t_s < 10 ? 0.2 * (10 - t_s) : 0.0, behind_m = t_s > 190 ? 0.2 * (t_s - 190) : 0.0;
        put(&record, t_s, 30.0 + before_m - behind_m);
    }
    fit(&record);
    for (int i = 0; i <= 10; i++) {
        ck_assert_double_eq_tol(record.points[i].rate_m_min, 6.0, 1e-6);
        ck_assert_double_eq_tol(record.points[200 - i].rate_m_min, 6.0, 1e-6);
    }
    ck_assert_double_eq_tol(record.points[100].rate_m_min, 0.0, 1e-9);
}
END_TEST

/* Depths off by noise of their own make a slope off by it over the root of the sum of squared times about their mean:
 * 21 samples a second apart have 770 s2, three samples 10 s apart 200 s2, two samples a minute apart 1800 s2. */
START_TEST(the_error_of_a_rate_is_that_of_a_least_squares_slope)
{
    static const double rows[][2] = {{1, 770}, {10, 200}, {60, 1800}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        struct record record = {.count = 0};
        for (int i = 0; i < 60; i++) {
            put(&record, rows[k][0] * i, 30.0);
        }
        fit(&record);
        ck_assert_double_eq_tol(record.points[30].rate_error_m_min, 60.0 * NOISE_M / sqrt(rows[k][1]), 1e-9);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_straight_ascent_has_its_slope_everywhere,
                                  a_corner_is_rounded_over_the_window,
                                  coarse_sampling_takes_the_interval_that_led_there,
                                  a_pair_among_coarse_samples_does_not_shout,
                                  a_short_record_and_one_without_duration,
                                  sliding_is_as_good_as_fitting_afresh,
                                  the_error_of_a_rate_is_that_of_a_least_squares_slope,
                                  the_window_is_whole_at_the_ends};
    return SUITE_RUN("rate", tests);
}
