/*
 * By how much a diver is above the ceiling, as reviewers and edits count it.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/above_ceiling.h"

double plmi_review_above_ceiling_m(const struct plm_review_scene *scene, size_t point)
{
    if (point > scene->summary->surfaced || !(scene->points[point].ceiling_m > 0)) {
        return 0;
    }
    bool at_surface = point == scene->summary->surfaced && !plmi_review_submerged(scene, point);
    double above_m = at_surface ? scene->points[point].ceiling_m : -scene->points[point].clearance_m;
    return above_m > 1e-6 ? above_m : 0;
}
