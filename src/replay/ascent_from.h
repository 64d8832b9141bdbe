/*
 * What a schedule starts from at a point of a trace. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_ASCENT_FROM_H
#define PLM_REPLAY_ASCENT_FROM_H

#include <plimsoll/replay.h>

#include "ascent/schedule.h"

/*
 * The gas side: the mixes carried, PLMI_CARRIED_MAX at most (the first in the order of the dive). The same for every
 * point of a dive.
 *   out  only its carried members are filled
 */
void plmi_ascent_carried(struct plmi_ascent_gas *out, const struct plm_dive *dive);

/*
 * State and gas at point i, out->gas.carried members already filled. On the loop the set point in force, or where none
 * is recorded the PO2 that the model took there; a loop without either counts as open circuit on its mix, as the replay
 * takes it.
 */
void plmi_ascent_from_point(struct plmi_ascent_from *out, const struct plm_assumed *assumed,
                            const struct plm_point *point);

/* [m] the stop at or below a ceiling, by the rules' steps; 0 where there is no ceiling. */
double plmi_stop_below_m(const struct plm_rules *rules, double ceiling_m);

/* The same state at the first stop at or below the ceiling, where the diver at the point is above that ceiling, or is
 * under one and nearer to the surface than to the last stop. */
void plmi_ascent_keep_below(struct plmi_ascent_from *from, const struct plm_point *point,
                            const struct plm_rules *rules);

/* The same state off the loop: open circuit on the mixes carried, of which there must be one, and not on the diluent.
 */
void plmi_ascent_bail_out(struct plmi_ascent_from *from);

#endif
