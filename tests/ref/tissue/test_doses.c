/*
 * Oxygen doses over ramps against adaptive quadrature of the rates, written down here a second
 * time; and ramps of next to no change, which must lose no digits. Source: NOAA Diving Manual table
 * 15-1; REPEX 1988; Arieli et al. 2002; GNU Scientific Library, gsl_integration.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "support/lung.h"
#include "tissue/oxygen.h"

/* Minutes at 0.6, 0.7 .. 1.6. */
static const double single_min[] = {720, 570, 450, 360, 300, 240, 210, 180, 150, 120, 45};
static const double day_min[] = {720, 570, 450, 360, 300, 270, 240, 210, 180, 180, 150};

static double rate_of(const double minutes[], double p)
{
    if (p < 0.5) {
        return 0.0;
    }
    if (p < 0.6) {
        return 1.0 / (900.0 - 1800.0 * (p - 0.5));
    }
    if (p >= 1.6) {
        return 1.0 / minutes[10];
    }
    int row = (int)floor((p - 0.6) * 10.0 + 1e-12);
    row = row > 9 ? 9 : row;
    double share = (p - (0.6 + 0.1 * row)) / 0.1;
    return 1.0 / (minutes[row] + share * (minutes[row + 1] - minutes[row]));
}

static double single_rate(double p, void *unused)
{
    (void)unused;
    return 100.0 * rate_of(single_min, p);
}

static double day_rate(double p, void *unused)
{
    (void)unused;
    return 100.0 * rate_of(day_min, p);
}

static double otu_rate(double p, void *unused)
{
    (void)unused;
    return p > 0.5 ? pow((p - 0.5) / 0.5, 5.0 / 6.0) : 0.0;
}

static double esot_rate(double p, void *unused)
{
    (void)unused;
    return p > 0.0 ? pow(p, 2.285) : 0.0;
}

static const struct dose {
    const char *name;
    double (*rate)(double p, void *unused);
    double (*ramp)(double p0, double p1, double dt_min);
} doses[] = {
    {"CNS", single_rate, plmi_cns_pct},
    {"CNS 24 h", day_rate, plmi_cns_day_pct},
    {"OTU", otu_rate, plmi_otu},
    {"ESOT", esot_rate, plmi_esot},
};
enum { DOSES = sizeof doses / sizeof doses[0] };

/* Mean of a rate between p0 < p1, with breaks at all rows between. */
static double quadrature(const struct dose *dose, double p0, double p1, gsl_integration_workspace *space)
{
    double breaks[16] = {p0};
    size_t count = 1;
    for (int i = 5; i <= 16; i++) {
        double row = i * 0.1;
        if (row > p0 && row < p1) {
            breaks[count++] = row;
        }
    }
    breaks[count++] = p1;
    gsl_function f = {dose->rate, NULL};
    double sum = 0.0, error = 0.0;
    gsl_integration_qagp(&f, breaks, count, 0.0, 1e-11, 1000, space, &sum, &error);
    return sum / (p1 - p0);
}

START_TEST(ramps_are_the_quadrature_of_rates)
{
    const struct dose *dose = &doses[_i];
    gsl_integration_workspace *space = gsl_integration_workspace_alloc(1000);
    gsl_set_error_handler_off();
    uint32_t seed = 7;
    double worst = 0.0;
    for (int i = 0; i < 500; i++) {
        double p0 = lung_between(&seed, 0.1, 2.0);
        double p1 = p0 + (2.2 - p0) * pow(lung_between(&seed, 0.05, 1.0), 3.0);
        double expected = 10.0 * quadrature(dose, p0, p1, space);
        double off = fabs(dose->ramp(p0, p1, 10.0) - expected) / fmax(1e-6, expected);
        worst = fmax(worst, off);
        ck_assert_msg(off < 1e-9, "%s from %.17g to %.17g: off by %g", dose->name, p0, p1, off);
        ck_assert_double_eq(dose->ramp(p1, p0, 10.0), dose->ramp(p0, p1, 10.0));
    }
    printf("%s: 500 ramps, worst relative difference %.2g\n", dose->name, worst);
    gsl_integration_workspace_free(space);
}
END_TEST

/*
 * Over a ramp of 1e-6 bar or less the mean of a smooth rate is that at its middle, but for 1e-12 of
 * it; across a row the rates on both sides meet, but for their slopes.
 */
START_TEST(near_constant_ramps_lose_nothing)
{
    const struct dose *dose = &doses[_i];
    uint32_t seed = 11;
    for (int i = 0; i < 4000; i++) {
        double p0 = lung_between(&seed, 0.55, 1.9);
        double p1 = p0 + pow(10.0, -lung_between(&seed, 7.0, 17.0));
        double expected = 45.0 * dose->rate(0.5 * (p0 + p1), NULL);
        double off = fabs(dose->ramp(p0, p1, 45.0) / expected - 1.0);
        ck_assert_msg(off < 1e-12, "%s from %.17g by %g: off by %g", dose->name, p0, p1 - p0, off);
    }
}
END_TEST

/* Between a narrow ramp and a wide one two formulas meet: parts have to make the whole. */
START_TEST(parts_of_a_ramp_make_the_whole)
{
    const struct dose *dose = &doses[_i];
    for (int parts = 2; parts <= 512; parts *= 2) {
        double sum = 0.0;
        for (int i = 0; i < parts; i++) {
            sum += dose->ramp(0.3 + 1.5 * i / parts, 0.3 + 1.5 * (i + 1) / parts, 60.0 / parts);
        }
        ck_assert_double_eq_tol(sum / dose->ramp(0.3, 1.8, 60.0), 1.0, 1e-12);
    }
}
END_TEST

START_TEST(what_is_no_ramp_is_no_number)
{
    const struct dose *dose = &doses[_i];
    ck_assert(isnan(dose->ramp((double)NAN, 1.0, 1.0)));
    ck_assert(isnan(dose->ramp(1.0, (double)INFINITY, 1.0)));
    ck_assert(isnan(dose->ramp(1.0, 1.2, -1.0)));
    ck_assert_double_eq(dose->ramp(1.0, 1.2, 0.0), 0.0);
    ck_assert_double_eq(dose->ramp(-0.5, 0.0, 10.0), 0.0);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("doses");
    tcase_add_loop_test(tests, ramps_are_the_quadrature_of_rates, 0, DOSES);
    tcase_add_loop_test(tests, near_constant_ramps_lose_nothing, 0, DOSES);
    tcase_add_loop_test(tests, parts_of_a_ramp_make_the_whole, 0, DOSES);
    tcase_add_loop_test(tests, what_is_no_ramp_is_no_number, 0, DOSES);
    Suite *suite = suite_create("tissue");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
