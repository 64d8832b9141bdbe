/*
 * Holds what was breathed against the plan, by phase and depth.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/unlike.h"

bool plmi_review_ascending(const struct plm_review_scene *scene, size_t point)
{
    return point > scene->left;
}

const struct plm_setting *plmi_review_unlike(const struct plm_review_scene *scene, size_t point, plmi_review_fits *fits)
{
    if (!plmi_review_submerged(scene, point)) {
        return NULL;
    }
    return plmi_review_bands_unlike(&scene->plan->bands, scene, point, plmi_review_ascending(scene, point), fits);
}
