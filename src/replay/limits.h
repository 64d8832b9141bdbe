/*
 * The limits that the model lays on a state: anchor, ceilings, gradients. Pure, no allocation.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_LIMITS_H
#define PLM_REPLAY_LIMITS_H

#include "tissue/tissue.h"

#include <plimsoll/rules.h>

/* What stays the same over a dive. Fractions, not percent. */
struct plmi_bounds {
    const struct plm_zhl16 *model;
    double low_frac, high_frac, surface_bar;
};
struct plmi_bounds plmi_bounds_of(const struct plm_rules *rules, double surface_bar);

/*
 * The anchor after a state (its limits found before): the deepest GF-low ceiling met so far, unrounded. It clears when
 * the diver is on the surface and the ceiling at GF high is at or above it.
 *   anchor_bar  [bar] before; NaN none
 * Returns: [bar] NaN: none.
 */
double plmi_anchor_next_bar(const struct plmi_bounds *bounds, const struct plmi_limits *limits, double anchor_bar,
                            bool on_surface);

/* [bar] the ceiling at one gradient factor, at least the surface pressure. */
double plmi_constant_ceiling_bar(const struct plmi_limits *limits, double gf_frac, double surface_bar);

/* [bar] the ceiling under an anchor, at least the surface pressure. */
double plmi_anchored_ceiling_bar(const struct plmi_bounds *bounds, const struct plmi_limits *limits, double anchor_bar);

#endif
