/*
 * Tables, limits, states and oxygen doses against the facts of mvalues.ref, tissue.ref and
 * oxygen.ref. SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "support/facts.h"
#include "tissue/oxygen.h"
#include "tissue/tissue.h"

enum { A, B, C };

static int row(const double *x)
{
    return (int)x[0] - 1;
}

static double n2_m0(const double *x)
{
    const struct plm_zhl16 *b = plm_zhl16_get(B);
    return 10.0 * (b->n2_a_bar[row(x)] + 1.0 / b->n2_b[row(x)]);
}

static double he_m0(const double *x)
{
    const struct plm_zhl16 *b = plm_zhl16_get(B);
    return 10.0 * (b->he_a_bar[row(x)] + 1.0 / b->he_b[row(x)]);
}

static double n2_slope(const double *x)
{
    return 1.0 / plm_zhl16_get(B)->n2_b[row(x)];
}

static double he_slope(const double *x)
{
    return 1.0 / plm_zhl16_get(B)->he_b[row(x)];
}

static double n2_half_time(const double *x)
{
    return plm_zhl16_get(C)->n2_half_time_min[row(x)];
}

static double he_half_time(const double *x)
{
    return plm_zhl16_get(C)->he_half_time_min[row(x)];
}

static double n2_a_of_a(const double *x)
{
    return plm_zhl16_get(A)->n2_a_bar[row(x)];
}

static double n2_a_of_c(const double *x)
{
    return plm_zhl16_get(C)->n2_a_bar[row(x)];
}

static double n2_b(const double *x)
{
    return plm_zhl16_get(A)->n2_b[row(x)];
}

/* The example is of the row of 4 min, which the model does not use: put in place of its first. */
static void weigh(const double *x, double *a_bar, double *b)
{
    struct plm_zhl16 model = *plm_zhl16_get(A);
    model.n2_a_bar[0] = 1.2599;
    model.n2_b[0] = 0.5050;
    model.he_a_bar[0] = 1.7424;
    model.he_b[0] = 0.4245;
    struct plm_tissue tissue = {.n2_bar = {x[0]}, .he_bar = {x[1]}};
    plmi_weighted_ab(&tissue, &model, 0, a_bar, b);
}

static double weighted_a(const double *x)
{
    double a_bar, b;
    weigh(x, &a_bar, &b);
    return a_bar;
}

static double weighted_b(const double *x)
{
    double a_bar, b;
    weigh(x, &a_bar, &b);
    return b;
}

static double saturated_n2(const double *x)
{
    return plm_tissue_saturated(x[0], 0.0627, 0.7902).n2_bar[7];
}

static double saturated_he(const double *x)
{
    return plm_tissue_saturated(x[0], 0.0627, 0.7902).he_bar[7];
}

static double ramp(const double *x)
{
    return plmi_ramp_bar(x[0], x[1], x[2], x[3], x[4]);
}

static double cns_limit(const double *x)
{
    return plmi_cns_limit_min(x[0]);
}

static double cns_day_limit(const double *x)
{
    return plmi_cns_day_limit_min(x[0]);
}

static double cns(const double *x)
{
    return plmi_cns_pct(x[0], x[1], x[2]);
}

static double cns_day(const double *x)
{
    return plmi_cns_day_pct(x[0], x[1], x[2]);
}

static double cns_decay(const double *x)
{
    return plmi_cns_decay_pct(x[0], x[1], x[2]);
}

static double otu(const double *x)
{
    return plmi_otu(x[0], x[1], x[2]);
}

static double esot(const double *x)
{
    return plmi_esot(x[0], x[1], x[2]);
}

static double esot_squared(const double *x)
{
    double dose = plmi_esot(x[0], x[0], x[1]);
    return dose * dose;
}

static double minutes_above(const double *x)
{
    return plmi_minutes_above(x[0], x[1], x[2], x[3]);
}

static double otu_daily(const double *x)
{
    return plmi_otu_daily_allowed((int)x[0]);
}

static double otu_total(const double *x)
{
    return plmi_otu_total_allowed((int)x[0]);
}

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

int main(void)
{
    static const struct fact_function tables[] = {
        {"n2_m0_msw", 1, n2_m0},
        {"he_m0_msw", 1, he_m0},
        {"n2_slope", 1, n2_slope},
        {"he_slope", 1, he_slope},
        {"n2_half_time_min", 1, n2_half_time},
        {"he_half_time_min", 1, he_half_time},
        {"n2_a_A_bar", 1, n2_a_of_a},
        {"n2_a_C_bar", 1, n2_a_of_c},
        {"n2_b", 1, n2_b},
    };
    static const struct fact_function states[] = {
        {"weighted_a_bar", 2, weighted_a},
        {"weighted_b", 2, weighted_b},
        {"saturated_n2_bar", 1, saturated_n2},
        {"saturated_he_bar", 1, saturated_he},
        {"ramp_bar", 5, ramp},
    };
    static const struct fact_function doses[] = {
        {"cns_limit_min", 1, cns_limit},
        {"cns_day_limit_min", 1, cns_day_limit},
        {"cns_pct", 3, cns},
        {"cns_day_pct", 3, cns_day},
        {"cns_decay_pct", 3, cns_decay},
        {"otu", 3, otu},
        {"esot", 3, esot},
        {"esot_squared", 2, esot_squared},
        {"minutes_above", 4, minutes_above},
        {"otu_daily", 1, otu_daily},
        {"otu_total", 1, otu_total},
    };
    int worst = facts_check("mvalues.ref", tables, COUNT(tables));
    worst |= facts_check("tissue.ref", states, COUNT(states));
    worst |= facts_check("oxygen.ref", doses, COUNT(doses));
    return worst == EXIT_SUCCESS ? EXIT_SUCCESS : EXIT_FAILURE;
}
