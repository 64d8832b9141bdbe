/*
 * Two records laid over each other as every look at them has it, and the list that looks add to.
 * Must not know which looks there are.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_COMPARISON_H
#define PLM_TEAM_COMPARISON_H

#include <plimsoll/reconcile.h>

#include "base/arena.h"
#include "base/text.h"
#include "team/series.h"
#include "team/timeline.h"

/* Two records laid over each other, with all that the looks share. Times are a's. */
struct plmi_comparison {
    const struct plm_debriefed *a, *b;
    const char *name_a, *name_b; /* how sentences call them */
    const struct plm_alignment *alignment;
    struct plmi_timeline breathed_a, breathed_b;
    struct plmi_series series_a, series_b; /* b's on its own clock and depth */
    double from_s, to_s;                   /* common time */
    double tolerance_s;                    /* disagreements shorter than this are the sampling's */
    struct plm_replay_options replay;      /* by set point: what a recorder without cells goes by */
    struct plm_rules replay_rules;
    struct plm_trace *base; /* a replayed so */
    const struct plm_rules *rules;
    const struct plm_diag_sink *sink;
};

struct plmi_difference_list {
    struct plmi_arena *arena;
    struct plm_difference *items;
    size_t count, capacity;
};

/* Room for one more, filled with kind and times, NaN elsewhere; NULL without memory. */
struct plm_difference *plmi_difference_add(struct plmi_difference_list *list, enum plm_difference_kind kind,
                                           double from_s, double to_s);
/* Copies the texts into the list; empties them. Returns: false without memory. */
bool plmi_difference_say(struct plmi_difference_list *list, struct plm_difference *difference, struct plmi_text *a,
                         struct plmi_text *b, struct plmi_text *sentence);
/* "from 0:12:30 to 0:20:10" */
void plmi_difference_span(struct plmi_text *out, double from_s, double to_s);

/* Moment and depth of b's record on a's clock and by a's depth. */
double plmi_comparison_time_s(const struct plmi_comparison *comparison, double b_time_s);
double plmi_comparison_b_depth_m(const struct plmi_comparison *comparison, double a_time_s, size_t *hint);

#endif
