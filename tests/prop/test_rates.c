/*
 * The steps and the noise of a recorder raise no rate of ascent above the limit: an ascent at 9 m/min, recorded every
 * second in steps of 0.1 m with noise of a step either way, never reads as more than 10 m/min. Prints the seed that
 * fails.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "support/made_dive.h"
#include "support/random.h"
#include "support/suite.h"

#define SEEDS 100

/* From 60 m at 9 m/min with a stop at 21 m, to the surface; depth as a recorder shows it. */
static double shown_m(double t_s, struct seeded *seeded)
{
    double depth_m = t_s < 120.0    ? t_s * 0.5
                     : t_s < 400.0  ? 60.0
                     : t_s < 660.0  ? 60.0 - 0.15 * (t_s - 400.0)
                     : t_s < 1200.0 ? 21.0
                     : t_s < 1340.0 ? 21.0 - 0.15 * (t_s - 1200.0)
                                    : 0.0;
    double noise_m = depth_m > 0.0 ? seeded_between(seeded, -0.1, 0.1) : 0.0;
    return fmax(0.0, round((depth_m + noise_m) * 10.0) / 10.0);
}

static double fastest_of(uint64_t seed, double end_s)
{
    struct seeded seeded = {seed};
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0.35);
    for (double t_s = 0.0; t_s <= end_s; t_s += 1.0) {
        made_sample(&made, t_s, shown_m(t_s, &seeded));
    }
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = made_replay(dive, &made.rules);
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    double fastest_m_min = -1000.0;
    for (size_t i = 0; i < count; i++) {
        fastest_m_min = fmax(fastest_m_min, points[i].rate_m_min);
    }
    plm_trace_free(trace);
    plm_dive_free(dive);
    return fastest_m_min;
}

/* Records that go on at the surface, and records that end in the middle of an ascent. */
START_TEST(noise_does_not_shout)
{
    double fastest_m_min = 0.0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        double end_s = seed % 2 == 0 ? 1500.0 : 1300.0;
        double rate_m_min = fastest_of(seed, end_s);
        ck_assert_msg(rate_m_min < 10.0, "seed %d: %g m/min", (int)seed, rate_m_min);
        ck_assert_msg(rate_m_min > 8.5, "seed %d: %g m/min", (int)seed, rate_m_min);
        fastest_m_min = fmax(fastest_m_min, rate_m_min);
    }
    printf("%d seeds: at 9 m/min the fastest rate read is %.2f m/min\n", SEEDS, fastest_m_min);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {noise_does_not_shout};
    return SUITE_RUN("rates", tests);
}
