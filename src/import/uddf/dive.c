/*
 * The dive around its samples: what the file says of it, its plan, its tanks.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/dive.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "import/format/breathing.h"
#include "import/uddf/dive_finish.h"
#include "import/uddf/own.h"
#include "import/uddf/references.h"
#include "import/uddf/values.h"

/* More than this share of waypoints without depth or time, and the dive is not read. */
#define LACKING_SHARE 0.1
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

static void track_free(struct plmi_reader *reader, struct plmi_uddf_track *track)
{
    reader->partial = reader->partial || (track->builder != NULL && plm_dive_builder_info(track->builder)->partial);
    plm_dive_builder_free(track->builder);
    free(track->mix_index);
    *track = (struct plmi_uddf_track){0};
}

void plmi_uddf_dive_free(struct plmi_reader *reader)
{
    track_free(reader, &reader->dive.track);
    track_free(reader, &reader->dive.plan);
    plmi_text_free(&reader->dive.notes);
    reader->dive.active = false;
    reader->waypoint.active = false;
}

static void open_dive(struct plmi_reader *reader, const char *const *attributes, long line)
{
    struct plmi_uddf_dive *dive = &reader->dive;
    const double most = reader->options->rules->dives_max;
    if (++reader->dives > most) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, line, 0,
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
    track_free(reader, plan);
    reader->dive.plan_seen = true;
    struct plm_rules rules = *reader->options->rules;
    rules.gap_max_min = PLAN_GAP_MIN;
    rules.spike_m_min = rules.doubt_m_min = (double)INFINITY; /* corners are no samples */
    if (!track_begin(reader, plan, &rules, &reader->quiet_sink)) {
        return;
    }
    struct plm_dive_info *info = plm_dive_builder_info(plan->builder);
    info->line = (uint32_t)line;
    info->index = reader->dives;
    if (mode != NULL && plmi_mode_parse(mode, &plan->mode, &apnoe)) {
        plm_dive_builder_mode(plan->builder, plan->mode, (uint32_t)line);
    } else if (!reader->exact) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_MODE, line, column,
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

/* A mix that a tank holds is carried. One that cannot be used is reported at its definition. */
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
    } else if (thing != NULL && thing->kind == PLMI_UDDF_KIND_MODEL) {
        dive->model = thing;
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
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_STAMP, line, column,
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
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_STAMP, line, column,
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
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_DIVE_SKIPPED, line, 0,
                       "dive %d is not read: its breathing gas is not known", index);
        return false;
    }
    if (track->lacking > 2 && (double)track->lacking > LACKING_SHARE * (double)track->waypoints) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_DIVE_SKIPPED, line, 0,
                       "dive %d is not read: %zu of its %zu waypoints lack depth or time", index, track->lacking,
                       track->waypoints);
        return false;
    }
    return true;
}

static void close_dive(struct plmi_reader *reader)
{
    long line = (long)plm_dive_builder_info(reader->dive.track.builder)->line;
    if (dive_usable(reader, line)) {
        plmi_uddf_dive_finish(reader);
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
