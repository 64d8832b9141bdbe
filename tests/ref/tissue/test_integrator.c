/*
 * Tensions against an integrator that knows nothing of closed forms: GSL's adaptive Runge-Kutta (8,
 * 9) over 200 seeded profiles, open and loop, switches, altitude, PO2 measured, held and above
 * ambient. Source: dP/dt = k (inspired - P), k = ln 2 / half-time; GNU Scientific Library,
 * gsl_odeiv2.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "support/lung.h"

static const int profiles = 200;
static const double tolerance_bar = 1e-9;
enum { SIZE = 2 * PLM_COMPARTMENTS };

/* One leg as the integrator sees it: depth and PO2 by time, no legs of inspired gas. */
struct leg {
    const struct plm_zhl16 *model;
    bool on_loop;
    double o2, he, surface_bar, bar_per_m, vapour_bar;
    double from_m, to_m, from_po2, to_po2, dt_s;
};

static int slope(double t, const double y[], double dydt[], void *context)
{
    const struct leg *leg = context;
    double share = t / leg->dt_s;
    double ambient = leg->surface_bar + leg->bar_per_m * (leg->from_m + share * (leg->to_m - leg->from_m));
    double n2 = (1.0 - leg->o2 - leg->he) * (ambient - leg->vapour_bar);
    double he = leg->he * (ambient - leg->vapour_bar);
    if (leg->on_loop) {
        double po2 = leg->from_po2 + share * (leg->to_po2 - leg->from_po2);
        double inert = ambient - leg->vapour_bar - (po2 > ambient ? ambient : po2);
        inert = inert < 0.0 ? 0.0 : inert;
        n2 = inert * (1.0 - leg->o2 - leg->he) / (1.0 - leg->o2);
        he = inert * leg->he / (1.0 - leg->o2);
    }
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        dydt[i] = 0.69314718055994530942 / (60.0 * leg->model->n2_half_time_min[i]) * (n2 - y[i]);
        dydt[i + PLM_COMPARTMENTS] =
            0.69314718055994530942 / (60.0 * leg->model->he_half_time_min[i]) * (he - y[i + PLM_COMPARTMENTS]);
    }
    return GSL_SUCCESS;
}

static void integrate(struct leg *leg, double y[SIZE])
{
    gsl_odeiv2_system system = {slope, NULL, SIZE, leg};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, leg->dt_s / 4.0, 1e-13, 0.0);
    double t = 0.0;
    ck_assert_int_eq(gsl_odeiv2_driver_apply(driver, &t, leg->dt_s, y), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
}

/* What is breathed may change before each leg. */
static void change_gas(struct lung *lung, uint32_t *seed, double depth_m)
{
    if (lung_between(seed, 0.0, 1.0) < 0.6) {
        return;
    }
    double o2 = lung_between(seed, 0.08, depth_m < 6.0 ? 1.0 : 0.5);
    lung->mix = lung_mix(o2, lung_between(seed, 0.0, 1.0 - o2));
    lung->on_loop = lung_between(seed, 0.0, 1.0) < 0.5 && o2 < 0.99;
}

static double worst_difference(const struct plm_tissue *tissue, const double y[SIZE])
{
    double worst = 0.0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        worst = fmax(worst, fabs(tissue->n2_bar[i] - y[i]));
        worst = fmax(worst, fabs(tissue->he_bar[i] - y[i + PLM_COMPARTMENTS]));
    }
    return worst;
}

static double dive_profile(uint32_t seed)
{
    uint32_t s = seed * 2654435761u;
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    double surface_bar =
        plm_standard_atmosphere_bar(lung_between(&s, 0.0, 1.0) < 0.4 ? lung_between(&s, 0.0, 4000.0) : 0.0);
    struct lung lung = {
        .mix = lung_mix(0.21, 0.0),
        .surface_bar = surface_bar,
        .bar_per_m = plm_bar_per_m(lung_between(&s, 1000.0, 1030.0)),
        .vapour_bar = 0.0627,
    };
    plmi_decay_init(&lung.decay, model);
    struct plm_tissue tissue = plm_tissue_saturated(surface_bar, 0.0627, 0.7902);
    double y[SIZE] = {0.0};
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        y[i] = tissue.n2_bar[i];
    }
    double depth_m = 0.0, po2_bar = 0.7, worst = 0.0;
    for (int i = 0; i < 30; i++) {
        change_gas(&lung, &s, depth_m);
        bool stays = lung_between(&s, 0.0, 1.0) < 0.4;
        double to_m = stays ? depth_m : lung_between(&s, 0.0, i < 20 ? 150.0 : 20.0);
        double to_po2_bar = lung_between(&s, 0.0, 1.0) < 0.5 ? po2_bar : lung_between(&s, 0.2, 1.7);
        double dt_s = stays ? lung_between(&s, 1.0, 2400.0) : 1.0 + fabs(to_m - depth_m) * lung_between(&s, 1.0, 8.0);
        struct leg leg = {model,       lung.on_loop,   lung.mix.o2_frac, lung.mix.he_frac,
                          surface_bar, lung.bar_per_m, 0.0627,           depth_m,
                          to_m,        po2_bar,        to_po2_bar,       dt_s};
        lung_breathe(&lung, &tissue, depth_m, to_m, po2_bar, to_po2_bar, dt_s);
        integrate(&leg, y);
        worst = fmax(worst, worst_difference(&tissue, y));
        depth_m = to_m;
        po2_bar = to_po2_bar;
    }
    return worst;
}

START_TEST(tensions_are_those_of_the_integrator)
{
    double worst = 0.0;
    for (int seed = 1; seed <= profiles; seed++) {
        double off = dive_profile((uint32_t)seed);
        ck_assert_msg(off < tolerance_bar, "seed %d: off by %g bar", seed, off);
        worst = fmax(worst, off);
    }
    printf("%d profiles of 30 legs: worst difference %.3g bar\n", profiles, worst);
}
END_TEST

/* A straight leg in one piece and second by second. */
START_TEST(pieces_of_a_leg_are_the_leg)
{
    struct lung lung = {true, lung_mix(0.1, 0.6), 1.01325, 0.1, 0.0627, {0}};
    plmi_decay_init(&lung.decay, plm_zhl16_get(2));
    struct plm_tissue whole = plm_tissue_saturated(1.01325, 0.0627, 0.7902), pieces = whole;
    lung_breathe(&lung, &whole, 0.0, 120.0, 0.7, 1.3, 7200.0);
    for (int i = 0; i < 7200; i++) {
        lung_breathe(&lung, &pieces, i / 60.0, (i + 1) / 60.0, 0.7 + 0.6 * i / 7200.0, 0.7 + 0.6 * (i + 1) / 7200.0,
                     1.0);
    }
    double worst = 0.0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        worst = fmax(worst, fabs(whole.n2_bar[i] - pieces.n2_bar[i]));
        worst = fmax(worst, fabs(whole.he_bar[i] - pieces.he_bar[i]));
    }
    printf("7200 pieces: worst difference %.3g bar\n", worst);
    ck_assert_double_lt(worst, 1e-11);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("integrator");
    tcase_set_timeout(tests, 250);
    tcase_add_test(tests, tensions_are_those_of_the_integrator);
    tcase_add_test(tests, pieces_of_a_leg_are_the_leg);
    Suite *suite = suite_create("tissue");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
