/*
 * The end of a dive: what its elements said is settled against each other and against the dive before, then it is
 * built.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/dive_finish.h"

#include <math.h>

#include "base/clock.h"
#include "base/figure.h"

/* A stated surface interval may differ so much [s] from the clock's. */
#define INTERVAL_SLACK_S 600.0
/* Surface pressure may differ so much [bar] from the altitude's: weather. */
#define WEATHER_BAR 0.04

/* 2.x dates in parts. */
static void settle_start(struct plmi_uddf_dive *dive, struct plm_dive_info *info)
{
    int64_t days;
    if (!info->start.known && dive->year > 0 && plmi_clock_days(dive->year, dive->month, dive->day, &days)) {
        bool clock = dive->hour >= 0 && dive->hour < 24;
        int64_t minutes = clock ? dive->hour * 60 + (dive->minute > 0 && dive->minute < 60 ? dive->minute : 0) : 0;
        info->start =
            (struct plm_stamp){.local_ms = (days * 1440 + minutes) * 60000, .known = true, .has_clock = clock};
    }
}

/* The surface pressure wins over an altitude, the dive's altitude over the site's. */
static void settle_altitude(struct plmi_reader *reader, struct plm_dive_info *info)
{
    const struct plmi_uddf_dive *dive = &reader->dive;
    info->surface_bar = dive->surface_bar;
    info->altitude_m = isnan(dive->altitude_m) ? dive->site_altitude_m : dive->altitude_m;
    double standard_bar = isnan(info->altitude_m) ? (double)NAN : plm_standard_atmosphere_bar(info->altitude_m);
    if (fabs(standard_bar - info->surface_bar) > WEATHER_BAR) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_PRESSURE, (long)info->line, 0,
                       "dive %d: a surface pressure of %s bar does not fit an altitude of %s m; the pressure is taken",
                       info->index, plmi_figure(info->surface_bar, 3).text,
                       plmi_figure_short(info->altitude_m, 0).text);
    }
}

/* Seconds from the end of the dive before in the water to the begin of this one; NaN where the clock does not tell. */
static double clock_interval_s(const struct plm_stamp *end, const struct plm_stamp *start, int64_t wet_from_ms)
{
    if (!end->known || !end->has_clock || !start->known || !start->has_clock) {
        return (double)NAN;
    }
    int64_t between_ms = start->local_ms + wet_from_ms - end->local_ms;
    if (end->has_zone && start->has_zone) {
        between_ms -= (int64_t)(start->offset_min - end->offset_min) * 60000;
    }
    return between_ms < 0 ? (double)NAN : (double)between_ms / 1000.0;
}

static void settle_interval(struct plmi_reader *reader, struct plm_dive_info *info)
{
    const struct plmi_uddf_dive *dive = &reader->dive;
    long line = (long)info->line;
    int64_t wet_from_ms, wet_to_ms;
    plm_dive_builder_wet(dive->track.builder, &wet_from_ms, &wet_to_ms);
    double clock_s = clock_interval_s(&reader->last_end, &info->start, wet_from_ms);
    if (reader->exact) {
        info->surface_interval_s = dive->interval_infinite ? (double)INFINITY : dive->interval_s;
        return;
    }
    if (reader->dive_in_group == 1) {
        info->surface_interval_s = (double)INFINITY;
        if (!dive->interval_infinite) {
            plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, line, 0,
                           "dive %d is the first of its group and does not say 'infinity' for the time before it; it "
                           "starts desaturated",
                           info->index);
        }
        return;
    }
    if (dive->interval_infinite) {
        info->surface_interval_s = (double)INFINITY;
        return;
    }
    info->surface_interval_s = isnan(dive->interval_s) ? clock_s : dive->interval_s;
    if (isnan(info->surface_interval_s)) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, line, 0,
                       "dive %d: neither the file nor the clock tells the surface interval before it", info->index);
    } else if (isnan(dive->interval_s)) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_INTERVAL, line, 0,
                       "dive %d: the surface interval is taken from the clock, %s min", info->index,
                       plmi_figure_short(clock_s / 60, 1).text);
    } else if (fabs(clock_s - dive->interval_s) > INTERVAL_SLACK_S) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, line, 0,
                       "dive %d: a surface interval of %s min is told, the clock says %s min; the one told is taken",
                       info->index, plmi_figure_short(dive->interval_s / 60, 1).text,
                       plmi_figure_short(clock_s / 60, 1).text);
    }
}

/* The only recorder of the file, where the dive names none. */
static const char *only_computer(const struct plmi_reader *reader)
{
    const char *only = NULL;
    for (size_t i = 0; i < reader->definitions.thing_count && !reader->exact; i++) {
        if (reader->definitions.things[i].kind == PLMI_UDDF_KIND_COMPUTER) {
            if (only != NULL) {
                return NULL;
            }
            only = reader->definitions.things[i].name;
        }
    }
    return only;
}

