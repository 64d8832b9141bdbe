/*
 * The step through a leg: kept factors, edges of time, and the exponential under it.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tissue/exponent.h"
#include "tissue/tissue.h"

static const struct plmi_leg leg = {10.0, 3.0, 3.5, 1.0, 2.0};

static struct plm_tissue surface_tissue(void)
{
    return plm_tissue_saturated(1.01325, 0.0627, 0.7902);
}

START_TEST(gain_is_that_of_the_library_of_c)
{
    ck_assert_double_eq(plmi_gain(0.0), 0.0);
    for (double x = 1e-18; x < 700.0; x *= 1.01) {
        ck_assert_double_eq_tol(plmi_gain(x) / -expm1(-x), 1.0, 5e-16);
    }
    ck_assert_double_eq(plmi_gain(700.0), 1.0);
    ck_assert(isnan(plmi_gain((double)NAN)));
}
END_TEST

/* More lengths than are kept, over and over: a kept factor must give what a fresh one gives. */
START_TEST(kept_factors_are_fresh_ones)
{
    struct plmi_decay decay, fresh;
    plmi_decay_init(&decay, plm_zhl16_get(2));
    struct plm_tissue kept = surface_tissue(), plain = kept;
    for (int i = 0; i < 50; i++) {
        struct plmi_leg part = leg;
        part.dt_s = 1.0 + (i * 7) % 6;
        plmi_tissue_step(&kept, &part, &decay);
        plmi_decay_init(&fresh, plm_zhl16_get(2));
        plmi_tissue_step(&plain, &part, &fresh);
    }
    ck_assert_mem_eq(&kept, &plain, sizeof kept);
}
END_TEST

START_TEST(compartments_are_single_ramps)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plmi_decay decay;
    plmi_decay_init(&decay, model);
    struct plm_tissue tissue = surface_tissue();
    plmi_tissue_step(&tissue, &leg, &decay);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double n2_bar = plmi_ramp_bar((1.01325 - 0.0627) * 0.7902, 3.0, 0.05, 60.0 * model->n2_half_time_min[i], 10.0);
        double he_bar = plmi_ramp_bar(0.0, 1.0, 0.1, 60.0 * model->he_half_time_min[i], 10.0);
        ck_assert_double_eq_tol(tissue.n2_bar[i], n2_bar, 1e-15);
        ck_assert_double_eq_tol(tissue.he_bar[i], he_bar, 1e-15);
    }
}
END_TEST

START_TEST(holding_is_a_leg_without_rise)
{
    struct plmi_decay decay;
    plmi_decay_init(&decay, plm_zhl16_get(2));
    for (double dt_s = 1e-3; dt_s < 1e8; dt_s *= 3.7) {
        struct plmi_leg flat = {dt_s, 3.0, 3.0, 1.0, 1.0};
        struct plm_tissue step = surface_tissue(), hold = step;
        plmi_tissue_step(&step, &flat, &decay);
        plmi_tissue_hold(&hold, plm_zhl16_get(2), 3.0, 1.0, dt_s);
        ck_assert_mem_eq(&step, &hold, sizeof step);
    }
}
END_TEST

START_TEST(time_has_edges)
{
    struct plmi_decay decay;
    plmi_decay_init(&decay, plm_zhl16_get(2));
    struct plmi_leg part = leg;
    struct plm_tissue tissue = surface_tissue(), before = tissue;
    part.dt_s = 0.0;
    plmi_tissue_step(&tissue, &part, &decay);
    ck_assert_mem_eq(&tissue, &before, sizeof tissue);
    part.dt_s = 1e-300;
    plmi_tissue_step(&tissue, &part, &decay);
    ck_assert_double_eq_tol(tissue.n2_bar[0], before.n2_bar[0], 1e-15);
    part.dt_s = 1e12;
    plmi_tissue_step(&tissue, &part, &decay);
    ck_assert_double_eq_tol(tissue.n2_bar[15], 3.5, 1e-6);
    part.dt_s = -1.0;
    plmi_tissue_step(&tissue, &part, &decay);
    ck_assert(isnan(tissue.n2_bar[0]) && isnan(tissue.he_bar[15]));
    ck_assert(isnan(plmi_ramp_bar(1.0, 1.0, 0.0, 300.0, -1.0)));
    ck_assert(isnan(plmi_ramp_bar(1.0, 1.0, 0.0, 0.0, 1.0)));
    ck_assert_double_eq(plmi_ramp_bar(1.0, 2.0, 0.5, 300.0, 0.0), 1.0);
}
END_TEST

START_TEST(there_are_three_variants)
{
    ck_assert_str_eq(plm_zhl16_get(0)->name, "ZH-L16A");
    ck_assert_str_eq(plm_zhl16_get(1)->name, "ZH-L16B");
    ck_assert_str_eq(plm_zhl16_get(2)->name, "ZH-L16C");
    ck_assert_ptr_null(plm_zhl16_get(3));
    ck_assert_ptr_null(plm_zhl16_get(-1));
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        ck_assert_double_le(plm_zhl16_get(2)->n2_a_bar[i], plm_zhl16_get(1)->n2_a_bar[i]);
        ck_assert_double_le(plm_zhl16_get(1)->n2_a_bar[i], plm_zhl16_get(0)->n2_a_bar[i]);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("step");
    tcase_add_test(tests, gain_is_that_of_the_library_of_c);
    tcase_add_test(tests, kept_factors_are_fresh_ones);
    tcase_add_test(tests, compartments_are_single_ramps);
    tcase_add_test(tests, holding_is_a_leg_without_rise);
    tcase_add_test(tests, time_has_edges);
    tcase_add_test(tests, there_are_three_variants);
    Suite *suite = suite_create("tissue");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
