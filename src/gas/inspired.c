/*
 * What the lung takes in: inert gas and oxygen on open circuit and on the loop.
 * Must not know of time: one moment in, one moment out.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "gas/mix.h"

struct plmi_inspired plmi_inspired_open(const struct plm_mix *mix, double ambient_bar, double vapour_bar)
{
    double dry_bar = fmax(0.0, ambient_bar - vapour_bar);
    return (struct plmi_inspired){
        .n2_bar = dry_bar * mix->n2_frac,
        .he_bar = dry_bar * mix->he_frac,
        .o2_bar = ambient_bar * mix->o2_frac,
    };
}

bool plmi_mix_is_oxygen(const struct plm_mix *mix)
{
    return !(mix->n2_frac + mix->he_frac > 0.0);
}

struct plmi_inspired plmi_inspired_loop(const struct plm_mix *diluent, double ambient_bar, double loop_po2_bar,
                                        double vapour_bar)
{
    if (plmi_mix_is_oxygen(diluent)) {
        return plmi_inspired_open(diluent, ambient_bar, vapour_bar);
    }
    double o2_bar = loop_po2_bar < ambient_bar ? loop_po2_bar : ambient_bar;
    double inert_bar = fmax(0.0, ambient_bar - vapour_bar - o2_bar);
    double share = inert_bar / (diluent->n2_frac + diluent->he_frac);
    return (struct plmi_inspired){
        .n2_bar = share * diluent->n2_frac,
        .he_bar = share * diluent->he_frac,
        .o2_bar = o2_bar,
    };
}
