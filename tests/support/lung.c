/*
 * A diver's gas for tests: legs of depth and PO2 through the library's tissue step.
 * Must not compute tissues itself.
 * SPDX-License-Identifier: MIT
 */
#include "support/lung.h"

struct plm_mix lung_mix(double o2_frac, double he_frac)
{
    return (struct plm_mix){o2_frac, he_frac, 1.0 - o2_frac - he_frac};
}

static struct plmi_inspired inspire(const struct lung *lung, double depth_m, double po2_bar)
{
    double ambient_bar = lung->surface_bar + depth_m * lung->bar_per_m;
    return lung->on_loop ? plmi_inspired_loop(&lung->mix, ambient_bar, po2_bar, lung->vapour_bar)
                         : plmi_inspired_open(&lung->mix, ambient_bar, lung->vapour_bar);
}

static void breathe_even(struct lung *lung, struct plm_tissue *tissue, double from_m, double to_m, double from_po2_bar,
                         double to_po2_bar, double dt_s)
{
    struct plmi_inspired from = inspire(lung, from_m, from_po2_bar);
    struct plmi_inspired to = inspire(lung, to_m, to_po2_bar);
    struct plmi_leg leg = {dt_s, from.n2_bar, to.n2_bar, from.he_bar, to.he_bar};
    plmi_tissue_step(tissue, &leg, &lung->decay);
}

void lung_breathe(struct lung *lung, struct plm_tissue *tissue, double from_m, double to_m, double from_po2_bar,
                  double to_po2_bar, double dt_s)
{
    double land_bar = lung->surface_bar - lung->vapour_bar;
    double from_inert_bar = land_bar + from_m * lung->bar_per_m - from_po2_bar;
    double to_inert_bar = land_bar + to_m * lung->bar_per_m - to_po2_bar;
    double share = from_inert_bar / (from_inert_bar - to_inert_bar);
    if (!lung->on_loop || !(share > 0.0 && share < 1.0)) {
        breathe_even(lung, tissue, from_m, to_m, from_po2_bar, to_po2_bar, dt_s);
        return;
    }
    double at_m = from_m + share * (to_m - from_m);
    double at_po2_bar = from_po2_bar + share * (to_po2_bar - from_po2_bar);
    breathe_even(lung, tissue, from_m, at_m, from_po2_bar, at_po2_bar, share * dt_s);
    breathe_even(lung, tissue, at_m, to_m, at_po2_bar, to_po2_bar, dt_s - share * dt_s);
}

double lung_between(uint32_t *seed, double low, double high)
{
    *seed = *seed * 1664525u + 1013904223u;
    return low + (high - low) * (double)(*seed >> 8) / 16777216.0;
}
