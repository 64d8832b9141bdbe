/*
 * The last way to the surface as it was swum: no window rounds it off.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_LAST_ASCENT_H
#define PLM_REPLAY_LAST_ASCENT_H

#include "replay/trace.h"

/* A way up between two depths, on straight lines between samples. */
struct plmi_passage {
    double from_m, to_m, from_s, to_s;
};

/*
 * From the last time at from_m [m] before the diver surfaced to the last passing of surface_m [m] on that way; a record
 * that ends short of that ends the way.
 *   surfaced  the point of the summary
 * Returns: false where the dive was never so deep before, or the record ends at or below from_m.
 */
bool plmi_passage_find(struct plmi_passage *out, const struct plm_point *points, size_t surfaced, double from_m,
                       double surface_m);
/* [m/min] NaN for a way that took no time. */
double plmi_passage_rate_m_min(const struct plmi_passage *passage);

/* Fills the last ascent of a summary whose phases are known. */
void plmi_last_ascent_fill(struct plm_trace_summary *summary, const struct plm_point *points, double surface_m);

#endif
