/*
 * What is left after nights and days at the surface, against an adaptive integrator: tissues, and the time until they
 * are near saturation. Source: dP/dt = k (Pi - P) itself, by GSL's gsl_odeiv2 (Prince-Dormand 8,9); half-times of
 * ZH-L16 (Buehlmann 1995; helium rows from memory).
 * SPDX-License-Identifier: MIT
 */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdio.h>

#include <plimsoll/past.h>

#include "support/random.h"
#include "support/suite.h"

#define TENSIONS (2 * PLM_COMPARTMENTS)
#define HOUR     3600.0

struct flow {
    double k_s[TENSIONS], inspired_bar;
};

static int derivative(double t_s, const double tension[], double slope[], void *parameters)
{
    const struct flow *flow = parameters;
    (void)t_s;
    for (int i = 0; i < TENSIONS; i++) {
        slope[i] = flow->k_s[i] * ((i < PLM_COMPARTMENTS ? flow->inspired_bar : 0) - tension[i]);
    }
    return GSL_SUCCESS;
}

static void flow_init(struct flow *flow, double surface_bar)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    flow->inspired_bar = (surface_bar - 0.0627) * 0.7902;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        flow->k_s[i] = log(2.0) / (60.0 * model->n2_half_time_min[i]);
        flow->k_s[PLM_COMPARTMENTS + i] = log(2.0) / (60.0 * model->he_half_time_min[i]);
    }
}

static void integrate(struct flow *flow, double tension[TENSIONS], double dt_s)
{
    gsl_odeiv2_system system = {derivative, NULL, TENSIONS, flow};
    gsl_odeiv2_driver *driver = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 60, 1e-13, 0.0);
    double t_s = 0;
    ck_assert_int_eq(gsl_odeiv2_driver_apply(driver, &t_s, dt_s, tension), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
}

/* After a deep dive with much helium and oxygen at the end: some compartments hold less nitrogen than air would leave.
 */
static void tissue_random(struct seeded *random, struct plm_tissue *tissue, double tension[TENSIONS])
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        tissue->n2_bar[i] = tension[i] = seeded_between(random, 0.3, 1.6);
        tissue->he_bar[i] = tension[PLM_COMPARTMENTS + i] = seeded_between(random, 0, 1.2);
    }
}

START_TEST(tissues_after_a_night)
{
    double worst_bar = 0;
    struct plm_rules rules = plm_rules_default();
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct seeded random = {seed};
        struct plm_past_dive past = {.ended_s = seeded_between(&random, 0.1, 40) * HOUR,
                                     .surface_bar = seeded_between(&random, 0.75, 1.03),
                                     .anchor_bar = (double)NAN,
                                     .day = 1};
        double tension[TENSIONS];
        struct flow flow;
        tissue_random(&random, &past.end, tension);
        flow_init(&flow, past.surface_bar);
        integrate(&flow, tension, past.ended_s);
        struct plm_start start = plm_start_from_past(&past, 1, 1, &rules);
        for (int i = 0; i < PLM_COMPARTMENTS; i++) {
            worst_bar = fmax(worst_bar, fabs(start.tissue.n2_bar[i] - tension[i]));
            worst_bar = fmax(worst_bar, fabs(start.tissue.he_bar[i] - tension[PLM_COMPARTMENTS + i]));
        }
    }
    printf("40 random tissues after 0.1 to 40 h at the surface: worst difference %.3g bar\n", worst_bar);
    ck_assert_double_lt(worst_bar, 1e-11);
}
END_TEST

/* Largest distance from saturation, as a fraction of it. */
static double distance(const double tension[TENSIONS], double saturated_bar)
{
    double most = 0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        most = fmax(most, fabs(tension[i] + tension[PLM_COMPARTMENTS + i] - saturated_bar) / saturated_bar);
    }
    return most;
}

