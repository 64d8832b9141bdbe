/*
 * Tensions of whole replays against an adaptive integrator: dP/dt = k (Pi(t) - P).
 * Source: the differential equation itself, by GSL's gsl_odeiv2 (Prince-Dormand 8,9), and what is breathed by
 * scenario.c.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ref/replay/scenario.h"
#include "support/made_dive.h"

#define TENSIONS (2 * PLM_COMPARTMENTS)
#define PROFILES 200

struct flow {
    const struct scenario *scenario;
    int leg; /* -1: air at the surface */
    double k_s[TENSIONS];
};

static int derivative(double t_s, const double tension[], double slope[], void *parameters)
{
    const struct flow *flow = parameters;
    struct scenario_breath breath = {(flow->scenario->surface_bar - 0.0627) * 0.7902, 0.0, 0.0};
    if (flow->leg >= 0) {
        breath = scenario_breathe(flow->scenario, flow->leg, t_s);
    }
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        slope[i] = flow->k_s[i] * (breath.n2_bar - tension[i]);
        slope[PLM_COMPARTMENTS + i] = flow->k_s[PLM_COMPARTMENTS + i] * (breath.he_bar - tension[PLM_COMPARTMENTS + i]);
    }
    return GSL_SUCCESS;
}

static void flow_init(struct flow *flow, const struct scenario *scenario)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    flow->scenario = scenario;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        flow->k_s[i] = log(2.0) / (60.0 * model->n2_half_time_min[i]);
        flow->k_s[PLM_COMPARTMENTS + i] = log(2.0) / (60.0 * model->he_half_time_min[i]);
    }
}

static void integrate(struct flow *flow, double tension[TENSIONS], double from_s, double to_s)
{
    if (!(to_s > from_s)) {
        return;
    }
    gsl_odeiv2_system system = {derivative, NULL, TENSIONS, flow};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, (to_s - from_s) / 8.0, 1e-13, 0.0);
    double t_s = from_s;
    ck_assert_int_eq(gsl_odeiv2_driver_apply(driver, &t_s, to_s, tension), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
}

static double difference(const double tension[TENSIONS], const struct plm_tissue *tissue)
{
    double worst_bar = 0.0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        worst_bar = fmax(worst_bar, fabs(tension[i] - tissue->n2_bar[i]));
        worst_bar = fmax(worst_bar, fabs(tension[PLM_COMPARTMENTS + i] - tissue->he_bar[i]));
    }
    return worst_bar;
}

/* Worst difference over the samples of one dive, and after a surface interval behind it. */
static double worst_of(const struct scenario *scenario, double *after_bar, int *kinks)
{
    struct plm_dive *dive = scenario_dive(scenario);
    struct plm_rules rules = scenario_rules(scenario);
    struct plm_trace *trace = made_replay(dive, &rules);
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    ck_assert_uint_eq(count, (size_t)scenario->count);
    struct flow flow;
    flow_init(&flow, scenario);
    double tension[TENSIONS] = {0}, left[TENSIONS] = {0}, worst_bar = 0.0;
    int64_t wet_from_ms, wet_to_ms;
    plm_dive_wet(dive, &rules, &wet_from_ms, &wet_to_ms);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        tension[i] = (scenario->surface_bar - 0.0627) * 0.7902;
    }
    for (int leg = 0; leg + 1 < scenario->count; leg++) {
        double kinks_s[4], t_s = scenario->samples[leg].time_s;
        int cuts = scenario_kinks(scenario, leg, kinks_s);
        flow.leg = leg;
        for (int k = 0; k < cuts; k++) {
            integrate(&flow, tension, t_s, kinks_s[k]);
            t_s = kinks_s[k];
        }
        *kinks += cuts;
        integrate(&flow, tension, t_s, scenario->samples[leg + 1].time_s);
        worst_bar = fmax(worst_bar, difference(tension, &points[leg + 1].tissue));
        if (points[leg + 1].time_ms == wet_to_ms) {
            memcpy(left, tension, sizeof left); /* the interval begins on leaving the water */
        }
    }
    flow.leg = -1;
    integrate(&flow, left, 0.0, 5400.0);
    struct plm_start start = plm_start_after(trace, 5400.0, scenario->surface_bar, &rules);
    *after_bar = fmax(*after_bar, difference(left, &start.tissue));
    plm_trace_free(trace);
    plm_dive_free(dive);
    return worst_bar;
}

START_TEST(tensions_are_those_of_the_integrator)
{
    double worst_bar = 0.0, after_bar = 0.0;
    int kinks = 0;
    for (uint64_t seed = 1; seed <= PROFILES; seed++) {
        struct scenario scenario;
        scenario_make(&scenario, seed);
        double bar = worst_of(&scenario, &after_bar, &kinks);
        ck_assert_msg(bar < 1e-9, "seed %d: off by %g bar", (int)seed, bar);
        worst_bar = fmax(worst_bar, bar);
    }
    printf("%d random dives, %d clips inside legs: worst difference %.3g bar; after a surface interval %.3g bar\n",
           PROFILES, kinks, worst_bar, after_bar);
    ck_assert_double_lt(worst_bar, 1e-9);
    ck_assert_double_lt(after_bar, 1e-9);
    ck_assert_int_gt(kinks, 100);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("tensions");
    tcase_add_test(tests, tensions_are_those_of_the_integrator);
    tcase_set_timeout(tests, 240);
    Suite *suite = suite_create("replay");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
