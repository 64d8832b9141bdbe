/*
 * The gradients that a dive achieved.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_ACHIEVED_H
#define PLM_REPLAY_ACHIEVED_H

#include <plimsoll/replay.h>

/*
 * The lowest whole percent of GF low, 1..100, with which, and with high_pct as GF high, the dive passes without a
 * ceiling exceeded. Tensions do not depend on gradient factors: only anchor and ceiling are walked again.
 * Returns: [%] NaN where none passes.
 */
double plmi_achieved_gf_low_pct(const struct plm_trace *trace, double high_pct, const struct plm_rules *rules);

#endif
