/*
 * The anchor over a stay at one depth: the deepest ceiling at GF low that is met in it, at its ends or between.
 * Must not decide how long to stay.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/walk.h"

static const double ln_2_per_min = 0.69314718055994530942 / 60.0;

/* One compartment over the stay: what it takes up is below zero in gap, what it gives off above. */
struct stayed {
    double n2_end_bar, n2_gap_bar, n2_k, he_end_bar, he_gap_bar, he_k; /* k [1/s] */
    double n2_a_bar, n2_b, he_a_bar, he_b;
};

static struct stayed stayed_of(const struct plm_zhl16 *model, const struct plm_tissue *tissue,
                               const struct plmi_inspired *inspired, int c)
{
    return (struct stayed){
        .n2_end_bar = inspired->n2_bar,
        .n2_gap_bar = tissue->n2_bar[c] - inspired->n2_bar,
        .n2_k = ln_2_per_min / model->n2_half_time_min[c],
        .he_end_bar = inspired->he_bar,
        .he_gap_bar = tissue->he_bar[c] - inspired->he_bar,
        .he_k = ln_2_per_min / model->he_half_time_min[c],
        .n2_a_bar = model->n2_a_bar[c],
        .n2_b = model->n2_b[c],
        .he_a_bar = model->he_a_bar[c],
        .he_b = model->he_b[c],
    };
}

/* [bar] the ceiling at GF low after t_s. */
static double low_bar(const struct stayed *s, double gf_low, double t_s)
{
    double n2 = s->n2_end_bar + s->n2_gap_bar * exp(-s->n2_k * t_s),
           he = s->he_end_bar + s->he_gap_bar * exp(-s->he_k * t_s);
    double total = n2 + he + 1e-300;
    double a = (s->n2_a_bar * n2 + s->he_a_bar * he) / total, b = (s->n2_b * n2 + s->he_b * he) / total;
    return (n2 + he - gf_low * a) / (1.0 - gf_low + gf_low / b);
}

/* Whether a gas goes in, and more can be held at once than ambient pressure at the anchor: without, no ceiling comes to
 * be deeper than it. */
static bool may_deepen(const struct plm_tissue *tissue, const struct plmi_inspired *inspired, int c, double anchor_bar)
{
    double n2_bar = tissue->n2_bar[c], he_bar = tissue->he_bar[c];
    if (!(n2_bar < inspired->n2_bar || he_bar < inspired->he_bar)) {
        return false;
    }
    return (n2_bar > inspired->n2_bar ? n2_bar : inspired->n2_bar) +
               (he_bar > inspired->he_bar ? he_bar : inspired->he_bar) >
           anchor_bar;
}

/* [bar] the deepest of the stay. Helium that comes in faster than nitrogen leaves makes a ceiling that deepens first
 * and then rises. */
static double deepest_bar(const struct stayed *s, double gf_low, double dt_s)
{
    double from_s = 0.0, to_s = dt_s;
    for (int i = 0; i < 60 && s->he_gap_bar < 0.0 && s->n2_gap_bar > 0.0; i++) {
        double third_s = (to_s - from_s) / 3.0;
        if (low_bar(s, gf_low, from_s + third_s) < low_bar(s, gf_low, to_s - third_s)) {
            from_s += third_s;
        } else {
            to_s -= third_s;
        }
    }
    double within_bar = low_bar(s, gf_low, 0.5 * (from_s + to_s));
    return fmax(within_bar, fmax(low_bar(s, gf_low, 0.0), low_bar(s, gf_low, dt_s)));
}

double plmi_walk_anchor_staying(const struct plmi_walk *walk, const struct plm_tissue *tissue,
                                const struct plmi_inspired *inspired, double anchor_bar, double dt_s)
{
    double met_bar = anchor_bar;
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        if (!may_deepen(tissue, inspired, c, met_bar)) {
            continue;
        }
        struct stayed stayed = stayed_of(walk->model, tissue, inspired, c);
        met_bar = fmax(met_bar, deepest_bar(&stayed, walk->gf_low, dt_s));
    }
    return met_bar;
}
