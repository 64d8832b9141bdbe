/*
 * The same straight legs recorded every second and every minute give the same tensions and doses.
 * Source: the model's own claim of exact legs; the legs are straight by construction.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "support/made_dive.h"

enum breathing { OPEN_TRIMIX, LOOP_SETPOINT, LOOP_CELLS, OXYGEN_LOOP, BREATHINGS };

/* Minutes and depths of the corners; every leg is a whole number of minutes. */
static const double corners[][2] = {{0, 0},   {1, 0},  {3, 40},  {7, 111}, {24, 109}, {34, 45},
                                    {36, 45}, {60, 6}, {100, 6}, {101, 0}, {105, 0}};
/* Oxygen of the loop at those corners, for LOOP_CELLS; above ambient near the surface. */
static const double cells_bar[] = {1.2, 1.2, 1.25, 1.31, 1.33, 1.2, 1.2, 1.65, 1.7, 1.7, 1.4};
#define CORNERS (sizeof corners / sizeof corners[0])

static void breathe(struct made_dive *made, enum breathing breathing)
{
    if (breathing == OPEN_TRIMIX) {
        made_open(made, 0.18, 0.45);
    } else if (breathing == OXYGEN_LOOP) {
        made_loop(made, 1.0, 0.0, (double)NAN);
    } else {
        made_loop(made, 0.10, 0.70, breathing == LOOP_SETPOINT ? 1.3 : (double)NAN);
    }
}

static struct plm_dive *dive_of(enum breathing breathing, int step_s, struct plm_rules *rules)
{
    struct made_dive made = made_start(0.97);
    breathe(&made, breathing);
    for (size_t leg = 0; leg + 1 < CORNERS; leg++) {
        int from_s = (int)(60.0 * corners[leg][0]), to_s = (int)(60.0 * corners[leg + 1][0]);
        for (int t_s = from_s; t_s < to_s || (leg + 2 == CORNERS && t_s == to_s); t_s += step_s) {
            double share = (double)(t_s - from_s) / (to_s - from_s);
            double depth_m = corners[leg][1] + share * (corners[leg + 1][1] - corners[leg][1]);
            double po2_bar = cells_bar[leg] + share * (cells_bar[leg + 1] - cells_bar[leg]);
            if (breathing == LOOP_CELLS) {
                made_sample_cells(&made, t_s, depth_m, po2_bar, po2_bar, po2_bar);
            } else {
                made_sample(&made, t_s, depth_m);
            }
        }
    }
    *rules = made.rules;
    return made_finish(&made);
}

static double apart(const struct plm_point *a, const struct plm_point *b)
{
    double bar = 0.0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        bar = fmax(bar, fabs(a->tissue.n2_bar[i] - b->tissue.n2_bar[i]));
        bar = fmax(bar, fabs(a->tissue.he_bar[i] - b->tissue.he_bar[i]));
    }
    return bar;
}

/* Of themselves: pure oxygen at depth gives doses without meaning and of any size. */
static double dose_apart(double a, double b)
{
    return fabs(a - b) / fmax(1.0, fabs(a));
}

START_TEST(seconds_and_minutes_agree)
{
    struct plm_rules rules;
    struct plm_dive *fine_dive = dive_of((enum breathing)_i, 1, &rules),
                    *coarse_dive = dive_of((enum breathing)_i, 60, &rules);
    struct plm_trace *fine = made_replay(fine_dive, &rules), *coarse = made_replay(coarse_dive, &rules);
    size_t fine_count, coarse_count;
    const struct plm_point *fine_points = plm_trace_points(fine, &fine_count);
    const struct plm_point *coarse_points = plm_trace_points(coarse, &coarse_count);
    ck_assert_uint_eq(fine_count, 105 * 60 + 1);
    ck_assert_uint_eq(coarse_count, 105 + 1);
    double worst_bar = 0.0, worst_dose = 0.0;
    for (size_t i = 0; i < coarse_count; i++) {
        const struct plm_point *a = &fine_points[60 * i], *b = &coarse_points[i];
        ck_assert_int_eq(a->time_ms, b->time_ms);
        worst_bar = fmax(worst_bar, apart(a, b));
        worst_dose =
            fmax(worst_dose, fmax(dose_apart(a->cns_pct, b->cns_pct), dose_apart(a->cns_day_pct, b->cns_day_pct)));
        worst_dose = fmax(worst_dose, fmax(dose_apart(a->otu, b->otu), dose_apart(a->esot, b->esot)));
        ck_assert_double_eq_tol(a->po2_bar, b->po2_bar, 1e-12);
    }
    printf("breathing %d: tensions apart by %.3g bar, doses by %.3g\n", _i, worst_bar, worst_dose);
    ck_assert_double_lt(worst_bar, 1e-10);
    ck_assert_double_lt(worst_dose, 1e-9);
    plm_trace_free(fine);
    plm_trace_free(coarse);
    plm_dive_free(fine_dive);
    plm_dive_free(coarse_dive);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("sampling");
    tcase_add_loop_test(tests, seconds_and_minutes_agree, 0, BREATHINGS);
    Suite *suite = suite_create("replay");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
