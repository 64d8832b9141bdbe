/*
 * The dive around its samples: what the file says of it, its plan, its tanks, and what parts it from the dive before.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "base/figure.h"
#include "base/number.h"
#include "import/format/breathing.h"
#include "import/uddf/uddf.h"

/* More than this share of waypoints without depth or time, and the dive is not read. */
#define LACKING_SHARE 0.1
/* A told surface interval may differ so much [s] from the clock's. */
#define INTERVAL_SLACK_S 600.0
/* Surface pressure may differ so much [bar] from the altitude's: weather. */
#define WEATHER_BAR 0.04
/* One day: a plan names its corners, and the way between them is no gap. */
#define PLAN_GAP_MIN 1440

static bool track_begin(struct plmi_reader *reader, struct plmi_uddf_track *track, const struct plm_rules *rules,
                        const struct plm_diag_sink *sink)
{
    size_t count = reader->definitions.mix_count;
    *track = (struct plmi_uddf_track){
        .breathed = PLMI_UDDF_NONE, .user_bar = (double)NAN, .computer_bar = (double)NAN, .unnamed_bar = (double)NAN};
    track->builder = plm_dive_builder_new(reader->diags->file, rules, sink);
    track->mix_index = malloc((count + 1) * sizeof *track->mix_index);
    if (track->builder == NULL || track->mix_index == NULL) {
        plmi_uddf_no_memory(reader);
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        track->mix_index[i] = PLMI_UDDF_NONE;
    }
    return true;
}

static void track_free(struct plmi_uddf_track *track)
{
    plm_dive_builder_free(track->builder);
    free(track->mix_index);
    *track = (struct plmi_uddf_track){0};
}

void plmi_uddf_dive_free(struct plmi_reader *reader)
{
    track_free(&reader->dive.track);
    track_free(&reader->dive.plan);
    plmi_text_free(&reader->dive.notes);
    reader->dive.active = false;
    reader->waypoint.active = false;
}

static void open_dive(struct plmi_reader *reader, const char *const *attributes, long line)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    const double most = reader->options->rules->dives_max;
    if (++reader->dives > most) {
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, line, 0,
                       "more than %lld dives (rule dives_max); reading stops there", (long long)most);
        plmi_uddf_fail(reader, PLM_STATUS_LIMIT);
        return;
    }
    reader->dive_in_group++;
    reader->groups = reader->groups == 0 ? 1 : reader->groups;
    *dive = (struct plmi_uddf_dive){.active = true, .year = -1, .month = -1, .day = -1, .hour = -1, .minute = -1};
    dive->interval_s = dive->altitude_m = dive->site_altitude_m = dive->surface_bar = (double)NAN;
    plmi_text_init(&dive->notes);
    if (!track_begin(reader, &dive->track, reader->options->rules, reader->diags->sink)) {
        return;
    }
    struct plm_dive_info *info = plm_dive_builder_info(dive->track.builder);
    info->id = plm_dive_builder_text(dive->track.builder, plmi_xml_attribute(attributes, "id"));
    info->line = (uint32_t)line;
    info->index = reader->dives;
    info->group = reader->groups;
}

static void open_plan(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    struct plmi_uddf_track *plan = &reader->dive.plan;
    const char *mode = plmi_xml_attribute(attributes, "startdivemode");
    const char *mix = plmi_xml_attribute(attributes, "startmix");
    bool apnoe = false;
    uint32_t index;
    track_free(plan);
    reader->dive.plan_seen = true;
    struct plm_rules rules = *reader->options->rules;
    rules.gap_max_min = PLAN_GAP_MIN;
    if (!track_begin(reader, plan, &rules, &reader->quiet_sink)) {
        return;
    }
    struct plm_dive_info *info = plm_dive_builder_info(plan->builder);
    info->line = (uint32_t)line;
    info->index = reader->dives;
    if (mode != NULL && plmi_mode_parse(mode, &plan->mode, &apnoe)) {
        plm_dive_builder_mode(plan->builder, plan->mode, (uint32_t)line);
    } else if (!reader->exact) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_MODE, line, column,
                       "a plan tells no breathing mode that is known; open circuit taken");
    }
    if (mix == NULL) {
        if (!reader->exact) {
            plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_PLAN, line, column,
                           "a plan tells no mix to start with; air taken");
        }
        return;
    }
    uint32_t at = plmi_uddf_mix_find(reader, mix, line, column);
    plan->breathed = at;
    plan->refused = at == PLMI_UDDF_NONE || !plmi_uddf_mix_use(reader, plan, at, &index);
    if (!plan->refused) {
        plm_dive_builder_switch(plan->builder, index, (uint32_t)line);
    }
}

