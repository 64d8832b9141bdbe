/*
 * Shorthands over one dive and its trace.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/scene.h"

#include <assert.h>
#include <math.h>

#include "tissue/tissue.h"

struct plm_review_scene plmi_review_scene_of(const struct plm_review_input *input)
{
    struct plm_review_scene scene = {.input = input, .rules = input->replay->rules};
    size_t samples = 0;
    scene.points = plm_trace_points(input->trace, &scene.count);
    scene.samples = plm_dive_samples(input->dive, &samples);
    scene.summary = plm_trace_summary_get(input->trace);
    scene.assumed = plm_trace_assumed(input->trace);
    assert(samples == scene.count && scene.count >= 2);
    return scene;
}

double plmi_review_time_s(const struct plm_review_scene *scene, size_t point)
{
    return (double)scene->points[point].time_ms / 1000.0;
}

bool plmi_review_submerged(const struct plm_review_scene *scene, size_t point)
{
    return scene->points[point].depth_m > scene->rules->surface_depth_m;
}

const struct plm_setting *plmi_review_setting(const struct plm_review_scene *scene, size_t point)
{
    size_t count = 0;
    const struct plm_setting *settings = plm_dive_settings(scene->input->dive, &count);
    assert(scene->samples[point].setting < count);
    return &settings[scene->samples[point].setting];
}

const struct plm_dive_mix *plmi_review_mix(const struct plm_review_scene *scene, size_t point)
{
    size_t count = 0;
    const struct plm_dive_mix *mixes = plm_dive_mixes(scene->input->dive, &count);
    const struct plm_setting *setting = plmi_review_setting(scene, point);
    assert(setting->mix < count);
    return &mixes[setting->mix];
}

double plmi_review_any_above_ceiling_m(const struct plm_review_scene *scene, size_t point)
{
    if (point > scene->summary->surfaced || !(scene->points[point].ceiling_m > 0)) {
        return 0;
    }
    bool at_surface = point == scene->summary->surfaced && scene->summary->reaches_surface;
    double above_m = at_surface ? scene->points[point].ceiling_m : -scene->points[point].clearance_m;
    return above_m > 1e-6 ? above_m : 0;
}

double plmi_review_above_ceiling_m(const struct plm_review_scene *scene, size_t point)
{
    double above_m = plmi_review_any_above_ceiling_m(scene, point);
    return above_m >= plmi_review_half_step_m(scene) - 1e-6 ? above_m : 0;
}

double plmi_review_half_step_m(const struct plm_review_scene *scene)
{
    double step_m = plm_dive_info_get(scene->input->dive)->depth_step_m;
    return isnan(step_m) ? 0 : step_m / 2;
}

double plmi_review_beyond_points(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_point *at = &scene->points[point];
    struct plmi_gf line = {scene->assumed->gf_low_pct / 100, scene->assumed->gf_high_pct / 100,
                           scene->assumed->surface_bar, at->anchor_bar};
    return at->gradient_pct - 100 * plmi_gf_at(&line, at->ambient_bar);
}

double plmi_review_ascent_limit_m_min(const struct plm_rules *rules, double depth_m)
{
    return depth_m < rules->ascent_shallow_band_m ? rules->ascent_shallow_limit_m_min : rules->ascent_limit_m_min;
}

double plmi_review_ascent_mean_m_min(const struct plm_rules *rules, double from_m, double to_m, double deep_m_min,
                                     double shallow_m_min)
{
    double edge_m = fmin(fmax(rules->ascent_shallow_band_m, to_m), from_m);
    return (from_m - to_m) / ((from_m - edge_m) / deep_m_min + (edge_m - to_m) / shallow_m_min);
}
