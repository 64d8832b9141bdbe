/*
 * Surface pressure and water of a dive, and where they were taken from.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_SURROUNDINGS_H
#define PLM_REPLAY_SURROUNDINGS_H

#include "base/diags.h"
#include "replay/trace.h"

/*
 * Settles surface pressure and water of a dive into trace->assumed. Surface: the log's pressure, else the option
 * surface_bar, else altitude_m by the standard atmosphere, else the log's altitude, else the rule. Water: the option,
 * else the log, else the rule.
 * Returns: OK; INPUT (reported) where no pressure can come of it.
 */
enum plm_status plmi_surroundings_find(struct plm_trace *trace, const struct plm_dive_info *info,
                                       const struct plm_replay_options *options, struct plmi_diags *diags);

#endif
