/*
 * Editor: the diver stays at the depth from which the way down began.
 * Must not change any time.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/editors.h"

#include <math.h>

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    for (size_t i = plmi_review_edit_find(edit, finding->first_point);
         i < edit->count && edit->items[i].origin <= finding->last_point; i++) {
        edit->items[i].sample.depth_m = fmin(edit->items[i].sample.depth_m, finding->from_depth_m);
    }
    *put_right = plm_finding_sentence(list, "stayed at {m} {w}", finding->from_depth_m, finding->from_s, finding->to_s);
    return PLM_STATUS_OK;
}

const struct plmi_review_editor plmi_review_edit_descended_again = {PLM_FINDING_DESCENDED_AGAIN, apply};
