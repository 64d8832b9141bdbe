/*
 * A builder made of a dive, for edited dives and for cards laid over a log.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>

#include "dive/builder_base.h"

/* A copy of an array with its capacity; false without memory. */
static bool array_copy(void **to, size_t *capacity, const void *from, size_t count, size_t size)
{
    if (count == 0) {
        return true;
    }
    *to = malloc(count * size);
    if (*to == NULL) {
        return false;
    }
    memcpy(*to, from, count * size);
    *capacity = count;
    return true;
}

static void info_copy(struct plm_dive_builder *builder, const struct plm_dive_info *from)
{
    struct plm_dive_info *info = &builder->dive->info;
    const char *file = info->file;
    *info = *from;
    info->file = file;
    const char **texts[] = {&info->format,   &info->id,   &info->number, &info->diver,
                            &info->recorder, &info->site, &info->notes};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        *texts[i] = plm_dive_builder_text(builder, *texts[i]);
    }
}

static bool mixes_copy(struct plm_dive_builder *builder, const struct plm_dive *from)
{
    struct plm_dive *dive = builder->dive;
    if (!array_copy((void **)&dive->mixes, &dive->mix_capacity, from->mixes, from->mix_count, sizeof *from->mixes)) {
        return false;
    }
    dive->mix_count = from->mix_count;
    for (size_t i = 0; i < dive->mix_count; i++) {
        dive->mixes[i].id = plm_dive_builder_text(builder, from->mixes[i].id);
        dive->mixes[i].name = plm_dive_builder_text(builder, from->mixes[i].name);
    }
    return !builder->no_memory;
}

/* What the dive itself only assumed stays an assumption. */
static void assumptions_copy(struct plm_dive_builder *builder, const struct plm_dive *from)
{
    builder->mode_assumed = !from->info.mode_known;
    if (!from->info.gas_known) {
        builder->assumed_mix = from->settings[from->samples[0].setting].mix;
    }
}

static bool events_copy(struct plm_dive_builder *builder, const struct plm_dive *from)
{
    for (size_t i = 0; i < from->event_count; i++) {
        if (plm_dive_builder_event(builder, &from->events[i]) != PLM_STATUS_OK) {
            return false;
        }
    }
    return true;
}

static bool samples_copy(struct plm_dive_builder *builder, const struct plm_dive *from)
{
    struct plm_dive *dive = builder->dive;
    if (!array_copy((void **)&dive->samples, &dive->sample_capacity, from->samples, from->sample_count,
                    sizeof *from->samples) ||
        !array_copy((void **)&dive->settings, &dive->setting_capacity, from->settings, from->setting_count,
                    sizeof *from->settings)) {
        return false;
    }
    dive->sample_count = from->sample_count;
    dive->setting_count = from->setting_count;
    builder->now = dive->settings[dive->samples[dive->sample_count - 1].setting];
    builder->setting_fresh = builder->dive->samples[dive->sample_count - 1].setting + 1 != dive->setting_count;
    return true;
}

static bool plan_copy(struct plm_dive_builder *builder, const struct plm_dive *plan)
{
    if (plan == NULL) {
        return true;
    }
    struct plm_dive_builder *copy = plm_dive_builder_from(plan, &builder->rules, NULL);
    return copy != NULL && plm_dive_builder_finish(copy, &builder->dive->plan) == PLM_STATUS_OK;
}

struct plm_dive_builder *plm_dive_builder_from(const struct plm_dive *dive, const struct plm_rules *rules,
                                               const struct plm_diag_sink *sink)
{
    struct plm_dive_builder *builder = plm_dive_builder_new(dive->info.file, rules, sink);
    if (builder == NULL) {
        return NULL;
    }
    builder->copied = true;
    assumptions_copy(builder, dive);
    info_copy(builder, &dive->info);
    if (builder->no_memory || !mixes_copy(builder, dive) || !events_copy(builder, dive) ||
        !samples_copy(builder, dive) || !plan_copy(builder, dive->plan)) {
        plm_dive_builder_free(builder);
        return NULL;
    }
    return builder;
}
