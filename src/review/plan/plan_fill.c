/*
 * Fills in what a plan does not name: gas and set points as the dive had them, an ascent by the rules in force.
 * Must not change what the plan does name.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"

#include <math.h>
#include <plimsoll/dive_builder.h>

#include "ascent/way.h"
#include "review/scene/owed.h"

/* What a sample of the plan is given. */
struct wanted {
    struct plm_mix mix;
    enum plm_mode mode;
    double setpoint_bar;
};

static struct wanted of_dive(const struct plm_dive *dive, uint32_t setting)
{
    size_t count = 0;
    const struct plm_setting *at = &plm_dive_settings(dive, &count)[setting];
    return (struct wanted){plm_dive_mixes(dive, &count)[at->mix].mix, at->mode, at->setpoint_bar};
}

/* The plan's own, and the dive's at that runtime where it names none. */
static struct wanted wanted_at(struct plm_review_plan *out, const struct plm_review_scene *scene,
                               const struct plm_sample *sample, double shift_s)
{
    const struct plm_dive *plan = scene->input->plan;
    const struct plm_dive_info *info = plm_dive_info_get(plan);
    size_t point = plmi_review_point_at(scene, (double)sample->time_ms / 1000.0 + shift_s);
    struct wanted dived = of_dive(scene->input->dive, scene->samples[point].setting);
    if (!info->gas_known) {
        out->gas_taken = true;
        return dived;
    }
    struct wanted own = of_dive(plan, sample->setting);
    if (!info->mode_known) {
        own.mode = dived.mode;
    }
    if (own.mode == PLM_MODE_CLOSED && isnan(own.setpoint_bar) && dived.mode == PLM_MODE_CLOSED) {
        out->setpoint_taken = true;
        own.setpoint_bar = dived.setpoint_bar;
    }
    return own;
}

static enum plm_status want(struct plm_dive_builder *builder, const struct wanted *wanted, uint32_t line)
{
    uint32_t mix = 0;
    enum plm_status status = plm_dive_builder_mix_find(builder, wanted->mix.o2_frac, wanted->mix.he_frac, line, &mix);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plm_dive_builder_mode(builder, wanted->mode, line);
    plm_dive_builder_switch(builder, mix, line);
    plm_dive_builder_setpoint(builder, wanted->setpoint_bar, line);
    return PLM_STATUS_OK;
}

static void surroundings(struct plm_dive_info *plan, const struct plm_dive_info *dive)
{
    if (isnan(plan->surface_bar) && isnan(plan->altitude_m)) {
        plan->surface_bar = dive->surface_bar;
        plan->altitude_m = dive->altitude_m;
    }
    if (isnan(plan->water_kg_m3)) {
        plan->water_kg_m3 = dive->water_kg_m3;
    }
    plan->gas_known = plan->mode_known = true;
}

/* Mixes that the dive carried serve the plan too where it names none carried. */
static enum plm_status carry(struct plm_dive_builder *builder, const struct plm_dive *plan, const struct plm_dive *dive)
{
    size_t count = 0;
    const struct plm_dive_mix *mixes = plm_dive_mixes(plan, &count);
    for (size_t i = 0; i < count; i++) {
        if (mixes[i].carried) {
            return PLM_STATUS_OK;
        }
    }
    mixes = plm_dive_mixes(dive, &count);
    for (size_t i = 0; i < count; i++) {
        uint32_t mix = 0;
        if (!mixes[i].carried) {
            continue;
        }
        enum plm_status status =
            plm_dive_builder_mix_find(builder, mixes[i].mix.o2_frac, mixes[i].mix.he_frac, 0, &mix);
        if (status != PLM_STATUS_OK) {
            return status;
        }
        plm_dive_builder_carry(builder, mix, mixes[i].use, mixes[i].po2_max_bar);
    }
    return PLM_STATUS_OK;
}

static enum plm_status refill(struct plm_dive_builder *builder, struct plm_review_plan *out,
                              const struct plm_review_scene *scene, double shift_s)
{
    size_t count = 0;
    const struct plm_sample *samples = plm_dive_samples(scene->input->plan, &count);
    surroundings(plm_dive_builder_info(builder), plm_dive_info_get(scene->input->dive));
    enum plm_status status = carry(builder, scene->input->plan, scene->input->dive);
    for (size_t i = 0; i < count && status == PLM_STATUS_OK; i++) {
        struct wanted wanted = wanted_at(out, scene, &samples[i], shift_s);
        status = want(builder, &wanted, samples[i].line);
        if (status == PLM_STATUS_OK) {
            status = plm_dive_builder_sample(builder, &samples[i]);
        }
    }
    return status;
}

