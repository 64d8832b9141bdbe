/*
 * Lays a dive's samples anew under other settings, with a sample more wherever a setting changes between two.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/dive_builder.h>

static enum plm_status add_sample(struct plm_dive_builder *builder, const struct plm_sample *sample,
                                  const struct plm_setting *recorded, const struct plm_relay *relay)
{
    struct plm_setting setting = *recorded;
    enum plm_status status = relay->at(relay->context, (double)sample->time_ms / 1000.0, &setting);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plm_dive_builder_mode(builder, setting.mode, sample->line);
    plm_dive_builder_switch(builder, setting.mix, sample->line);
    plm_dive_builder_setpoint(builder, setting.setpoint_bar, sample->line);
    return plm_dive_builder_sample(builder, sample);
}

/* A sample on the line between two, at each change that falls between them; its measurements are unknown. */
static enum plm_status add_between(struct plm_dive_builder *builder, const struct plm_sample *before,
                                   const struct plm_sample *after, const struct plm_setting *recorded,
                                   const struct plm_relay *relay)
{
    double start_s = (double)before->time_ms / 1000.0, end_s = (double)after->time_ms / 1000.0;
    enum plm_status status = PLM_STATUS_OK;
    for (double t = relay->next(relay->context, start_s); t < end_s && status == PLM_STATUS_OK;
         t = relay->next(relay->context, t)) {
        struct plm_sample between = *before;
        between.time_ms = (int64_t)ceil(t * 1000.0);
        if (between.time_ms <= before->time_ms || between.time_ms >= after->time_ms) {
            continue;
        }
        between.depth_m = before->depth_m + (t - start_s) / (end_s - start_s) * (after->depth_m - before->depth_m);
        between.po2_bar = (double)NAN;
        for (int i = 0; i < PLM_CELLS; i++) {
            between.cell_bar[i] = (double)NAN;
        }
        status = add_sample(builder, &between, recorded, relay);
    }
    return status;
}

enum plm_status plm_dive_builder_relay(struct plm_dive_builder *builder, const struct plm_dive *dive,
                                       const struct plm_relay *relay)
{
    size_t count, setting_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    enum plm_status status = PLM_STATUS_OK;
    plm_dive_builder_restart(builder);
    for (size_t i = 0; i < count && status == PLM_STATUS_OK; i++) {
        status = add_sample(builder, &samples[i], &settings[samples[i].setting], relay);
        if (status == PLM_STATUS_OK && i + 1 < count) {
            status = add_between(builder, &samples[i], &samples[i + 1], &settings[samples[i].setting], relay);
        }
    }
    return status;
}
