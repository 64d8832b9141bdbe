/*
 * Editor: the diver kept at the ceiling until it lets the recorded depth be; near the surface, waiting before going on.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/wait.h"
#include "review/edits/editors.h"

#include <math.h>

#define ROUNDS  200
#define BELOW_M 0.02 /* [m] as far below the ceiling as this is at it */

struct kept {
    int64_t waited_ms;
    double deeper_m;
    bool done;
};

/* Waiting is the only way where the diver leaves for the surface. */
static bool leads_up(const struct plmi_review_edit *edit, const struct plm_review_scene *scene, size_t item,
                     const struct plm_finding *finding)
{
    bool to_surface = finding->last_point >= edit->original->summary->surfaced;
    return to_surface || scene->points[item].depth_m < scene->rules->last_stop_m / 2;
}

/* Lays all items above their ceiling onto it, up to the first that needs waiting instead. */
static enum plm_status keep_below(struct plmi_review_edit *edit, const struct plm_review_scene *scene,
                                  const struct plm_finding *finding, struct kept *kept)
{
    size_t at = plmi_review_edit_find(edit, finding->first_point);
    kept->done = true;
    while ((at = plmi_review_edit_above(edit, scene, finding, at)) < edit->count) {
        if (leads_up(edit, scene, at, finding)) {
            if (at == 0) {
                return PLM_STATUS_UNSOLVABLE;
            }
            bool first = kept->done;
            kept->done = false;
            return first ? plmi_review_edit_wait(edit, scene, at, &kept->waited_ms) : PLM_STATUS_OK;
        }
        double depth_m = ceil((scene->points[at].ceiling_m + BELOW_M) * 100) / 100;
        kept->deeper_m = fmax(kept->deeper_m, depth_m - edit->original->points[edit->items[at].origin].depth_m);
        edit->items[at].sample.depth_m = depth_m;
        kept->done = false;
        at++;
    }
    return PLM_STATUS_OK;
}

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    struct kept kept = {.done = false};
    for (int i = 0; i < ROUNDS && !kept.done; i++) {
        enum plm_status status = plmi_review_edit_retry(edit);
        if (status != PLM_STATUS_OK) {
            return status;
        }
        struct plm_review_scene scene = plmi_review_edit_scene(edit);
        status = keep_below(edit, &scene, finding, &kept);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    if (kept.deeper_m > 0) {
        *put_right = plm_finding_sentence(list, "kept at the ceiling from {t} on, at most {m} deeper", finding->from_s,
                                          kept.deeper_m);
    } else if (kept.waited_ms > 0) {
        *put_right = plm_finding_sentence(list, "ceiling respected from {t} on", finding->from_s);
    }
    if (kept.waited_ms > 0) {
        *put_right = plm_finding_sentence(list, "{s}, {d} of waiting added; what follows comes later", *put_right,
                                          (double)kept.waited_ms / 1000.0);
    }
    return kept.done ? PLM_STATUS_OK : PLM_STATUS_UNSOLVABLE;
}

const struct plmi_review_editor plmi_review_edit_ceiling_exceeded = {PLM_FINDING_CEILING_EXCEEDED, apply};
