/*
 * The builder itself: begun, reported through, given up. What a recording is made of is added by the other files of
 * this floor.
 * SPDX-License-Identifier: MIT
 */
#include "dive/builder_base.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

void plmi_builder_tell(struct plm_dive_builder *builder, enum plm_level level, enum plm_diag_id id, uint32_t line,
                       const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    plmi_diags_add_list(&builder->diags, level, id, (long)line, 0, format, arguments);
    va_end(arguments);
}

void plmi_builder_lose(struct plm_dive_builder *builder, enum plm_diag_id id, uint32_t line, const char *format, ...)
{
    va_list arguments;
    builder->dive->info.partial = true;
    va_start(arguments, format);
    plmi_diags_add_list(&builder->diags, PLM_LEVEL_WARNING, id, (long)line, 0, format, arguments);
    va_end(arguments);
}

void plmi_builder_odd(struct plm_dive_builder *builder, const struct plm_sample *sample, bool dropped)
{
    struct plm_dive_info *info = &builder->dive->info;
    size_t at = info->odd_count < PLM_ODD_SAMPLES ? info->odd_count : PLM_ODD_SAMPLES;
    info->odd_count++;
    info->odd_dropped += dropped;
    while (at > 0 && info->odd[at - 1].time_ms > sample->time_ms) {
        if (at < PLM_ODD_SAMPLES) {
            info->odd[at] = info->odd[at - 1];
        }
        at--;
    }
    if (at < PLM_ODD_SAMPLES) {
        info->odd[at] = (struct plm_odd_sample){sample->time_ms, sample->depth_m, sample->line, dropped};
    }
}

enum plm_status plmi_builder_no_memory(struct plm_dive_builder *builder)
{
    if (!builder->no_memory) {
        builder->no_memory = true;
        (void)plmi_diags_no_memory(&builder->diags, 0, "for the recording");
    }
    return PLM_STATUS_MEMORY;
}

bool plmi_builder_surface_put(struct plm_dive_builder *builder, size_t i, int64_t time_ms, uint32_t setting)
{
    struct plm_dive *dive = builder->dive;
    struct plm_sample sample = {.time_ms = time_ms, .temp_c = (double)NAN, .po2_bar = (double)NAN, .setting = setting};
    for (size_t cell = 0; cell < PLM_CELLS; cell++) {
        sample.cell_bar[cell] = (double)NAN;
    }
    if (!plmi_array_grow((void **)&dive->samples, &dive->sample_capacity, dive->sample_count, sizeof *dive->samples)) {
        return false;
    }
    memmove(dive->samples + i + 1, dive->samples + i, (dive->sample_count - i) * sizeof *dive->samples);
    dive->sample_count++;
    dive->samples[i] = sample;
    return true;
}

static void info_init(struct plm_dive_info *info)
{
    *info = (struct plm_dive_info){0};
    info->surface_bar = (double)NAN;
    info->altitude_m = (double)NAN;
    info->water_kg_m3 = (double)NAN;
    info->depth_step_m = (double)NAN;
    info->gf_low_pct = info->gf_high_pct = (double)NAN;
    info->change_m = (double)NAN;
    info->change_step_s = (double)NAN;
    info->surface_interval_s = (double)NAN;
    info->index = 1;
    info->group = 1;
}

struct plm_dive_builder *plm_dive_builder_new(const char *file, const struct plm_rules *rules,
                                              const struct plm_diag_sink *sink)
{
    struct plm_dive_builder *builder = calloc(1, sizeof *builder);
    struct plm_dive *dive = calloc(1, sizeof *dive);
    if (builder == NULL || dive == NULL) {
        free(builder);
        free(dive);
        return NULL;
    }
    plmi_arena_init(&dive->arena);
    info_init(&dive->info);
    builder->dive = dive;
    builder->rules = *rules;
    builder->now = (struct plm_setting){PLM_MODE_OPEN, PLMI_NO_MIX, (double)NAN};
    builder->setting_fresh = true;
    builder->assumed_mix = PLMI_NO_MIX;
    dive->info.file = plm_dive_builder_text(builder, file);
    plmi_diags_init(&builder->diags, sink, dive->info.file);
    if (builder->no_memory) {
        plm_dive_builder_free(builder);
        return NULL;
    }
    return builder;
}

void plm_dive_builder_free(struct plm_dive_builder *builder)
{
    if (builder != NULL) {
        plm_dive_free(builder->dive);
        free(builder);
    }
}

struct plm_dive_info *plm_dive_builder_info(struct plm_dive_builder *builder)
{
    return &builder->dive->info;
}

const char *plm_dive_builder_text(struct plm_dive_builder *builder, const char *text)
{
    if (text == NULL) {
        return NULL;
    }
    const char *copy = plmi_arena_text(&builder->dive->arena, text, strlen(text));
    if (copy == NULL) {
        builder->no_memory = true;
    }
    return copy;
}

void plm_dive_builder_plan(struct plm_dive_builder *builder, struct plm_dive *plan)
{
    plm_dive_free(builder->dive->plan);
    builder->dive->plan = plan;
}

void plm_dive_builder_wet(const struct plm_dive_builder *builder, int64_t *from_ms, int64_t *to_ms)
{
    *from_ms = *to_ms = 0;
    if (builder->dive->sample_count > 0) {
        plm_dive_wet(builder->dive, &builder->rules, from_ms, to_ms);
    }
}
