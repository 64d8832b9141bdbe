/*
 * Schedules from the points of a dive.
 * Must not look at what the diver did afterwards.
 * SPDX-License-Identifier: MIT
 */
#include "review/owed.h"

#include <math.h>

double plmi_review_stop_depth_m(const struct plmi_review_scene *scene, double ceiling_m)
{
    if (!(ceiling_m > 0))
        return 0;
    double step_m = scene->rules->stop_step_m;
    double depth_m = ceil(ceiling_m / step_m - 1e-9) * step_m;
    return fmax(depth_m, scene->rules->last_stop_m);
}

static struct plmi_ascent_gas gas_at(const struct plmi_review_scene *scene, size_t point)
{
    const struct plm_point *at = &scene->points[point];
    struct plmi_ascent_gas gas = {.mode = at->mode, .mix = plmi_review_mix(scene, point)->mix, .setpoint_bar = at->setpoint_bar};
    if (isnan(gas.setpoint_bar))
        gas.setpoint_bar = at->po2_bar;
    size_t count = 0;
    const struct plm_dive_mix *mixes = plm_dive_mixes(scene->input->dive, &count);
    for (size_t i = 0; i < count && gas.carried_count < PLMI_CARRIED_MAX; i++) {
        if (!mixes[i].carried)
            continue;
        gas.carried[gas.carried_count] = mixes[i].mix;
        gas.carried_po2_max_bar[gas.carried_count++] = mixes[i].po2_max_bar;
    }
    return gas;
}

void plmi_review_schedule(struct plmi_schedule *out, const struct plmi_review_scene *scene, size_t point)
{
    const struct plm_point *at = &scene->points[point];
    struct plmi_ascent_from from = {
        .tissue = at->tissue, .surface_bar = scene->assumed->surface_bar, .water_kg_m3 = scene->assumed->water_kg_m3,
        .anchor_bar = at->anchor_bar, .gas = gas_at(scene, point)};
    from.depth_m = at->clearance_m < 0 ? plmi_review_stop_depth_m(scene, at->ceiling_m) : at->depth_m;
    plmi_schedule_find(out, &from, plm_zhl16_get(scene->rules->model), scene->rules);
}

double plmi_review_owed_min(const struct plmi_review_scene *scene, size_t point)
{
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, scene, point);
    return schedule.status == PLM_STATUS_OK ? schedule.stop_total_s / 60.0 : (double)INFINITY;
}
