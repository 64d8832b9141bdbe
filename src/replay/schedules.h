/*
 * Time to surface and no-stop time at every point of a trace.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_SCHEDULES_H
#define PLM_REPLAY_SCHEDULES_H

#include "replay/trace.h"

/* Fills tts_s and no_stop_s of all points. Allocates nothing. */
void plmi_schedules_fill(struct plm_trace *trace, const struct plm_dive *dive, const struct plm_rules *rules);

#endif
