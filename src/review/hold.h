/*
 * Does a finding stand across the tolerance of the recorder?
 * Must not change what was found on the depths as recorded, but for its hold and range.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_HOLD_H
#define PLM_REVIEW_HOLD_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

/*
 * Replays the dive over the tolerance and fills hold, value_low and value_high; findings that appear only there are
 * added as notes.
 * Returns: OK, or what a replay came to.
 */
enum plm_status plmi_review_hold(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                 struct plm_finding_list *list);

#endif
