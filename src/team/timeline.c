/*
 * What a record says was breathed, stretch by stretch.
 * SPDX-License-Identifier: MIT
 */
#include "team/timeline.h"

#include <stdlib.h>

static double mapped_s(const struct plm_alignment *alignment, double time_s)
{
    return alignment != NULL ? time_s * (1.0 + alignment->clock_drift_ppm * 1e-6) + alignment->record_offset_s : time_s;
}

bool plmi_timeline_init(struct plmi_timeline *timeline, const struct plm_dive *dive,
                        const struct plm_alignment *alignment)
{
    size_t count, setting_count, mix_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);

    *timeline = (struct plmi_timeline){.stretches = calloc(count, sizeof *timeline->stretches)};
    if (timeline->stretches == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && samples[i].setting == samples[i - 1].setting) {
            continue;
        }
        const struct plm_setting *setting = &settings[samples[i].setting];
        timeline->stretches[timeline->count++] =
            (struct plmi_breathed){.time_s = mapped_s(alignment, (double)samples[i].time_ms / 1000.0),
                                   .mode = setting->mode,
                                   .mix = mixes[setting->mix].mix,
                                   .setpoint_bar = setting->setpoint_bar};
    }
    timeline->end_s = mapped_s(alignment, (double)samples[count - 1].time_ms / 1000.0);
    return true;
}

void plmi_timeline_free(struct plmi_timeline *timeline)
{
    free(timeline->stretches);
    *timeline = (struct plmi_timeline){0};
}

const struct plmi_breathed *plmi_timeline_at(const struct plmi_timeline *timeline, double time_s)
{
    size_t i = 0;
    while (i + 1 < timeline->count && timeline->stretches[i + 1].time_s <= time_s) {
        i++;
    }
    return &timeline->stretches[i];
}