/* A mix that a tank holds is carried. One that cannot be used is told at its definition. */
static void carry(struct plmi_reader *reader, const char *ref)
{
    struct plmi_uddf_track *track = &reader->dive.track;
    uint32_t mix = plmi_uddf_mix_of_id(reader, ref);
    uint32_t index;
    if (mix != PLMI_UDDF_NONE && plmi_uddf_mix_use(reader, track, mix, &index)) {
        plm_dive_builder_carry(track->builder, index, PLM_MIX_USE_ANY, reader->definitions.mixes[mix].po2_max_bar);
    }
}

static void take_link(struct plmi_reader *reader, const char *ref)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    if (plmi_uddf_inside(reader, PLMI_UDDF_tankdata)) {
        carry(reader, ref);
        return;
    }
    const struct plmi_uddf_thing *thing = plmi_uddf_thing_find(reader, ref, true, PLMI_UDDF_KIND_SITE);
    if (thing != NULL && thing->kind == PLMI_UDDF_KIND_SITE) {
        struct plm_dive_info *info = plm_dive_builder_info(dive->track.builder);
        info->site = plm_dive_builder_text(dive->track.builder, thing->name);
        dive->site_altitude_m = thing->altitude_m;
        info->water_kg_m3 = isnan(info->water_kg_m3) ? thing->water_kg_m3 : info->water_kg_m3;
    } else if (thing != NULL && thing->kind == PLMI_UDDF_KIND_COMPUTER) {
        dive->computer = thing->name;
    }
}

bool plmi_uddf_dive_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                         long line, long column)
{
    if (element == PLMI_UDDF_repetitiongroup) {
        reader->groups++;
        reader->dive_in_group = 0;
        reader->last_end = (struct plm_stamp){0};
        return true;
    }
    if (element == PLMI_UDDF_dive && plmi_uddf_inside(reader, PLMI_UDDF_profiledata) && !reader->dive.active) {
        open_dive(reader, attributes, line);
        return true;
    }
    if (!reader->dive.active) {
        return false;
    }
    if (element == PLMI_UDDF_samples) {
        reader->dive.samples_seen = true;
    } else if (element == PLMI_UDDF_plannedprofile) {
        open_plan(reader, attributes, line, column);
    } else if (element == PLMI_UDDF_link && plmi_xml_attribute(attributes, "ref") != NULL) {
        take_link(reader, plmi_xml_attribute(attributes, "ref"));
    } else if (element == PLMI_UDDF_mixref || element == PLMI_UDDF_tankdataref) {
        plmi_uddf_attribute_keep(reader, attributes, "ref", NULL);
    } else if (element == PLMI_UDDF_infinity && (plmi_uddf_inside(reader, PLMI_UDDF_surfaceintervalbeforedive) ||
                                                 plmi_uddf_inside(reader, PLMI_UDDF_surfaceinterval))) {
        reader->dive.interval_infinite = true;
    } else {
        plmi_uddf_own_open(reader, element, attributes, line, column);
    }
    return true;
}

/* 2.x: the mix that the dive starts with. */
static void start_mix(struct plmi_reader *reader, const char *ref, long line, long column)
{
    struct plmi_uddf_track *track = &reader->dive.track;
    uint32_t index;
    uint32_t mix = plmi_uddf_mix_find(reader, ref, line, column);
    if (mix == PLMI_UDDF_NONE || !plmi_uddf_mix_use(reader, track, mix, &index)) {
        track->refused = true;
    } else if (track->waypoints == 0) {
        track->breathed = mix;
        plm_dive_builder_switch(track->builder, index, (uint32_t)line);
    }
}

static void take_interval(struct plmi_reader *reader, const char *text, long line, long column)
{
    if (!plmi_uddf_inside(reader, PLMI_UDDF_surfaceintervalbeforedive) &&
        !plmi_uddf_inside(reader, PLMI_UDDF_surfaceinterval)) {
        return;
    }
    if (plmi_text_same(text, "infinity")) {
        reader->dive.interval_infinite = true;
        return;
    }
    double seconds = plmi_uddf_number(reader, text, "passedtime", line, column);
    if (seconds >= 0) {
        reader->dive.interval_s = seconds;
    }
}

static void take_datetime(struct plmi_reader *reader, const char *text, long line, long column)
{
    struct plm_dive_info *info = plm_dive_builder_info(reader->dive.track.builder);
    if (!plmi_clock_parse(text, strlen(text), &info->start)) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_STAMP, line, column,
                       "'%.40s' is no date and time; the start is not known", text);
    }
}

/* Parts of 2.x dates: a small integer, -1 where it is none. */
static void take_date_part(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                           long column)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    int64_t value;
    int *part = element == PLMI_UDDF_year    ? &dive->year
                : element == PLMI_UDDF_month ? &dive->month
                : element == PLMI_UDDF_day   ? &dive->day
                : element == PLMI_UDDF_hour  ? &dive->hour
                                             : &dive->minute;
    if (plmi_integer_parse(text, strlen(text), &value) && value >= 0 && value < 3000) {
        *part = (int)value;
    } else {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_STAMP, line, column,
                       "'%.40s' is no %s; the start is not known", text, plmi_uddf_element_name(element));
    }
}

