/*
 * Rates of ascent by depth band.
 * Must not wait anywhere: schedule.c does.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdbool.h>

#include "ascent/way.h"

/* [m] depths nearer than this are the same. */
static const double same_depth_m = 1e-9;

double plmi_way_band_m(const struct plm_rules *rules)
{
    double unlike = fabs(rules->schedule_shallow_rate_m_min - rules->schedule_rate_m_min);
    return unlike > 0.0 ? rules->schedule_shallow_band_m : 0.0;
}

double plmi_way_rate_m_s(const struct plm_rules *rules, double depth_m)
{
    bool shallow = depth_m <= plmi_way_band_m(rules) + same_depth_m;
    return (shallow ? rules->schedule_shallow_rate_m_min : rules->schedule_rate_m_min) / 60.0;
}

double plmi_way_s(const struct plm_rules *rules, double from_m, double to_m)
{
    double edge_m = fmin(fmax(plmi_way_band_m(rules), to_m), fmax(from_m, to_m));
    double deep_m = fmax(0.0, from_m - edge_m), shallow_m = fmax(0.0, edge_m - to_m);
    return 60.0 * (deep_m / rules->schedule_rate_m_min + shallow_m / rules->schedule_shallow_rate_m_min);
}
