/*
 * Waiting put into an edited dive so that it keeps below its ceiling.
 * Must not take waiting away.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_EDITS_WAIT_H
#define PLM_REVIEW_EDITS_WAIT_H

#include "review/edits/edit.h"

/*
 * Waits before item `at`, the first above its ceiling in the scene of the edit: at the depth of the last item under
 * water before it, or at the first stop where that lies between the two, as long as the schedule wants. What follows
 * comes later. at         > 0 waited_ms  [in,out] what was added so far Returns: OK, UNSOLVABLE where the stop never
 * clears, MEMORY.
 */
enum plm_status plmi_review_edit_wait(struct plmi_review_edit *edit, const struct plm_review_scene *scene, size_t at,
                                      int64_t *waited_ms);

/* The first item from `first` on that is above its ceiling and is to be put right: of the stretch, or broken only by
 * the edits. count: none. */
size_t plmi_review_edit_above(const struct plmi_review_edit *edit, const struct plm_review_scene *scene,
                              const struct plm_finding *finding, size_t first);

#endif
