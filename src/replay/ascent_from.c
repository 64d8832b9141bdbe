/*
 * Handing a point of a trace to the schedules of the floor below.
 * Must not choose gas: schedules do, among what is carried.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/ascent_from.h"

void plmi_ascent_carried(struct plmi_ascent_gas *out, const struct plm_dive *dive)
{
    size_t count;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    out->carried_count = 0;
    for (size_t i = 0; i < count && out->carried_count < PLMI_CARRIED_MAX; i++) {
        if (mixes[i].carried) {
            out->carried[out->carried_count] = mixes[i].mix;
            out->carried_po2_max_bar[out->carried_count] = mixes[i].po2_max_bar;
            out->carried_count++;
        }
    }
}

/* A closed loop of which nothing is known, which the replay took as open circuit on its diluent. */
static bool is_unknown_loop(const struct plm_point *point)
{
    const double rounding_bar = 1e-9;
    return point->mode == PLM_MODE_CLOSED && isnan(point->setpoint_bar) &&
           fabs(point->po2_bar - point->o2_frac * point->ambient_bar) < rounding_bar;
}

void plmi_ascent_from_point(struct plmi_ascent_from *out, const struct plm_assumed *assumed,
                            const struct plm_point *point)
{
    out->tissue = point->tissue;
    out->depth_m = point->depth_m;
    out->surface_bar = assumed->surface_bar;
    out->water_kg_m3 = assumed->water_kg_m3;
    out->anchor_bar = point->anchor_bar;
    /* Semi-closed counts as open circuit on its mix alone. */
    out->gas.mode = is_unknown_loop(point) ? PLM_MODE_SEMICLOSED : point->mode;
    out->gas.mix.o2_frac = point->o2_frac;
    out->gas.mix.he_frac = point->he_frac;
    out->gas.mix.n2_frac = fmax(0.0, 1.0 - point->o2_frac - point->he_frac);
    out->gas.setpoint_bar = isnan(point->setpoint_bar) ? point->po2_bar : point->setpoint_bar;
}

double plmi_stop_below_m(const struct plm_rules *rules, double ceiling_m)
{
    if (!(ceiling_m > 0)) {
        return 0;
    }
    double depth_m = ceil(ceiling_m / rules->stop_step_m - 1e-9) * rules->stop_step_m;
    return fmax(depth_m, rules->last_stop_m);
}

void plmi_ascent_keep_below(struct plmi_ascent_from *from, const struct plm_point *point, const struct plm_rules *rules)
{
    bool passed_by = point->ceiling_m > 0 && point->depth_m < rules->last_stop_m / 2.0;
    if (point->clearance_m < 0 || passed_by) {
        from->depth_m = plmi_stop_below_m(rules, point->ceiling_m);
    }
}

void plmi_ascent_bail_out(struct plmi_ascent_from *from)
{
    from->gas.mode = PLM_MODE_OPEN;
    from->gas.setpoint_bar = (double)NAN;
    from->gas.mix = from->gas.carried[0];
}
