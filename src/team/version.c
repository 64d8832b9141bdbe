/*
 * One record's profile under another record's settings: the edited copy that shows what a disagreement did.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/dive_builder.h>

#include "team/timeline.h"

struct version {
    struct plm_dive_builder *builder;
    const struct plmi_timeline *own, *other;
    double from_s, to_s;
    enum plm_status status;
};

static const struct plmi_breathed *breathed_at(const struct version *version, double time_s)
{
    bool inside = time_s >= version->from_s && time_s < version->to_s;
    return plmi_timeline_at(inside ? version->other : version->own, time_s);
}

static void add_sample(struct version *version, const struct plm_sample *sample)
{
    const struct plmi_breathed *breathed = breathed_at(version, (double)sample->time_ms / 1000.0);
    uint32_t mix;
    if (version->status != PLM_STATUS_OK)
        return;
    version->status = plm_dive_builder_mix_find(version->builder, breathed->mix.o2_frac, breathed->mix.he_frac, sample->line, &mix);
    if (version->status != PLM_STATUS_OK)
        return;
    plm_dive_builder_mode(version->builder, breathed->mode, sample->line);
    plm_dive_builder_switch(version->builder, mix, sample->line);
    plm_dive_builder_setpoint(version->builder, breathed->setpoint_bar, sample->line);
    version->status = plm_dive_builder_sample(version->builder, sample);
}

/* The next moment after after_s at which something changes in either timeline; INFINITY where nothing does. */
static double next_change_s(const struct version *version, double after_s)
{
    double next_s = INFINITY;
    const struct plmi_timeline *both[2] = {version->own, version->other};
    for (int k = 0; k < 2; k++)
        for (size_t i = 0; i < both[k]->count; i++)
            if (both[k]->stretches[i].time_s > after_s)
                next_s = fmin(next_s, both[k]->stretches[i].time_s);
    if (version->from_s > after_s)
        next_s = fmin(next_s, version->from_s);
    if (version->to_s > after_s)
        next_s = fmin(next_s, version->to_s);
    return next_s;
}

/* A sample on the line between two, at each change that falls between them. */
static void add_changes(struct version *version, const struct plm_sample *before, const struct plm_sample *after)
{
    double start_s = (double)before->time_ms / 1000.0, end_s = (double)after->time_ms / 1000.0;
    for (double t = next_change_s(version, start_s); t < end_s; t = next_change_s(version, t)) {
        struct plm_sample between = *before;
        double share = (t - start_s) / (end_s - start_s);
        between.time_ms = (int64_t)ceil(t * 1000.0);
        if (between.time_ms <= before->time_ms || between.time_ms >= after->time_ms)
            continue;
        between.depth_m = before->depth_m + share * (after->depth_m - before->depth_m);
        between.po2_bar = NAN;
        for (int i = 0; i < PLM_CELLS; i++)
            between.cell_bar[i] = NAN;
        add_sample(version, &between);
    }
}

enum plm_status plmi_version_make(struct plm_dive **out, const struct plm_dive *a, const struct plmi_timeline *b, double from_s, double to_s,
                                  const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(a, &count);
    struct plmi_timeline own;
    *out = NULL;
    if (!plmi_timeline_init(&own, a, NULL))
        return PLM_STATUS_MEMORY;
    struct version version = {.builder = plm_dive_builder_from(a, rules, sink), .own = &own, .other = b, .from_s = from_s, .to_s = to_s};
    if (!version.builder) {
        plmi_timeline_free(&own);
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_restart(version.builder);
    for (size_t i = 0; i < count; i++) {
        add_sample(&version, &samples[i]);
        if (i + 1 < count)
            add_changes(&version, &samples[i], &samples[i + 1]);
    }
    plmi_timeline_free(&own);
    if (version.status == PLM_STATUS_OK)
        return plm_dive_builder_finish(version.builder, out);
    plm_dive_builder_free(version.builder);
    return version.status;
}
