/*
 * What was added to a builder, taken away again or moved.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "dive/builder_base.h"

void plm_dive_builder_restart(struct plm_dive_builder *builder)
{
    struct plm_dive *dive = builder->dive;
    dive->sample_count = 0;
    dive->setting_count = 0;
    if (builder->assumed_mix != PLMI_NO_MIX) {
        dive->mixes[builder->assumed_mix].carried = false; /* until it is breathed again */
    }
    builder->now = (struct plm_setting){PLM_MODE_OPEN, PLMI_NO_MIX, (double)NAN};
    builder->setting_fresh = true;
}

void plm_dive_builder_cut(struct plm_dive_builder *builder, int64_t time_ms)
{
    struct plm_dive *dive = builder->dive;
    while (dive->sample_count > 0 && dive->samples[dive->sample_count - 1].time_ms > time_ms) {
        dive->sample_count--;
    }
    size_t kept = 0;
    for (size_t i = 0; i < dive->event_count; i++) {
        if (dive->events[i].time_ms <= time_ms) {
            dive->events[kept++] = dive->events[i];
        }
    }
    dive->event_count = kept;
    /* Settings of samples taken away go too; what is in force is put behind the others again by the next sample. */
    dive->setting_count = dive->sample_count == 0 ? 0 : dive->samples[dive->sample_count - 1].setting + 1;
    builder->setting_fresh = true;
}

void plm_dive_builder_move_events(struct plm_dive_builder *builder,
                                  int64_t (*move)(const void *context, int64_t time_ms), const void *context)
{
    struct plm_dive *dive = builder->dive;
    for (size_t i = 0; i < dive->event_count; i++) {
        dive->events[i].time_ms = move(context, dive->events[i].time_ms);
    }
}