/* The only decompression model of the file with gradient factors; *count: how many there are. */
static const struct plmi_uddf_thing *only_model(const struct plmi_reader *reader, int *count)
{
    const struct plmi_uddf_thing *found = NULL;
    *count = 0;
    for (size_t i = 0; i < reader->definitions.thing_count; i++) {
        const struct plmi_uddf_thing *thing = &reader->definitions.things[i];
        if (thing->kind == PLMI_UDDF_KIND_MODEL && !(isnan(thing->gf_low_pct) && isnan(thing->gf_high_pct))) {
            found = thing;
            (*count)++;
        }
    }
    return *count == 1 ? found : NULL;
}

/* The gradient factors of the model that the dive refers to, else those of the only one. */
static void settle_factors(struct plmi_reader *reader, struct plm_dive_info *info)
{
    const struct plmi_uddf_thing *model = reader->dive.model;
    int count = 0;
    if (model == NULL && !reader->exact) {
        model = only_model(reader, &count);
    }
    if (model != NULL) {
        info->gf_low_pct = model->gf_low_pct;
        info->gf_high_pct = model->gf_high_pct;
    } else if (count > 1 && !reader->models_stated) {
        reader->models_stated = true;
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_REFERENCE, (long)info->line, 0,
                       "the file has %d decompression models with gradient factors, and dive %d refers to none; they "
                       "are not used",
                       count, info->index);
    }
}

static void settle_texts(struct plmi_reader *reader, struct plm_dive_info *info)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive_builder *builder = dive->track.builder;
    const char *computer = dive->computer != NULL ? dive->computer : only_computer(reader);
    info->format = reader->verdict.format;
    const char *diver = dive->diver != NULL ? dive->diver : reader->definitions.diver;
    info->diver = plm_dive_builder_text(builder, diver != NULL && diver[0] != '\0' ? diver : NULL);
    info->recorder = plm_dive_builder_text(builder, computer != NULL && computer[0] != '\0' ? computer : NULL);
    if (dive->notes.failed) {
        plmi_uddf_no_memory(reader);
    }
    info->notes = plm_dive_builder_text(builder, dive->notes.count > 0 ? dive->notes.bytes : NULL);
}

/* Without memory the whole reading fails. Returns: as plm_dive_builder_finish. */
static enum plm_status finish_builder(struct plmi_reader *reader, struct plm_dive_builder *builder,
                                      struct plm_dive **out)
{
    enum plm_status status = plm_dive_builder_finish(builder, out);
    reader->partial = reader->partial || status != PLM_STATUS_OK || plm_dive_info_get(*out)->partial;
    if (status == PLM_STATUS_MEMORY) {
        plmi_uddf_fail(reader, status);
    }
    return status;
}

/* Keeps the plan in the dive. Returns: false without memory. */
static bool finish_plan(struct plmi_reader *reader)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive *plan = NULL;
    if (!dive->plan_seen || dive->plan.builder == NULL) {
        return true;
    }
    struct plm_dive_builder *builder = dive->plan.builder;
    if (dive->plan.refused || dive->plan.waypoints < 2) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_PLAN, (long)plm_dive_builder_info(builder)->line, 0,
                       "a plan that cannot be read; dropped");
        return true;
    }
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    const struct plm_dive_info *dived = plm_dive_builder_info(dive->track.builder);
    info->format = reader->verdict.format;
    info->surface_bar = dived->surface_bar;
    info->altitude_m = dived->altitude_m;
    info->water_kg_m3 = dived->water_kg_m3;
    dive->plan.builder = NULL;
    enum plm_status status = finish_builder(reader, builder, &plan);
    if (status == PLM_STATUS_OK) {
        plm_dive_builder_plan(dive->track.builder, plan);
    }
    return status != PLM_STATUS_MEMORY;
}

static void queue_dive(struct plmi_reader *reader, struct plm_dive *dive)
{
    struct plmi_uddf_queue *queue = &reader->queue;
    if (!plmi_array_grow((void **)&queue->dives, &queue->capacity, queue->count, sizeof *queue->dives)) {
        plm_dive_free(dive);
        plmi_uddf_no_memory(reader);
        return;
    }
    queue->dives[queue->count++] = dive;
}

static void note_end(struct plmi_reader *reader, const struct plm_dive *dive)
{
    int64_t wet_from_ms, wet_to_ms;
    plm_dive_wet(dive, reader->options->rules, &wet_from_ms, &wet_to_ms);
    reader->last_end = plm_dive_info_get(dive)->start;
    reader->last_end.local_ms += wet_to_ms;
}

void plmi_uddf_dive_finish(struct plmi_reader *reader)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive_info *info = plm_dive_builder_info(dive->track.builder);
    struct plm_dive *finished = NULL;
    settle_start(dive, info);
    settle_altitude(reader, info);
    settle_interval(reader, info);
    settle_factors(reader, info);
    settle_texts(reader, info);
    if (!finish_plan(reader)) {
        return; /* the dive goes with its reader */
    }
    struct plm_dive_builder *builder = dive->track.builder;
    dive->track.builder = NULL;
    if (finish_builder(reader, builder, &finished) == PLM_STATUS_OK) {
        note_end(reader, finished);
        queue_dive(reader, finished);
    }
}
