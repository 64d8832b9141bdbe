/*
 * Editor: the stops completed; all that follows comes later.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/wait.h"
#include "review/edits/editors.h"

#define ROUNDS 200

/* One more wait where the diver first goes above the ceiling; done where nowhere. */
static enum plm_status complete_next(struct plmi_review_edit *edit, const struct plm_finding *finding,
                                     int64_t *waited_ms, bool *done)
{
    enum plm_status status = plmi_review_edit_retry(edit);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_review_scene scene = plmi_review_edit_scene(edit);
    size_t at = plmi_review_edit_above(edit, &scene, finding, plmi_review_edit_find(edit, finding->first_point));
    *done = at == edit->count;
    if (!*done) {
        status = at == 0 ? PLM_STATUS_UNSOLVABLE : plmi_review_edit_wait(edit, &scene, at, waited_ms);
    }
    return status;
}

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    int64_t waited_ms = 0;
    bool done = false;
    for (int i = 0; i < ROUNDS && !done; i++) {
        enum plm_status status = complete_next(edit, finding, &waited_ms, &done);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    if (waited_ms > 0) {
        *put_right = plm_finding_sentence(
            list, "stops completed from {m} at {t} on: {d} of waiting added; what follows comes later",
            finding->from_depth_m, finding->from_s, (double)waited_ms / 1000.0);
    }
    return done ? PLM_STATUS_OK : PLM_STATUS_UNSOLVABLE;
}

const struct plmi_review_editor plmi_review_edit_stop_cut_short = {PLM_FINDING_STOP_CUT_SHORT, apply};
