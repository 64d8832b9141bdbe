/*
 * The limit of the rate of ascent by depth band, as the rules have it.
 * Must not judge a rate.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/ascent_limit.h"

double plmi_review_ascent_limit_m_min(const struct plm_rules *rules, double depth_m)
{
    return depth_m < rules->ascent_shallow_band_m ? rules->ascent_shallow_limit_m_min : rules->ascent_limit_m_min;
}
