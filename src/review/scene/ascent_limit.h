/*
 * The limit of the rate of ascent by depth band, as the rules have it.
 * Must not judge a rate.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_ASCENT_LIMIT_H
#define PLM_REVIEW_SCENE_ASCENT_LIMIT_H

#include <plimsoll/rules.h>

/* [m/min] fastest ascent at depth_m [m]. */
double plmi_review_ascent_limit_m_min(const struct plm_rules *rules, double depth_m);

#endif
