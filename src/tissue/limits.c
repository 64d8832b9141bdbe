/*
 * How far the compartments are from their limits, and the ceiling at one gradient factor.
 * Must not know of time.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "tissue/largest.h"
#include "tissue/tissue.h"

/* [bar] too small to change a tension; gives nitrogen the weight where there is no gas at all. */
#define TRACE_BAR 1e-300

PLMI_WIDE void plmi_limits_find(struct plmi_limits *restrict limits, const struct plm_tissue *restrict tissue,
                                const struct plm_zhl16 *restrict model)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double n2_bar = tissue->n2_bar[i] + TRACE_BAR;
        double he_bar = tissue->he_bar[i];
        double total_bar = n2_bar + he_bar;
        limits->tension_bar[i] = total_bar;
        limits->a_bar[i] = (model->n2_a_bar[i] * n2_bar + model->he_a_bar[i] * he_bar) / total_bar;
        limits->slope[i] = total_bar / (model->n2_b[i] * n2_bar + model->he_b[i] * he_bar) - 1.0;
    }
}

void plmi_weighted_ab(const struct plm_tissue *tissue, const struct plm_zhl16 *model, int compartment, double *a_bar,
                      double *b)
{
    double n2_bar = tissue->n2_bar[compartment] + TRACE_BAR;
    double he_bar = tissue->he_bar[compartment];
    double total_bar = n2_bar + he_bar;
    *a_bar = (model->n2_a_bar[compartment] * n2_bar + model->he_a_bar[compartment] * he_bar) / total_bar;
    *b = (model->n2_b[compartment] * n2_bar + model->he_b[compartment] * he_bar) / total_bar;
}

PLMI_WIDE bool plmi_limits_exceeded(const struct plmi_limits *limits, double gf_frac, double ambient_bar)
{
    double over_bar[PLM_COMPARTMENTS];
    double share_bar = ambient_bar * gf_frac;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        over_bar[i] = limits->tension_bar[i] - gf_frac * limits->a_bar[i] - share_bar * limits->slope[i];
    }
    return !(plmi_largest_finite(over_bar) <= ambient_bar);
}

PLMI_WIDE double plmi_limits_gradient_pct(const struct plmi_limits *limits, double ambient_bar, int *leading)
{
    double gradient[PLM_COMPARTMENTS];
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        gradient[i] = (limits->tension_bar[i] - ambient_bar) / (limits->a_bar[i] + limits->slope[i] * ambient_bar);
    }
    return plmi_largest(gradient, leading) * 100.0;
}

void plmi_limits_gradients_pct(double gradient_pct[PLM_COMPARTMENTS], const struct plmi_limits *limits,
                               double ambient_bar)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        gradient_pct[i] =
            (limits->tension_bar[i] - ambient_bar) / (limits->a_bar[i] + limits->slope[i] * ambient_bar) * 100.0;
    }
}

PLMI_WIDE double plmi_limits_over_bar(const struct plmi_limits *limits, double ambient_bar, double gf_frac,
                                      int *leading)
{
    double over_bar[PLM_COMPARTMENTS];
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double allowed_bar = gf_frac * (limits->a_bar[i] + limits->slope[i] * ambient_bar);
        over_bar[i] = limits->tension_bar[i] - ambient_bar - allowed_bar;
    }
    return plmi_largest(over_bar, leading);
}

PLMI_WIDE double plmi_limits_constant_bar(const struct plmi_limits *limits, double gf_frac, int *leading)
{
    double ceiling_bar[PLM_COMPARTMENTS];
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        ceiling_bar[i] = (limits->tension_bar[i] - gf_frac * limits->a_bar[i]) / (1.0 + gf_frac * limits->slope[i]);
    }
    return plmi_largest(ceiling_bar, leading);
}

double plmi_gradient_pct(const struct plm_tissue *tissue, const struct plm_zhl16 *model, double ambient_bar,
                         int *leading)
{
    struct plmi_limits limits;
    plmi_limits_find(&limits, tissue, model);
    return plmi_limits_gradient_pct(&limits, ambient_bar, leading);
}

double plmi_ceiling_constant_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model, double gf_frac,
                                 int *leading)
{
    struct plmi_limits limits;
    plmi_limits_find(&limits, tissue, model);
    return plmi_limits_constant_bar(&limits, gf_frac, leading);
}
