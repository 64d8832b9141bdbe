/*
 * When the bottom was left: one definition for plan, schedule, stops and the cost of a minute.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_BOTTOM_H
#define PLM_REPLAY_BOTTOM_H

#include "replay/trace.h"

struct plmi_bottom {
    size_t first; /* first point at its depth */
    size_t end;   /* point at which it is left: where the ascent sets in that passes its depth for the last time */
};

/*
 * Rates are found already. The bottom's depth is bottom_frac of the greatest depth, or of the planned one where that is
 * less. An ascent is faster than 2 m/min; a slower rise belongs to the bottom until it has passed that depth.
 *   planned_max_m  [m] greatest depth of the plan that the dive is held against; 0 none
 */
struct plmi_bottom plmi_bottom_find(const struct plm_point *points, size_t count, double planned_max_m,
                                    const struct plm_rules *rules);

#endif
