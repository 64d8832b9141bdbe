/*
 * What a replay took for granted, in words: the start, the oxygen, the model.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_ASSUMED_H
#define PLM_REPLAY_ASSUMED_H

#include "base/diags.h"
#include "replay/trace.h"

/* Copies the start state into the trace and names it; NULL or not carried: saturated. After the surroundings are
 * settled. */
void plmi_start_settle(struct plm_trace *trace, const struct plm_start *start, const struct plm_rules *rules);

/* Fills the rest of trace->assumed and tells of oxygen that had to be assumed. oxygen_used: bits of enum
 * plmi_oxygen_source. */
void plmi_assumed_settle(struct plm_trace *trace, const struct plm_dive_info *info, const struct plm_rules *rules,
                         unsigned oxygen_used, struct plmi_diags *diags);

#endif
