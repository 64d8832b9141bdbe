/*
 * A finding over a stretch of points, with their times, depths and lines.
 * Must not judge: the reviewers do.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/list.h"
#include "review/scene/scene.h"

struct plm_finding *plm_finding_add(struct plm_finding_list *list, const struct plm_review_scene *scene, size_t first,
                                    size_t last)
{
    struct plm_finding *finding = first <= last && last < scene->count ? plmi_finding_list_add(list) : NULL;
    if (finding == NULL) {
        return NULL;
    }
    finding->first_point = first;
    finding->last_point = last;
    finding->from_s = plmi_review_time_s(scene, first);
    finding->to_s = plmi_review_time_s(scene, last);
    finding->from_depth_m = scene->points[first].depth_m;
    finding->to_depth_m = scene->points[last].depth_m;
    finding->first_line = scene->points[first].line;
    finding->last_line = scene->points[last].line;
    return finding;
}
