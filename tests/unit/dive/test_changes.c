/*
 * Recorders that write a sample only when the depth has changed: known by their samples, and without gaps where nothing
 * moved. Dives and bounds: conventions of this program; what was written when is known, as these tests write it.
 * SPDX-License-Identifier: MIT
 */
#include "unit/dive/built.h"

#include "support/suite.h"

#define PI      3.14159265358979323846
#define STOP_S  1560
#define ABOVE_S 2160 /* the stop is left */
#define END_S   2220

/* [m] twenty minutes about 30 m, where one swims up and down a little; ten minutes at 6 m; waves. */
static double swum_m(double time_s)
{
    static const struct {
        double at_s, depth_m;
    } corners[] = {{0, 0}, {90, 30}, {1400, 30}, {STOP_S, 6}, {ABOVE_S, 6}, {END_S, 0}};
    size_t i = 1;
    while (time_s > corners[i].at_s) {
        i++;
    }
    double frac = (time_s - corners[i - 1].at_s) / (corners[i].at_s - corners[i - 1].at_s);
    double depth_m = corners[i - 1].depth_m + frac * (corners[i].depth_m - corners[i - 1].depth_m);
    double wave_m = 0.1 * sin(2 * PI * time_s / 7), wander_m = i == 2 ? 0.3 * sin(2 * PI * time_s / 500) : 0;
    return fmax(0, nearbyint((depth_m + wave_m + wander_m) * 10) / 10);
}

/* Writes where depth has changed by change_m, every two seconds at the soonest, and nothing from hole_s to hole_end_s.
 */
static void write_changes(double change_m, double hole_s, double hole_end_s)
{
    double last_m = -1;
    uint32_t line = 2;
    for (double time_s = 0; time_s <= END_S; time_s += 2) {
        double depth_m = swum_m(time_s);
        bool hole = time_s > hole_s && time_s < hole_end_s;
        if (!hole && (last_m < 0 || fabs(depth_m - last_m) >= change_m - 1e-9)) {
            add(time_s, depth_m, line++);
            last_m = depth_m;
        }
    }
}

static const struct plm_dive_info *info(void)
{
    return plm_dive_info_get(dive);
}

START_TEST(changes_alone_are_known_and_leave_no_gap)
{
    begin();
    write_changes(0.3, 0, 0);
    finish();
    ck_assert_double_eq_tol(info()->change_m, 0.3, 1e-9);
    ck_assert_double_eq_tol(info()->change_step_s, 2, 1e-9);
    ck_assert(!diag_list_has(&told, "[gap]"));
    end();
}
END_TEST

START_TEST(a_silence_that_was_swum_through_is_a_gap)
{
    begin();
    write_changes(0.3, 1398, 1500);
    finish();
    ck_assert_double_eq_tol(info()->change_m, 0.3, 1e-9);
    ck_assert(diag_list_has(&told, "228 s without samples; a straight line from 29.8 m to 15.1 m is taken [gap]"));
    ck_assert_int_eq(told.count, 1);
    end();
}
END_TEST

/* With waves of 0.1 m a recorder by the clock writes the same depth twice now and then, jitter or not. */
static void by_clock(int jitter_s)
{
    int late_s[] = {0, jitter_s, -jitter_s, 0, -jitter_s, jitter_s};
    for (int i = 0; i * 10 <= END_S; i++) {
        double time_s = fmax(0, fmin(END_S, i * 10 + late_s[i % 6]));
        if (time_s < STOP_S + 60 || time_s > STOP_S + 260) {
            add(time_s, swum_m(time_s), (uint32_t)(i + 2));
        }
    }
    finish();
    ck_assert(isnan(info()->change_m));
    ck_assert(isnan(info()->change_step_s));
    ck_assert(diag_list_has(&told, "without samples; a straight line from 6."));
    end();
}

START_TEST(a_clock_that_misses_samples_has_a_gap_at_one_depth)
{
    begin();
    by_clock(0);
    begin();
    by_clock(4);
}
END_TEST

/* A fine recorder by the clock hardly ever repeats a depth, but its samples are even. */
START_TEST(a_fine_recorder_by_the_clock_writes_no_changes)
{
    begin();
    for (int i = 0; i * 10 <= END_S; i++) {
        add(i * 10, swum_m(i * 10) + (i % 2 == 0 ? 0.07 : 0), (uint32_t)(i + 2));
    }
    finish();
    ck_assert(isnan(info()->change_m));
    end();
}
END_TEST

/* Turning points alone: hardly ever the same depth twice, uneven, and much happens between them. */
START_TEST(turning_points_have_gaps)
{
    begin();
    double time_s = 0;
    for (int i = 0; i < 120; i++) {
        add(time_s, i == 0 ? 0 : 10 + i * i * 5 % 23 + 0.1 * (i % 7), (uint32_t)(i + 2));
        time_s += i % 4 == 0 ? 90 : 15;
    }
    add(time_s + 120, 0, 200);
    finish();
    ck_assert(isnan(info()->change_m));
    ck_assert(diag_list_has(&told, "stretches without samples, the longest of 135 s; straight lines are taken [gap]"));
    end();
}
END_TEST

/* So few changes may be chance. */
START_TEST(a_short_record_does_not_tell)
{
    begin();
    for (int i = 0; i < 30; i++) {
        add(i * 4 + (i % 5 == 4 ? 14 : 0), i == 0 ? 0 : 10 + 0.3 * (i % 2), (uint32_t)(i + 2));
    }
    finish();
    ck_assert(isnan(info()->change_m));
    end();
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {changes_alone_are_known_and_leave_no_gap,
                                  a_silence_that_was_swum_through_is_a_gap,
                                  a_clock_that_misses_samples_has_a_gap_at_one_depth,
                                  a_fine_recorder_by_the_clock_writes_no_changes,
                                  turning_points_have_gaps,
                                  a_short_record_does_not_tell};
    return SUITE_RUN("changes", tests);
}
