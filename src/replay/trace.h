/*
 * The inside of a trace, for this floor alone. Frozen once plm_replay has returned it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_TRACE_H
#define PLM_REPLAY_TRACE_H

#include <plimsoll/replay.h>

struct plm_trace {
    struct plm_point *points; /* points[count] */
    size_t count, capacity;
    int64_t wet_from_ms, wet_to_ms; /* as plm_dive_wet */
    struct plm_trace_summary summary;
    struct plm_assumed assumed;
    struct plm_start start; /* from is start_from */
    char surface_text[64], start_text[160], oxygen_text[160], start_from[96];
};

#endif
