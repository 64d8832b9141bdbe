/*
 * Uptake and washout: the compartments through linear legs of inspired pressure, in closed form.
 * Must not know of limits.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "tissue/exponent.h"
#include "tissue/tissue.h"

static const double ln_2 = 0.69314718055994530942;

struct plm_tissue plm_tissue_saturated(double surface_bar, double vapour_bar, double air_n2_frac)
{
    struct plm_tissue tissue;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        tissue.n2_bar[i] = fmax(0.0, surface_bar - vapour_bar) * air_n2_frac;
        tissue.he_bar[i] = 0.0;
    }
    return tissue;
}

void plmi_decay_init(struct plmi_decay *decay, const struct plm_zhl16 *model)
{
    memset(decay, 0, sizeof *decay);
    decay->model = model;
}

/* No half-time is shorter than 1.5 min: within these k dt is a number that plmi_gain takes. */
static const double longest_plain_s = 9e4, shortest_plain_s = 1e-200;

/* k dt of all compartments. */
PLMI_INSIDE void exponents_of(double x[restrict PLM_COMPARTMENTS],
                              const double half_time_min[restrict PLM_COMPARTMENTS], double dt_s)
{
    double scaled = ln_2 / 60.0 * dt_s;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        x[i] = scaled / half_time_min[i];
    }
}

/* Gains for any k dt > 0. */
PLMI_INSIDE void gains_of(double gain[restrict PLM_COMPARTMENTS], const double x[restrict PLM_COMPARTMENTS],
                          double dt_s)
{
    if (dt_s > longest_plain_s) {
        for (int i = 0; i < PLM_COMPARTMENTS; i++) {
            gain[i] = plmi_gain(fmin(x[i], 700.0));
        }
        return;
    }
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        gain[i] = plmi_gain(x[i]);
    }
}

/* Gains and lags of one gas. */
PLMI_INSIDE void factors_of_gas(double gain[restrict PLM_COMPARTMENTS], double lag[restrict PLM_COMPARTMENTS],
                                const double half_time_min[restrict PLM_COMPARTMENTS], double dt_s)
{
    double x[PLM_COMPARTMENTS];
    exponents_of(x, half_time_min, fmax(dt_s, shortest_plain_s));
    gains_of(gain, x, dt_s);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        lag[i] = 1.0 - gain[i] / x[i];
    }
}

PLMI_WIDE void plmi_factors_find(struct plmi_factors *factors, const struct plm_zhl16 *model, double dt_s)
{
    factors->dt_s = dt_s;
    factors_of_gas(factors->n2_gain, factors->n2_lag, model->n2_half_time_min, dt_s);
    factors_of_gas(factors->he_gain, factors->he_lag, model->he_half_time_min, dt_s);
}

/* One gas through a leg. */
PLMI_INSIDE void apply_gas(double tension_bar[restrict PLM_COMPARTMENTS], double start_bar, double end_bar,
                           const double gain[restrict PLM_COMPARTMENTS], const double lag[restrict PLM_COMPARTMENTS])
{
    double rise_bar = end_bar - start_bar;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        tension_bar[i] += (start_bar - tension_bar[i]) * gain[i] + rise_bar * lag[i];
    }
}

PLMI_WIDE void plmi_tissue_apply(struct plm_tissue *tissue, const struct plmi_leg *leg,
                                 const struct plmi_factors *factors)
{
    apply_gas(tissue->n2_bar, leg->n2_start_bar, leg->n2_end_bar, factors->n2_gain, factors->n2_lag);
    apply_gas(tissue->he_bar, leg->he_start_bar, leg->he_end_bar, factors->he_gain, factors->he_lag);
}

/* The kept factors for a length, found anew when none fits. */
static const struct plmi_factors *decay_get(struct plmi_decay *decay, double dt_s)
{
    const int slots = (int)(sizeof decay->slot / sizeof decay->slot[0]);
    for (int i = 0; i < slots; i++) {
        if (decay->slot[i].dt_s == dt_s) {
            return &decay->slot[i];
        }
    }
    struct plmi_factors *fresh = &decay->slot[decay->next];
    decay->next = (decay->next + 1) % slots;
    plmi_factors_find(fresh, decay->model, dt_s);
    return fresh;
}

void plmi_tissue_step(struct plm_tissue *tissue, const struct plmi_leg *leg, struct plmi_decay *decay)
{
    if (leg->dt_s == 0.0) {
        return;
    }
    if (!(leg->dt_s > 0.0)) {
        for (int i = 0; i < PLM_COMPARTMENTS; i++) {
            tissue->n2_bar[i] = tissue->he_bar[i] = (double)NAN;
        }
        return;
    }
    plmi_tissue_apply(tissue, leg, decay_get(decay, leg->dt_s));
}

/* One gas at a constant inspired pressure. */
PLMI_INSIDE void hold_gas(double tension_bar[restrict PLM_COMPARTMENTS],
                          const double half_time_min[restrict PLM_COMPARTMENTS], double inspired_bar, double dt_s)
{
    double x[PLM_COMPARTMENTS], gain[PLM_COMPARTMENTS];
    exponents_of(x, half_time_min, dt_s);
    gains_of(gain, x, dt_s);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        tension_bar[i] += (inspired_bar - tension_bar[i]) * gain[i];
    }
}

PLMI_WIDE void plmi_tissue_hold(struct plm_tissue *tissue, const struct plm_zhl16 *model, double n2_bar, double he_bar,
                                double dt_s)
{
    hold_gas(tissue->n2_bar, model->n2_half_time_min, n2_bar, dt_s);
    hold_gas(tissue->he_bar, model->he_half_time_min, he_bar, dt_s);
}

double plmi_ramp_bar(double tension_bar, double inspired_bar, double rate_bar_s, double half_time_s, double dt_s)
{
    if (!(tension_bar >= 0.0 && inspired_bar >= 0.0 && half_time_s > 0.0 && dt_s >= 0.0)) {
        return (double)NAN;
    }
    double x = ln_2 * dt_s / half_time_s;
    double gain = plmi_gain(fmin(x, 700.0));
    double lag = x > 0.0 ? 1.0 - gain / x : 0.0;
    return tension_bar + (inspired_bar - tension_bar) * gain + rate_bar_s * dt_s * lag;
}
