/*
 * Decompression that the schedule asks for from a point of a dive.
 * Must not look at what the diver did afterwards.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_OWED_H
#define PLM_REVIEW_SCENE_OWED_H

#include "ascent/schedule.h"
#include "review/scene/scene.h"

/*
 * The schedule from the state at a point: from its depth, or from the first stop at or below its ceiling
 * where the diver is above that.
 */
void plmi_review_schedule(struct plmi_schedule *out, const struct plm_review_scene *scene, size_t point);

/* [min] stop time of that schedule; INFINITY where it never clears. */
double plmi_review_owed_min(const struct plm_review_scene *scene, size_t point);

#endif
