/*
 * By how much a diver is above the ceiling, as reviewers and edits count it.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_ABOVE_CEILING_H
#define PLM_REVIEW_SCENE_ABOVE_CEILING_H

#include "review/scene/scene.h"

/* [m] above the ceiling at a point, 0 where not; until the diver surfaces, that point included. */
double plmi_review_above_ceiling_m(const struct plm_review_scene *scene, size_t point);

#endif
