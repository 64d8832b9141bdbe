/*
 * The noise of depths whose deviation is known, and what it is where nothing can be measured.
 * Source: the definition of a normal deviation; nothing here stands on figures of ours.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/noise.h"
#include "support/made_dive.h"
#include "support/random.h"
#include "support/suite.h"

#define POINTS 1200

struct record {
    struct plm_point points[POINTS];
    size_t count;
};

static void put(struct record *record, double time_s, double depth_m)
{
    record->points[record->count++] = (struct plm_point){.time_ms = llround(time_s * 1000.0), .depth_m = depth_m};
}

static double measured_m(const struct record *record)
{
    return plmi_noise_measure_m(record->points, record->count, 0.5);
}

/* Of mean 0 and deviation 1: the sum of twelve uniform numbers less 6. */
static double normal(struct seeded *seeded)
{
    double sum = -6.0;
    for (int i = 0; i < 12; i++) {
        sum += seeded_uniform(seeded);
    }
    return sum;
}

/* Twenty minutes about a depth that changes by 0.5 m/min, a sample every step_s. */
START_TEST(normal_noise_has_its_deviation)
{
    static const double steps_s[] = {2, 5, 10};
    for (size_t k = 0; k < sizeof steps_s / sizeof steps_s[0]; k++) {
        struct seeded seeded = {k + 1};
        struct record record = {.count = 0};
        for (double t_s = 0; t_s < 100 * steps_s[k] && record.count < POINTS; t_s += steps_s[k] / 6) {
            put(&record, t_s, 20.0 - t_s / 120.0 + 0.2 * normal(&seeded));
        }
        ck_assert_double_eq_tol(measured_m(&record), 0.2, 0.02);
    }
}
END_TEST

/* Few samples of a minute make a line fit too well: seven of them, and still the deviation. */
START_TEST(seven_samples_a_minute_are_enough)
{
    struct seeded seeded = {5};
    struct record record = {.count = 0};
    for (int i = 0; i < POINTS; i++) {
        put(&record, 10.0 * i, 6.3 + 0.15 * normal(&seeded));
    }
    ck_assert_double_eq_tol(measured_m(&record), 0.15, 0.015);
}
END_TEST

/* A way at 9 m/min is no noise, nor a head that bobs at the surface, nor four samples a minute. */
START_TEST(what_moves_is_not_measured)
{
    struct record way = {.count = 0}, head = {.count = 0}, coarse = {.count = 0};
    for (int i = 0; i < 300; i++) {
        put(&way, i, 50.0 - 0.15 * i);
        put(&head, i, 0.4 + 0.3 * sin(i));
        put(&coarse, 15.0 * i, 20.0 + 0.2 * (i % 2));
    }
    ck_assert(isnan(measured_m(&way)) && isnan(measured_m(&head)) && isnan(measured_m(&coarse)));
}
END_TEST

/* One sample in ten off by half a metre says little of the others. */
START_TEST(a_few_wild_samples_change_little)
{
    struct seeded seeded = {7};
    struct record record = {.count = 0};
    for (int i = 0; i < POINTS; i++) {
        put(&record, 2.0 * i, 12.0 + 0.1 * normal(&seeded) + (i % 10 == 0 ? 0.5 : 0.0));
    }
    double found_m = measured_m(&record);
    ck_assert_double_gt(found_m, 0.09);
    ck_assert_double_lt(found_m, 0.14);
}
END_TEST

/* Ten minutes at 20 m, depths rounded to step_m after noise of a known deviation. */
static struct plm_trace *trace_of(struct plm_dive **dive, double step_m, double noise_m)
{
    struct seeded seeded = {3};
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    for (int i = 1; i <= 300; i++) {
        double depth_m = 20.03 + noise_m * normal(&seeded);
        made_sample(&made, 60 + 2 * i, step_m > 0 ? step_m * round(depth_m / step_m) : depth_m);
    }
    made_sample(&made, 900, 0);
    *dive = made_finish(&made);
    return made_replay(*dive, &made.rules);
}

START_TEST(noise_is_at_least_the_step)
{
    static const struct {
        double step_m, noise_m, expected_m, tolerance_m;
        const char *from;
    } rows[] = {{0.1, 0.02, 0.1, 1e-12, "step of the recorder"},
                {0.1, 0.25, 0.25, 0.03, "log"},
                {0.5, 0.2, 0.5, 1e-12, "step of the recorder"},
                {0.0, 0.01, 0.1, 1e-12, "rule"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_dive *dive;
        struct plm_trace *trace = trace_of(&dive, rows[i].step_m, rows[i].noise_m);
        const struct plm_assumed *assumed = plm_trace_assumed(trace);
        ck_assert_double_eq_tol(assumed->depth_noise_m, rows[i].expected_m, rows[i].tolerance_m);
        ck_assert_str_eq(assumed->depth_noise_from, rows[i].from);
        plm_trace_free(trace);
        plm_dive_free(dive);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {normal_noise_has_its_deviation, seven_samples_a_minute_are_enough,
                                  what_moves_is_not_measured, a_few_wild_samples_change_little,
                                  noise_is_at_least_the_step};
    return SUITE_RUN("noise", tests);
}
