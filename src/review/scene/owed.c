/*
 * Schedules from the points of a dive.
 * Must not look at what the diver did afterwards.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/owed.h"

#include <math.h>

#include "replay/ascent_from.h"

void plmi_review_schedule(struct plmi_schedule *out, const struct plm_review_scene *scene, size_t point)
{
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, scene->input->dive);
    plmi_ascent_from_point(&from, scene->assumed, &scene->points[point]);
    plmi_ascent_keep_below(&from, &scene->points[point], scene->rules);
    plmi_schedule_find(out, &from, plm_zhl16_get(scene->rules->model), scene->rules);
}

double plmi_review_owed_min(const struct plm_review_scene *scene, size_t point)
{
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, scene, point);
    return schedule.status == PLM_STATUS_OK ? schedule.stop_total_s / 60.0 : (double)INFINITY;
}
