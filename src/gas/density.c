/*
 * How dense and how narcotic a gas is at depth.
 * Must not judge: limits are rules of the floors above.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "gas/mix.h"

/* [g/L] at 0 C and 1 atm. Source: handbook values, as in Anthony and Mitchell 2016. */
static const double o2_g_l = 1.428;
static const double n2_g_l = 1.251;
static const double he_g_l = 0.178;
/* [bar] the pressure that these densities are for: 1 atm. */
static const double reference_bar = 1.01325;
/* Nitrogen of air as mixes are recorded (21 percent oxygen), so that air is its own equivalent. */
static const double air_mix_n2_frac = 0.79;

static double density_g_l(double o2_bar, double n2_bar, double he_bar)
{
    return (o2_bar * o2_g_l + n2_bar * n2_g_l + he_bar * he_g_l) / reference_bar;
}

double plmi_density_open_g_l(const struct plm_mix *mix, double ambient_bar)
{
    return density_g_l(ambient_bar * mix->o2_frac, ambient_bar * mix->n2_frac, ambient_bar * mix->he_frac);
}

double plmi_density_loop_g_l(const struct plm_mix *diluent, double ambient_bar, double loop_po2_bar)
{
    if (plmi_mix_is_oxygen(diluent)) {
        return plmi_density_open_g_l(diluent, ambient_bar);
    }
    double o2_bar = loop_po2_bar < ambient_bar ? loop_po2_bar : ambient_bar;
    double share = (ambient_bar - o2_bar) / (diluent->n2_frac + diluent->he_frac);
    return density_g_l(o2_bar, share * diluent->n2_frac, share * diluent->he_frac);
}

double plmi_end_m(double n2_bar, double o2_bar, double surface_bar, double bar_per_m, bool o2_narcotic)
{
    double air_bar = o2_narcotic ? n2_bar + o2_bar : n2_bar / air_mix_n2_frac;
    double depth_m = (air_bar - surface_bar) / bar_per_m;
    return depth_m < 0.0 ? 0.0 : depth_m;
}