START_TEST(time_to_saturation)
{
    double worst = 0, longest_h = 0;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        struct seeded random = {seed};
        struct plm_tissue tissue;
        struct flow flow;
        double tension[TENSIONS];
        tissue_random(&random, &tissue, tension);
        flow_init(&flow, 1.0);
        double rest_s = plm_tissue_rest_s(&tissue, 2, flow.inspired_bar, 0.01);
        integrate(&flow, tension, rest_s);
        worst = fmax(worst, fabs(distance(tension, flow.inspired_bar) - 0.01));
        for (int hour = 0; hour < 40; hour++) {
            integrate(&flow, tension, HOUR);
            ck_assert_msg(distance(tension, flow.inspired_bar) < 0.01, "seed %d: away again %d h later", (int)seed,
                          hour);
        }
        longest_h = fmax(longest_h, rest_s / HOUR);
    }
    printf("40 random tissues: 1 %% off when told to within %.3g, up to %.0f h\n", worst, longest_h);
    ck_assert_double_lt(worst, 1e-7);
}
END_TEST

/* Helium alone over one compartment, half-time 240.03 min of the slowest: 8 times too much takes three half-times. */
START_TEST(single_compartments_by_hand)
{
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    struct plm_tissue tissue = plm_tissue_saturated(1.0, 0.0627, 0.7902);
    double saturated_bar = tissue.n2_bar[0];
    ck_assert_double_eq_tol(plm_tissue_rest_s(&tissue, 2, saturated_bar, 0.01), 0, 1e-9);
    tissue.he_bar[15] = 0.08 * saturated_bar;
    ck_assert_double_eq_tol(plm_tissue_rest_s(&tissue, 2, saturated_bar, 0.01), 3 * 60 * model->he_half_time_min[15],
                            1e-3);
    tissue.he_bar[15] = 0;
    tissue.n2_bar[4] *= 0.96;
    ck_assert_double_eq_tol(plm_tissue_rest_s(&tissue, 2, saturated_bar, 0.01), 2 * 60 * model->n2_half_time_min[4],
                            1e-3);
    /* Helium over and nitrogen under: the sum passes 1 % while it falls, and what follows under 0 never is 1 % again.
     */
    tissue.n2_bar[4] = 0.994 * saturated_bar;
    tissue.he_bar[4] = 0.05 * saturated_bar;
    double rest_min = plm_tissue_rest_s(&tissue, 2, saturated_bar, 0.01) / 60;
    ck_assert_double_gt(rest_min, model->he_half_time_min[4]);
    ck_assert_double_eq_tol(0.05 * exp2(-rest_min / model->he_half_time_min[4]) -
                                0.006 * exp2(-rest_min / model->n2_half_time_min[4]),
                            0.01, 1e-8);
    ck_assert(isnan(plm_tissue_rest_s(&tissue, 3, saturated_bar, 0.01)));
    ck_assert(isnan(plm_tissue_rest_s(&tissue, 2, saturated_bar, 0)));
}
END_TEST

/* CNS over surface intervals by hand: 50 % after 90 min, 96.222 % after 5 min, 25 % after 3 h. Half-time 90 min is
 * second-hand. */
START_TEST(oxygen_clock_over_surface_intervals)
{
    static const struct {
        double minutes, left_pct;
    } rows[] = {{0, 80}, {5, 76.97791}, {90, 40}, {180, 20}, {600, 0.7874507}};
    struct plm_rules rules = plm_rules_default();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_past_dive past = {
            .ended_s = 60 * rows[i].minutes, .surface_bar = 1.0, .anchor_bar = (double)NAN, .cns_pct = 80, .day = 1};
        ck_assert_double_eq_tol(plm_start_from_past(&past, 1, 1, &rules).cns_pct, rows[i].left_pct, 5e-5);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {tissues_after_a_night, time_to_saturation, single_compartments_by_hand,
                                  oxygen_clock_over_surface_intervals};
    return SUITE_RUN("night", tests);
}
