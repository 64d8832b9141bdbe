/*
 * Editor: the bottom left at the planned minute; what follows comes earlier.
 * Must not change the ascent itself.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/editors.h"

#include <math.h>

#define JOIN_M_MIN 10.0 /* [m/min] at which the two depths of the cut are joined */

/* [m] depth at a time between items at and at + 1. */
static double depth_between(const struct plmi_review_edit *edit, size_t at, int64_t time_ms)
{
    const struct plm_sample *a = &edit->items[at].sample, *b = &edit->items[at + 1].sample;
    if (b->time_ms == a->time_ms) {
        return a->depth_m;
    }
    return a->depth_m + (b->depth_m - a->depth_m) * (double)(time_ms - a->time_ms) / (double)(b->time_ms - a->time_ms);
}

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    /* Earlier edits may have moved the stretch as a whole. */
    size_t first = plmi_review_edit_find(edit, finding->first_point),
           last = plmi_review_edit_find(edit, finding->last_point);
    if (last >= edit->count || first >= last) {
        return PLM_STATUS_UNSOLVABLE;
    }
    int64_t into_ms = llround((finding->from_s - plmi_review_time_s(edit->original, finding->first_point)) * 1000.0);
    int64_t leave_ms = edit->items[first].sample.time_ms + into_ms;
    double leave_m = depth_between(edit, first, leave_ms);
    if (plmi_review_edit_insert(edit, first + 1, leave_ms, leave_m) != PLM_STATUS_OK) {
        return PLM_STATUS_MEMORY;
    }
    last++;
    int64_t join_ms = (int64_t)ceil(fabs(edit->items[last].sample.depth_m - leave_m) / JOIN_M_MIN * 60000.0);
    int64_t earlier_ms = edit->items[last].sample.time_ms - leave_ms - join_ms;
    if (earlier_ms <= 0) {
        return PLM_STATUS_UNSOLVABLE;
    }
    plmi_review_edit_delay(edit, last, -earlier_ms);
    plmi_review_edit_cut(edit, first + 2, last);
    *put_right = plm_finding_sentence(list, "bottom left at the planned {t}, {d} earlier; what follows comes earlier",
                                      finding->from_s, (double)earlier_ms / 1000.0);
    return PLM_STATUS_OK;
}

const struct plmi_review_editor plmi_review_edit_plan_longer = {PLM_FINDING_PLAN_LONGER, apply};
