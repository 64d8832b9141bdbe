/*
 * Makes a plan ready to be held against a dive.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"

#include <math.h>

#include "ascent/way.h"

/* [s] the start of descent by samples alone: the last at the surface before the deepest. */
static double descent_s(const struct plm_dive *dive, const struct plm_rules *rules)
{
    size_t count = 0, deepest = 0;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 1; i < count; i++) {
        if (samples[i].depth_m > samples[deepest].depth_m) {
            deepest = i;
        }
    }
    while (deepest > 0 && samples[deepest].depth_m >= rules->surface_depth_m) {
        deepest--;
    }
    return (double)samples[deepest].time_ms / 1000.0;
}

static enum plm_status replay(struct plm_review_plan *out)
{
    plm_trace_free(out->trace);
    out->trace = NULL;
    enum plm_status status = plm_replay(&out->trace, out->dive, &out->replay, NULL);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    out->input = (struct plm_review_input){.dive = out->dive, .trace = out->trace, .replay = &out->replay};
    out->scene = plmi_review_scene_of(&out->input);
    return PLM_STATUS_OK;
}

static enum plm_status ready(struct plm_review_plan *out, const struct plm_review_scene *scene)
{
    out->replay = *scene->input->replay;
    out->replay.schedules = false;
    out->replay.planned_max_m = scene->summary->max_depth_m;
    double shift_s = descent_s(scene->input->dive, scene->rules) - descent_s(scene->input->plan, scene->rules);
    enum plm_status status = plmi_review_plan_fill(out, scene, shift_s);
    if (status == PLM_STATUS_OK) {
        status = replay(out);
    }
    if (status == PLM_STATUS_OK && plmi_review_submerged(&out->scene, out->scene.count - 1)) {
        status = plmi_review_plan_ascend(out);
        if (status == PLM_STATUS_OK) {
            status = replay(out);
        }
    }
    return status;
}

enum plm_status plmi_review_plan_make(struct plm_review_plan *out, const struct plm_review_scene *scene)
{
    *out = (struct plm_review_plan){.dive = NULL};
    enum plm_status status = ready(out, scene);
    if (status == PLM_STATUS_OK) {
        out->phases = plmi_review_phases_of(&out->scene);
        out->shift_s = plmi_review_phases_of(scene).start_s - out->phases.start_s;
        status = plmi_review_bands_find(&out->bands, &out->scene, &out->phases);
    }
    if (status == PLM_STATUS_OK) {
        status = plmi_review_legs_find(&out->legs, &out->scene, &out->phases);
    }
    if (status != PLM_STATUS_OK) {
        plmi_review_plan_free(out);
    }
    return status;
}

void plmi_review_plan_free(struct plm_review_plan *plan)
{
    plmi_review_legs_free(&plan->legs);
    plmi_review_bands_free(&plan->bands);
    plm_trace_free(plan->trace);
    plm_dive_free(plan->dive);
    *plan = (struct plm_review_plan){.dive = NULL};
}

void plmi_review_plan_lay(struct plm_review_scene *scene, const struct plm_review_plan *plan)
{
    scene->plan = plan;
}

double plmi_review_plan_leave_s(const struct plm_review_scene *scene, const struct plmi_review_phases *done)
{
    return done->start_s + scene->plan->phases.left_s - scene->plan->phases.start_s;
}

double plmi_review_stop_s(const struct plm_review_scene *scene, const struct plmi_review_phases *phases, double stop_m)
{
    double half_m = scene->rules->stop_step_m / 2;
    return plmi_review_dwell_s(scene, phases->left_s, phases->surfaced_s, stop_m - half_m, stop_m + half_m);
}

double plmi_review_stop_least_s(const struct plm_rules *rules, double stop_m)
{
    double half_m = rules->stop_step_m / 2;
    return 30 + plmi_way_s(rules, stop_m + half_m, stop_m - half_m);
}

const struct plm_setting *plmi_review_unlike(const struct plm_review_scene *scene, size_t point, plmi_review_fits *fits)
{
    if (!plmi_review_submerged(scene, point)) {
        return NULL;
    }
    return plmi_review_bands_unlike(&scene->plan->bands, scene, point, point > scene->summary->bottom_end, fits);
}