static void take_note(struct plmi_reader *reader, const char *text)
{
    struct plmi_text *notes = &reader->dive.notes;
    if (text[0] != '\0' && notes->count < 4000) {
        plmi_text_puts(notes, notes->count > 0 ? " " : "");
        plmi_text_puts(notes, text);
    }
}

static void close_in_dive(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                          long column)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive_builder *builder = dive->track.builder;
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    switch (element) {
    case PLMI_UDDF_datetime: take_datetime(reader, text, line, column); break;
    case PLMI_UDDF_divenumber: info->number = plm_dive_builder_text(builder, text); break;
    case PLMI_UDDF_altitude: dive->altitude_m = plmi_uddf_number(reader, text, "an altitude", line, column); break;
    case PLMI_UDDF_surfacepressure: dive->surface_bar = plmi_uddf_surface_bar(reader, text, line, column); break;
    case PLMI_UDDF_density: info->water_kg_m3 = plmi_uddf_number(reader, text, "a density", line, column); break;
    case PLMI_UDDF_passedtime: take_interval(reader, text, line, column); break;
    case PLMI_UDDF_place: info->site = plm_dive_builder_text(builder, text); break;
    case PLMI_UDDF_year:
    case PLMI_UDDF_month:
    case PLMI_UDDF_day:
    case PLMI_UDDF_hour:
    case PLMI_UDDF_minute: take_date_part(reader, element, text, line, column); break;
    case PLMI_UDDF_notes:
    case PLMI_UDDF_para: take_note(reader, text); break;
    case PLMI_UDDF_mixref:
        start_mix(reader, reader->attribute[0] != '\0' ? reader->attribute : text, line, column);
        break;
    case PLMI_UDDF_tankdataref: {
        const char *ref = reader->attribute[0] != '\0' ? reader->attribute : text;
        const struct plmi_uddf_thing *tankdata = plmi_uddf_thing_find(reader, ref, false, PLMI_UDDF_KIND_TANKDATA);
        if (tankdata != NULL) {
            carry(reader, tankdata->mix_ref);
        }
        break;
    }
    default: break;
    }
}

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

static void settle_texts(struct plmi_reader *reader, struct plm_dive_info *info)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive_builder *builder = dive->track.builder;
    const char *computer = dive->computer != NULL ? dive->computer : only_computer(reader);
    info->format = reader->verdict.format;
    const char *diver = dive->diver != NULL ? dive->diver : reader->definitions.diver;
    info->diver = plm_dive_builder_text(builder, diver != NULL && diver[0] != '\0' ? diver : NULL);
    info->recorder = plm_dive_builder_text(builder, computer != NULL && computer[0] != '\0' ? computer : NULL);
    if (reader->definitions.notes != NULL) {
        take_note(reader, "recorder's model:");
        take_note(reader, reader->definitions.notes);
    }
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

/* Whether the dive can be finished; tells why not. */
static bool dive_usable(struct plmi_reader *reader, long line)
{
    const struct plmi_uddf_track *track = &reader->dive.track;
    int index = reader->dives;
    if (track->waypoints == 0) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_DIVE_SKIPPED, line, 0,
                       "dive %d has no samples; skipped (what it adds to later dives is not known)", index);
        return false;
    }
    if (track->refused) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_DIVE_SKIPPED, line, 0,
                       "dive %d is not read: its breathing gas is not known", index);
        return false;
    }
    if (track->lacking > 2 && (double)track->lacking > LACKING_SHARE * (double)track->waypoints) {
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_DIVE_SKIPPED, line, 0,
                       "dive %d is not read: %zu of its %zu waypoints lack depth or time", index, track->lacking,
                       track->waypoints);
        return false;
    }
    return true;
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
    plm_dive_wet(dive, reader->options->rules->surface_depth_m, &wet_from_ms, &wet_to_ms);
    reader->last_end = plm_dive_info_get(dive)->start;
    reader->last_end.local_ms += wet_to_ms;
}

static void finish_dive(struct plmi_reader *reader)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    struct plm_dive_info *info = plm_dive_builder_info(dive->track.builder);
    struct plm_dive *finished = NULL;
    settle_start(dive, info);
    settle_altitude(reader, info);
    settle_interval(reader, info);
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

static void close_dive(struct plmi_reader *reader)
{
    long line = (long)plm_dive_builder_info(reader->dive.track.builder)->line;
    if (dive_usable(reader, line)) {
        finish_dive(reader);
    } else {
        reader->last_end = (struct plm_stamp){0};
    }
    plmi_uddf_dive_free(reader);
}

bool plmi_uddf_dive_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                          long column)
{
    if (!reader->dive.active) {
        return false;
    }
    if (element == PLMI_UDDF_dive) {
        close_dive(reader);
    } else if (!plmi_uddf_inside(reader, PLMI_UDDF_plannedprofile)) {
        close_in_dive(reader, element, text, line, column);
    }
    return true;
}
