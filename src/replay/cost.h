/*
 * What one more minute at a depth would have cost in decompression.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_COST_H
#define PLM_REPLAY_COST_H

#include "replay/ascent_from.h"

/*
 * The time to surface after one more minute at the depth and on the gas of a state, less the time to surface from the
 * state.
 *   po2_bar  [bar] what the loop holds during that minute; not looked at on open circuit
 * Returns: [min] NaN where nothing is owed, neither now nor after the minute, and where a stop never clears.
 */
double plmi_minute_cost_min(const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                            const struct plm_rules *rules, double po2_bar);

#endif
