/*
 * Reading a trace and giving it back.
 * Must not change one.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "replay/trace.h"

const struct plm_point *plm_trace_points(const struct plm_trace *trace, size_t *count)
{
    *count = trace->count;
    return trace->points;
}

const struct plm_trace_summary *plm_trace_summary_get(const struct plm_trace *trace)
{
    return &trace->summary;
}

const struct plm_assumed *plm_trace_assumed(const struct plm_trace *trace)
{
    return &trace->assumed;
}

void plm_trace_free(struct plm_trace *trace)
{
    if (trace != NULL) {
        free(trace->points);
        free(trace);
    }
}
