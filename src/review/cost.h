/*
 * What a stretch cost: the dive as recorded less the same dive with just that stretch put right.
 * Must not say that single costs add up.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_COST_H
#define PLM_REVIEW_COST_H

#include "review/edits/edit.h"

/* A finding that is put right at all: it has an editor and was found on the depths as recorded. */
bool plmi_review_costed(const struct plm_finding *finding);

/*
 * Applies the editors to all findings that are put right, in the order of the editors.
 *   put_right  [out] in words, kept by the list
 *   count      [out] how many were put right
 */
enum plm_status plmi_review_edit_all(struct plmi_review_edit *edit, const struct plm_finding *findings,
                                     size_t finding_count, struct plm_finding_list *list, const char **put_right,
                                     size_t *count);

/*
 * Fills the cost of every finding that has one, lowers the severity of deep ascents that cost next to nothing, and
 * fills all. for_severity: only of findings whose severity it may lower; all stays as it is.
 */
enum plm_status plmi_review_cost(const struct plm_review_scene *scene, struct plm_finding_list *list, bool for_severity,
                                 struct plm_cost *all);

#endif
