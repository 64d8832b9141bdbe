/*
 * One reviewer: a const row of the table in reviewers.c; looks at one kind of trouble and adds findings.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_REVIEWER_H
#define PLM_REVIEW_SCENE_REVIEWER_H

#include <plimsoll/review.h>

#include "review/scene/list.h"
#include "review/scene/scene.h"
#include "review/scene/stretch.h"

struct plmi_reviewer {
    enum plm_finding_kind kind;
    /*
     * Looks at the scene, adds to list; without memory list->failed is set. NULL: raised by a floor above.
     * Must not replay: hold and cost are the caller's.
     */
    void (*look)(const struct plmi_review_scene *scene, struct plmi_review_list *list);
    const struct plm_explanation *explanation;
};

/* All reviewers, one for each kind, in the order of finding_kinds.def. */
const struct plmi_reviewer *const *plmi_review_table(size_t *count);

#endif
