/*
 * A diver's gas for tests: legs of depth and PO2 through the library's tissue step, split at the kink
 * of a loop. Must not compute tissues itself.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_LUNG_H
#define PLM_SUPPORT_LUNG_H

#include <stdint.h>

#include "gas/mix.h"
#include "tissue/tissue.h"

/* What is breathed, and where on land. */
struct lung {
    bool on_loop;
    struct plm_mix mix; /* the diluent on the loop */
    double surface_bar, bar_per_m, vapour_bar;
    struct plmi_decay decay;
};

struct plm_mix lung_mix(double o2_frac, double he_frac);
/* A leg from one depth [m] to another in dt_s, on the loop with PO2 [bar] running evenly from one to the other. */
void lung_breathe(struct lung *lung, struct plm_tissue *tissue, double from_m, double to_m, double from_po2_bar,
                  double to_po2_bar, double dt_s);
/* A number between low and high, from a seed that moves on: a linear congruence, the same everywhere. */
double lung_between(uint32_t *seed, double low, double high);

#endif