enum plm_status plmi_review_plan_fill(struct plm_review_plan *out, const struct plm_review_scene *scene, double shift_s)
{
    struct plm_dive_builder *builder = plm_dive_builder_from(scene->input->plan, scene->rules, NULL);
    if (builder == NULL) {
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_restart(builder);
    enum plm_status status = refill(builder, out, scene, shift_s);
    if (status == PLM_STATUS_OK) {
        return plm_dive_builder_finish(builder, &out->dive);
    }
    plm_dive_builder_free(builder);
    return status;
}

/* Up to a depth by the rates of schedules: a sample where the rate changes, the clock and depth of arrival in `sample`.
 */
static enum plm_status rise(struct plm_dive_builder *builder, struct plm_sample *sample, double to_m,
                            const struct plm_rules *rules)
{
    double points_m[] = {plmi_way_band_m(rules), to_m};
    enum plm_status status = PLM_STATUS_OK;
    for (int i = 0; i < 2 && status == PLM_STATUS_OK; i++) {
        if (points_m[i] < to_m || points_m[i] >= sample->depth_m) {
            continue;
        }
        sample->time_ms += (int64_t)ceil(plmi_way_s(rules, sample->depth_m, points_m[i]) * 1000.0);
        sample->depth_m = points_m[i];
        status = points_m[i] > to_m ? plm_dive_builder_sample(builder, sample) : status;
    }
    return status;
}

/* One stop of the schedule: up to it, the gas for it, the wait. */
static enum plm_status stop(struct plm_dive_builder *builder, struct plm_sample *sample, const struct plmi_stop *at,
                            const struct plm_rules *rules, bool open)
{
    enum plm_status status = rise(builder, sample, at->depth_m, rules);
    if (status == PLM_STATUS_OK && open) {
        struct wanted wanted = {.mix = {.o2_frac = at->mix_o2_frac, .he_frac = at->mix_he_frac},
                                .mode = PLM_MODE_OPEN,
                                .setpoint_bar = NAN};
        status = want(builder, &wanted, 0);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_dive_builder_sample(builder, sample);
    }
    sample->time_ms += (int64_t)ceil(at->wait_s * 1000.0);
    return status == PLM_STATUS_OK ? plm_dive_builder_sample(builder, sample) : status;
}

static enum plm_status ascend(struct plm_dive_builder *builder, const struct plm_review_plan *out,
                              const struct plmi_schedule *schedule)
{
    const struct plm_review_scene *scene = &out->scene;
    struct plm_sample sample = scene->samples[scene->count - 1];
    bool open = plmi_review_setting(scene, scene->count - 1)->mode == PLM_MODE_OPEN;
    sample.line = 0;
    enum plm_status status = PLM_STATUS_OK;
    for (int i = 0; i < schedule->stop_count && status == PLM_STATUS_OK; i++) {
        status = stop(builder, &sample, &schedule->stops[i], scene->rules, open);
    }
    if (status == PLM_STATUS_OK) {
        status = rise(builder, &sample, 0, scene->rules);
    }
    return status == PLM_STATUS_OK ? plm_dive_builder_sample(builder, &sample) : status;
}

enum plm_status plmi_review_plan_ascend(struct plm_review_plan *out)
{
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, &out->scene, out->scene.count - 1);
    if (schedule.status != PLM_STATUS_OK) {
        return schedule.status;
    }
    struct plm_dive_builder *builder = plm_dive_builder_from(out->dive, out->scene.rules, NULL);
    if (builder == NULL) {
        return PLM_STATUS_MEMORY;
    }
    enum plm_status status = ascend(builder, out, &schedule);
    if (status != PLM_STATUS_OK) {
        plm_dive_builder_free(builder);
        return status;
    }
    struct plm_dive *whole = NULL;
    status = plm_dive_builder_finish(builder, &whole);
    if (status == PLM_STATUS_OK) {
        plm_dive_free(out->dive);
        out->dive = whole;
        out->ascent_computed = true;
    }
    return status;
}
