/*
 * The anchor of the gradient factors, and the ceiling below it.
 * Must not know of samples: replay.c walks.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "replay/limits.h"

double plmi_constant_ceiling_bar(const struct plmi_limits *limits, double gf_frac, double surface_bar)
{
    if (!plmi_limits_exceeded(limits, gf_frac, surface_bar)) {
        return surface_bar;
    }
    return fmax(surface_bar, plmi_limits_constant_bar(limits, gf_frac, NULL));
}

struct plmi_bounds plmi_bounds_of(const struct plm_rules *rules, double surface_bar)
{
    return (struct plmi_bounds){plm_zhl16_get(rules->model), rules->gf_low_pct / 100.0, rules->gf_high_pct / 100.0,
                                surface_bar};
}

double plmi_anchor_next_bar(const struct plmi_bounds *bounds, const struct plmi_limits *limits, double anchor_bar,
                            bool on_surface)
{
    bool anchored = anchor_bar > bounds->surface_bar;
    double reached_bar = anchored ? anchor_bar : bounds->surface_bar;
    if (plmi_limits_exceeded(limits, bounds->low_frac, reached_bar)) {
        anchor_bar = plmi_limits_constant_bar(limits, bounds->low_frac, NULL);
        anchored = true;
    }
    bool clear = on_surface && !plmi_limits_exceeded(limits, bounds->high_frac, bounds->surface_bar);
    return anchored && !clear ? anchor_bar : (double)NAN;
}

double plmi_anchored_ceiling_bar(const struct plmi_bounds *bounds, const struct plmi_limits *limits, double anchor_bar)
{
    if (isnan(anchor_bar)) {
        return plmi_constant_ceiling_bar(limits, bounds->high_frac, bounds->surface_bar);
    }
    struct plmi_gf gf = {bounds->low_frac, bounds->high_frac, bounds->surface_bar, anchor_bar};
    return plmi_limits_ceiling_bar(limits, &gf, NULL);
}
