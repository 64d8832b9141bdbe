/*
 * Stretches over which the diver breathed otherwise than the plan has it.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_PLAN_UNLIKE_H
#define PLM_REVIEW_PLAN_UNLIKE_H

#include "review/plan/plan.h"
#include "review/scene/stretch.h"

/* What the plan has at a point where the dive is unlike it; NULL where it is like it, or at the surface. */
const struct plm_setting *plmi_review_unlike(const struct plm_review_scene *scene, size_t point,
                                             plmi_review_fits *fits);

/* Whether the final ascent has begun at a point, by the plan's threshold. */
bool plmi_review_ascending(const struct plm_review_scene *scene, size_t point);

#endif
