/*
 * The reviewers, one after the other, over a scene.
 * Must not replay.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_LOOK_H
#define PLM_REVIEW_LOOK_H

#include "base/diags.h"
#include "review/scene/list.h"

/*
 * The library's reviewers, then those of the options; options NULL: the library's alone.
 * Returns: OK; MEMORY; ARGUMENT where a reviewer added what cannot be a finding, list->misused is then set.
 */
enum plm_status plmi_review_look_all(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                     struct plm_finding_list *list);

/* Whether each reviewer of the options is whole and its kind its own. Returns: OK, or ARGUMENT that is reported. */
enum plm_status plmi_review_options_check(const struct plm_review_options *options, struct plmi_diags *diags);

#endif
