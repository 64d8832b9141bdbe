/*
 * Schedules from the points of a dive.
 * Must not look at what the diver did afterwards.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/owed.h"

#include <math.h>

#include "replay/ascent_from.h"

double plmi_review_stop_depth_m(const struct plm_review_scene *scene, double ceiling_m)
{
    if (!(ceiling_m > 0)) {
        return 0;
    }
    double step_m = scene->rules->stop_step_m;
    double depth_m = ceil(ceiling_m / step_m - 1e-9) * step_m;
    return fmax(depth_m, scene->rules->last_stop_m);
}

void plmi_review_schedule(struct plmi_schedule *out, const struct plm_review_scene *scene, size_t point)
{
    const struct plm_point *at = &scene->points[point];
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, scene->input->dive);
    plmi_ascent_from_point(&from, scene->assumed, at);
    if (at->clearance_m < 0 || (at->ceiling_m > 0 && !plmi_review_submerged(scene, point))) {
        from.depth_m = plmi_review_stop_depth_m(scene, at->ceiling_m);
    }
    plmi_schedule_find(out, &from, plm_zhl16_get(scene->rules->model), scene->rules);
}

double plmi_review_owed_min(const struct plm_review_scene *scene, size_t point)
{
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, scene, point);
    return schedule.status == PLM_STATUS_OK ? schedule.stop_total_s / 60.0 : (double)INFINITY;
}
