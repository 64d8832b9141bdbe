/*
 * Puts waiting into an edited dive.
 * Must not take waiting away.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/wait.h"

#include <math.h>

#include "review/scene/owed.h"

#define LEAST_S 2.0 /* [s] the shortest wait that is put in */
#define NEAR_M  0.5 /* [m] as near to a stop as this is at it */

enum plm_status plmi_review_edit_wait(struct plmi_review_edit *edit, const struct plm_review_scene *scene, size_t at,
                                      int64_t *waited_ms)
{
    struct plmi_schedule schedule;
    /* Waiting with the head at the surface would be surfacing. */
    while (at > 1 && !plmi_review_submerged(scene, at - 1)) {
        at--;
    }
    plmi_review_schedule(&schedule, scene, at - 1);
    if (schedule.status != PLM_STATUS_OK) {
        return PLM_STATUS_UNSOLVABLE;
    }
    double wait_s = schedule.stop_count > 0 ? schedule.stops[0].wait_s : 0;
    double stop_m = schedule.stop_count > 0 ? schedule.stops[0].depth_m : 0;
    const struct plm_sample before = edit->items[at - 1].sample, after = edit->items[at].sample;
    if (before.depth_m - stop_m > NEAR_M && after.depth_m < stop_m) {
        double share = (before.depth_m - stop_m) / (before.depth_m - after.depth_m);
        int64_t time_ms = before.time_ms + (int64_t)(share * (double)(after.time_ms - before.time_ms));
        if (plmi_review_edit_insert(edit, at, time_ms, stop_m) != PLM_STATUS_OK) {
            return PLM_STATUS_MEMORY;
        }
        at++;
    }
    int64_t wait_ms = (int64_t)ceil(fmax(wait_s, LEAST_S)) * 1000;
    const struct plm_sample held = edit->items[at - 1].sample;
    if (plmi_review_edit_insert(edit, at, held.time_ms + wait_ms, held.depth_m) != PLM_STATUS_OK) {
        return PLM_STATUS_MEMORY;
    }
    plmi_review_edit_delay(edit, at + 1, wait_ms);
    *waited_ms += wait_ms;
    return PLM_STATUS_OK;
}

size_t plmi_review_edit_above(const struct plmi_review_edit *edit, const struct plm_review_scene *scene,
                              const struct plm_finding *finding, size_t first)
{
    for (size_t i = first; i < edit->count; i++) {
        if (!(plmi_review_any_above_ceiling_m(scene, i) > 0)) {
            continue;
        }
        size_t origin = edit->items[i].origin;
        bool of_stretch = origin >= finding->first_point && origin <= finding->last_point;
        if (edit->all || of_stretch || !(plmi_review_any_above_ceiling_m(edit->original, origin) > 0)) {
            return i;
        }
    }
    return edit->count;
}
