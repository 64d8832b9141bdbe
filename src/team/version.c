/*
 * One record's profile under another record's settings: the edited copy that shows what a disagreement did.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/dive_builder.h>

#include "team/timeline.h"

struct version {
    struct plm_dive_builder *builder;
    const struct plmi_timeline *other;
    double from_s, to_s;
};

static enum plm_status at(void *context, double time_s, struct plm_setting *setting)
{
    const struct version *version = context;
    if (time_s < version->from_s || time_s >= version->to_s) {
        return PLM_STATUS_OK;
    }
    const struct plmi_breathed *breathed = plmi_timeline_at(version->other, time_s);
    setting->mode = breathed->mode;
    setting->setpoint_bar = breathed->setpoint_bar;
    return plm_dive_builder_mix_find(version->builder, breathed->mix.o2_frac, breathed->mix.he_frac, 0, &setting->mix);
}

static double next_s(void *context, double after_s)
{
    const struct version *version = context;
    double next = version->to_s > after_s ? version->to_s : (double)INFINITY;
    if (version->from_s > after_s) {
        next = fmin(next, version->from_s);
    }
    for (size_t i = 0; i < version->other->count; i++) {
        if (version->other->stretches[i].time_s > after_s) {
            next = fmin(next, version->other->stretches[i].time_s);
        }
    }
    return next;
}

enum plm_status plmi_version_make(struct plm_dive **out, const struct plm_dive *a, const struct plmi_timeline *b,
                                  double from_s, double to_s, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink)
{
    struct version version = {
        .builder = plm_dive_builder_from(a, rules, sink), .other = b, .from_s = from_s, .to_s = to_s};
    const struct plm_relay relay = {at, next_s, &version};
    *out = NULL;
    if (version.builder == NULL) {
        return PLM_STATUS_MEMORY;
    }
    enum plm_status status = plm_dive_builder_relay(version.builder, a, &relay);
    if (status == PLM_STATUS_OK) {
        return plm_dive_builder_finish(version.builder, out);
    }
    plm_dive_builder_free(version.builder);
    return status;
}
