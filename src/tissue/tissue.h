/*
 * Inert gas in the compartments, step by step, and the ceiling laid on it. Pure, no allocation.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_TISSUE_H
#define PLM_TISSUE_TISSUE_H

#include <stdbool.h>

#include <plimsoll/tissue.h>

/* A linear leg of inspired inert pressures over dt_s. */
struct plmi_leg {
    double dt_s, n2_start_bar, n2_end_bar, he_start_bar, he_end_bar;
};

/*
 * What a linear leg of one length does to every compartment:
 *   tension += (inspired at the start - tension) * gain + (rise of the inspired pressure) * lag
 * with gain = 1 - exp(-k dt) and lag = 1 - gain / (k dt). Schreiner's equation, in a form without cancellation.
 */
struct plmi_factors {
    double dt_s;
    double n2_gain[PLM_COMPARTMENTS], n2_lag[PLM_COMPARTMENTS];
    double he_gain[PLM_COMPARTMENTS], he_lag[PLM_COMPARTMENTS];
};
/* dt_s > 0. */
void plmi_factors_find(struct plmi_factors *factors, const struct plm_zhl16 *model, double dt_s);
/* Steps the tissue through a leg of the length that the factors are for; leg->dt_s is not looked at. */
void plmi_tissue_apply(struct plm_tissue *tissue, const struct plmi_leg *leg, const struct plmi_factors *factors);

/* Factors of the last lengths met, so that regular sampling costs no exp(). A value; start it with plmi_decay_init. */
struct plmi_decay {
    const struct plm_zhl16 *model;
    struct plmi_factors slot[4];
    int next;
};
void plmi_decay_init(struct plmi_decay *decay, const struct plm_zhl16 *model);

/* [bar] one compartment after a ramp; the contract is in style's example: Schreiner 1971. NaN out of range. */
double plmi_ramp_bar(double tension_bar, double inspired_bar, double rate_bar_s, double half_time_s, double dt_s);

/* Steps all compartments through an exact linear leg. dt_s 0: nothing; negative or NaN: all tensions NaN. */
void plmi_tissue_step(struct plm_tissue *tissue, const struct plmi_leg *leg, struct plmi_decay *decay);

/* All compartments through dt_s [s] > 0 at constant inspired pressures: what a leg of that length does, at less cost.
 */
void plmi_tissue_hold(struct plm_tissue *tissue, const struct plm_zhl16 *model, double n2_bar, double he_bar,
                      double dt_s);

/* GF line: high at the surface, low at the anchor, linear in pressure, low deeper. anchor_bar NaN, or within 1e-6 bar
 * of the surface or above it: high everywhere. Fractions, not percent. */
struct plmi_gf {
    double low_frac, high_frac, surface_bar, anchor_bar;
};
double plmi_gf_at(const struct plmi_gf *gf, double ambient_bar);

/*
 * The limits of all compartments in one state, found once for all questions about it: at ambient
 * pressure P [bar] compartment i allows an excess over P of a_bar[i] + slope[i] * P. a and b are
 * weighted by the tensions (N2's where both are zero), slope = 1/b - 1.
 */
struct plmi_limits {
    double tension_bar[PLM_COMPARTMENTS], a_bar[PLM_COMPARTMENTS], slope[PLM_COMPARTMENTS];
};
void plmi_limits_find(struct plmi_limits *limits, const struct plm_tissue *tissue, const struct plm_zhl16 *model);
/* What plmi_ceiling_bar, plmi_ceiling_constant_bar and plmi_gradient_pct tell, from limits found before. */
double plmi_limits_ceiling_bar(const struct plmi_limits *limits, const struct plmi_gf *gf, int *leading);
double plmi_limits_constant_bar(const struct plmi_limits *limits, double gf_frac, int *leading);
double plmi_limits_gradient_pct(const struct plmi_limits *limits, double ambient_bar, int *leading);
/* The gradient [%] of every compartment, of which the one above is the largest. */
void plmi_limits_gradients_pct(double gradient_pct[PLM_COMPARTMENTS], const struct plmi_limits *limits,
                               double ambient_bar);
/* [bar] the largest tension over what gf_frac of the gradient allows at ambient_bar; <= 0: all are within. leading as
 * above. */
double plmi_limits_over_bar(const struct plmi_limits *limits, double ambient_bar, double gf_frac, int *leading);
/* Is any compartment over its limit at ambient_bar with this gradient factor? True for NaN. Cheaper than any ceiling.
 */
bool plmi_limits_exceeded(const struct plmi_limits *limits, double gf_frac, double ambient_bar);

/* Smallest P >= surface_bar with tissue <= P + GF(P) (M(P) - P) in all compartments (exact, quadratic each). leading
 * [out, may be NULL] 0..15: the compartment that sets it; at the surface the one of the largest gradient there. */
double plmi_ceiling_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model, const struct plmi_gf *gf,
                        int *leading);
/* The same at one constant gradient factor (for the anchor, and raw M-values at 1.0); NOT held at the surface: may be
 * below it. */
double plmi_ceiling_constant_bar(const struct plm_tissue *tissue, const struct plm_zhl16 *model, double gf_frac,
                                 int *leading);
/* Largest gradient [%] over compartments at ambient_bar: (tissue - P)/(M - P) * 100, negative when no tissue is over
 * ambient. leading as above. */
double plmi_gradient_pct(const struct plm_tissue *tissue, const struct plm_zhl16 *model, double ambient_bar,
                         int *leading);
/* a and b of one compartment weighted by its tensions (N2's where both are zero). */
void plmi_weighted_ab(const struct plm_tissue *tissue, const struct plm_zhl16 *model, int compartment, double *a_bar,
                      double *b);

#endif
