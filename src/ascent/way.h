/*
 * How long the way up takes by the rates of the rules. Pure.
 * Must not know of tissues or stops.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_WAY_H
#define PLM_ASCENT_WAY_H

#include <plimsoll/rules.h>

/* [m] at and above this depth schedule_shallow_rate_m_min holds; 0 where one rate holds everywhere. */
double plmi_way_band_m(const struct plm_rules *rules);
/* [m/s] the rate of a way that starts at depth_m and goes up. */
double plmi_way_rate_m_s(const struct plm_rules *rules, double depth_m);
/* [s] from one depth up to another, without waits; 0 where that is no way up. */
double plmi_way_s(const struct plm_rules *rules, double from_m, double to_m);

#endif
