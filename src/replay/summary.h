/*
 * Whole-dive figures: some gathered piece by piece while the dive is walked, the rest from the finished points.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_SUMMARY_H
#define PLM_REPLAY_SUMMARY_H

#include "dive/surface.h"
#include "replay/leg.h"
#include "replay/trace.h"

/* Before the first leg, with the moment at the first sample. */
void plmi_summary_init(struct plm_trace_summary *summary, double time_s, const struct plmi_moment *moment);
/* One piece that starts at time_s. */
void plmi_summary_piece(struct plm_trace_summary *summary, double time_s, const struct plmi_piece *piece,
                        const struct plm_rules *rules);
/* What is known of a dive's course besides its points. */
struct plmi_summary_course {
    struct plmi_wet wet;
    bool ends_in_water;
    double planned_max_m; /* [m] as in plm_replay_options */
};
/* After the last point: trace->points are complete, with their rates. */
void plmi_summary_finish(struct plm_trace *trace, const struct plm_rules *rules,
                         const struct plmi_summary_course *course);

#endif
