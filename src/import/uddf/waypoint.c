/*
 * Waypoints of samples and of plans: gathered child by child in any order, put into the track when they close.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/waypoint.h"

#include <math.h>
#include <string.h>

#include "import/format/breathing.h"
#include "import/uddf/events.h"
#include "import/uddf/references.h"
#include "import/uddf/unread.h"
#include "import/uddf/values.h"

#define TIME_MOST_S 4e9

static struct plmi_uddf_track *track_of(struct plmi_reader *reader)
{
    return plmi_uddf_inside(reader, PLMI_UDDF_plannedprofile) ? &reader->dive.plan : &reader->dive.track;
}

static void open_waypoint(struct plmi_reader *reader, long line)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    if (++reader->waypoints > reader->options->rules->rows_max) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, line, 0,
                       "more than %lld waypoints (rule rows_max); reading stops there",
                       (long long)reader->options->rules->rows_max);
        plmi_uddf_fail(reader, PLM_STATUS_LIMIT);
        return;
    }
    /* All but the room for events and texts, which their counts guard. */
    waypoint->active = true;
    waypoint->line = (uint32_t)line;
    waypoint->time_s = (double)NAN;
    waypoint->sample.depth_m = waypoint->sample.temp_c = waypoint->sample.po2_bar = (double)NAN;
    for (size_t i = 0; i < PLM_CELLS; i++) {
        waypoint->sample.cell_bar[i] = (double)NAN;
    }
    waypoint->sample.line = (uint32_t)line;
    waypoint->has_mode = waypoint->switches = waypoint->setpoints = false;
    waypoint->user_bar = waypoint->computer_bar = waypoint->unnamed_bar = waypoint->cell_bar = (double)NAN;
    waypoint->cells_without_ref = 0;
    waypoint->event_count = waypoint->events_lost = waypoint->texts_used = 0;
    waypoint->texts_cut = false;
}

static void take_mode(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    const char *type = plmi_xml_attribute(attributes, "type");
    bool apnoe = false;
    if (type == NULL || !plmi_mode_parse(type, &reader->waypoint.mode, &apnoe)) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_MODE, line, column,
                       "'%.40s' is no breathing mode that is known; the mode before stays in force",
                       type == NULL ? "" : type);
        return;
    }
    if (apnoe) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_MODE, line, column,
                       "breath-hold dives are not modelled; open circuit taken");
    }
    reader->waypoint.has_mode = true;
}

static void take_switch(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    uint32_t mix = plmi_uddf_mix_find(reader, plmi_xml_attribute(attributes, "ref"), line, column);
    if (mix == PLMI_UDDF_NONE) {
        track_of(reader)->refused = true;
        return;
    }
    reader->waypoint.switches = true;
    reader->waypoint.mix = mix;
}

bool plmi_uddf_waypoint_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                             long line, long column)
{
    if (!reader->dive.active) {
        return false;
    }
    if (element == PLMI_UDDF_waypoint) {
        open_waypoint(reader, line);
        return true;
    }
    if (!reader->waypoint.active) {
        return false;
    }
    switch (element) {
    case PLMI_UDDF_divemode: take_mode(reader, attributes, line, column); break;
    case PLMI_UDDF_switchmix: take_switch(reader, attributes, line, column); break;
    case PLMI_UDDF_decostop: plmi_uddf_event_stop(reader, attributes, line, column); break;
    case PLMI_UDDF_setpo2: plmi_uddf_attribute_keep(reader, attributes, "setby", NULL); break;
    case PLMI_UDDF_measuredpo2: plmi_uddf_attribute_keep(reader, attributes, "ref", NULL); break;
    case PLMI_UDDF_tankpressure: plmi_uddf_attribute_keep(reader, attributes, "ref", "tankref"); break;
    case PLMI_UDDF_alarm: plmi_uddf_attribute_keep(reader, attributes, "level", "value"); break;
    case PLMI_UDDF_gradientfactor: plmi_uddf_attribute_keep(reader, attributes, "tissue", NULL); break;
    case PLMI_UDDF_batterychargecondition: plmi_uddf_attribute_keep(reader, attributes, "deviceref", NULL); break;
    default: break;
    }
    return true;
}

static void take_setpoint(struct plmi_reader *reader, const char *text, long line, long column)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    double bar = plmi_uddf_po2_bar(reader, text, line, column);
    if (isnan(bar)) {
        return;
    }
    const char *by = reader->attribute;
    double *series = plmi_text_same(by, "computer") ? &waypoint->computer_bar
                     : plmi_text_same(by, "user")   ? &waypoint->user_bar
                                                    : &waypoint->unnamed_bar;
    *series = bar;
    waypoint->setpoints = true;
    if (reader->exact) {
        return; /* what was recorded of set points stands by itself */
    }
    plmi_uddf_event_add(reader, PLM_EVENT_SETPOINT, bar, (double)NAN, by);
}

/* The place of a cell among those of a sample, by its reference; PLM_CELLS where there is no room. */
static size_t cell_of(struct plmi_reader *reader, const char *ref)
{
    for (size_t i = 0; i < reader->cell_count; i++) {
        if (strcmp(reader->cell_refs[i], ref) == 0) {
            return i;
        }
    }
    if (reader->cell_count == PLM_CELLS) {
        return PLM_CELLS;
    }
    const char *copy = plmi_arena_text(&reader->definitions.arena, ref, strlen(ref));
    if (copy == NULL) {
        plmi_uddf_no_memory(reader);
        return PLM_CELLS;
    }
    reader->cell_refs[reader->cell_count] = copy;
    return reader->cell_count++;
}

static void take_cell(struct plmi_reader *reader, const char *text, long line, long column)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    double bar = plmi_uddf_po2_bar(reader, text, line, column);
    if (reader->attribute[0] == '\0') {
        waypoint->cells_without_ref++;
        waypoint->cell_bar = bar;
        return;
    }
    size_t cell = cell_of(reader, reader->attribute);
    if (cell < PLM_CELLS) {
        waypoint->sample.cell_bar[cell] = bar;
    } else {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_PO2, line, column, "more than %d cells; '%.40s' dropped",
                       PLM_CELLS, reader->attribute);
    }
}

static void settle_cell_without_ref(struct plmi_reader *reader)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    if (waypoint->cells_without_ref > 1) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_PO2, (long)waypoint->line, 0,
                       "%d measured oxygen pressures tell no cell; all dropped", waypoint->cells_without_ref);
    } else if (waypoint->cells_without_ref == 1 && isnan(waypoint->sample.cell_bar[0])) {
        waypoint->sample.cell_bar[0] = waypoint->cell_bar;
    }
}

/* The set point in force: on a closed loop the computer's series where there is one, else the user's; one without a
 * name stands for both. */
static double setpoint_in_force(struct plmi_reader *reader, struct plmi_uddf_track *track)
{
    bool both = !isnan(track->user_bar) && !isnan(track->computer_bar);
    if (both && !reader->series_stated) {
        reader->series_stated = true;
        plmi_diags_add(
            reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_SETPOINT, (long)reader->waypoint.line, 0,
            "set points are told by user and by computer; on a closed loop the computer's are taken, else the user's");
    }
    bool computer = !isnan(track->computer_bar) && (track->mode == PLM_MODE_CLOSED || isnan(track->user_bar));
    double named_bar = computer ? track->computer_bar : track->user_bar;
    return isnan(named_bar) ? track->unnamed_bar : named_bar;
}

static void apply_settings(struct plmi_reader *reader, struct plmi_uddf_track *track)
{
    const struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    uint32_t index;
    if (waypoint->has_mode) {
        track->mode = waypoint->mode;
        plm_dive_builder_mode(track->builder, waypoint->mode, waypoint->line);
    }
    if (waypoint->switches) {
        if (plmi_uddf_mix_use(reader, track, waypoint->mix, &index)) {
            plm_dive_builder_switch(track->builder, index, waypoint->line);
            track->breathed = waypoint->mix;
        } else {
            track->refused = true;
        }
    }
    if ((waypoint->switches || waypoint->has_mode) && track->mode == PLM_MODE_OPEN &&
        track->breathed != PLMI_UDDF_NONE && plmi_uddf_mix_use(reader, track, track->breathed, &index)) {
        plm_dive_builder_carry(track->builder, index, PLM_MIX_USE_ANY,
                               reader->definitions.mixes[track->breathed].po2_max_bar);
    }
    if (!isnan(waypoint->unnamed_bar)) {
        /* It stands for both series, whatever they said before. */
        track->user_bar = track->computer_bar = (double)NAN;
        track->unnamed_bar = waypoint->unnamed_bar;
    }
    track->user_bar = isnan(waypoint->user_bar) ? track->user_bar : waypoint->user_bar;
    track->computer_bar = isnan(waypoint->computer_bar) ? track->computer_bar : waypoint->computer_bar;
    if (waypoint->setpoints || waypoint->has_mode) {
        plm_dive_builder_setpoint(track->builder, setpoint_in_force(reader, track), waypoint->line);
    }
}

static void add_events(struct plmi_reader *reader, struct plmi_uddf_track *track, int64_t time_ms)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    for (size_t i = 0; i < waypoint->event_count; i++) {
        waypoint->events[i].time_ms = time_ms;
        if (plm_dive_builder_event(track->builder, &waypoint->events[i]) != PLM_STATUS_OK) {
            plmi_uddf_fail(reader, PLM_STATUS_MEMORY);
            return;
        }
    }
    if (waypoint->events_lost > 0) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, (long)waypoint->line, 0,
                       "%zu more events in one waypoint than are kept; dropped", waypoint->events_lost);
    }
    if (waypoint->texts_cut) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, (long)waypoint->line, 0,
                       "texts of events in one waypoint are longer than is kept; cut");
    }
}

static void tell_lacking(struct plmi_reader *reader, bool no_time)
{
    plmi_uddf_lose(reader, PLM_LEVEL_WARNING, no_time ? PLM_DIAG_TIME_MISSING : PLM_DIAG_DEPTH_MISSING,
                   (long)reader->waypoint.line, 0, "a waypoint without %s; %s", no_time ? "time" : "depth",
                   no_time ? "dropped" : "only its events are kept");
}

static void close_waypoint(struct plmi_reader *reader)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    struct plmi_uddf_track *track = track_of(reader);
    waypoint->active = false;
    if (track->builder == NULL) {
        return;
    }
    bool no_time = !(waypoint->time_s >= 0 && waypoint->time_s < TIME_MOST_S);
    bool no_depth = isnan(waypoint->sample.depth_m);
    track->waypoints++;
    track->lacking += no_time || no_depth;
    settle_cell_without_ref(reader);
    apply_settings(reader, track);
    if (no_time || no_depth) {
        tell_lacking(reader, no_time);
    }
    if (no_time) {
        return;
    }
    waypoint->sample.time_ms = llround(waypoint->time_s * 1000.0);
    if (!no_depth && plm_dive_builder_sample(track->builder, &waypoint->sample) != PLM_STATUS_OK) {
        plmi_uddf_fail(reader, PLM_STATUS_MEMORY);
        return;
    }
    add_events(reader, track, waypoint->sample.time_ms);
}

bool plmi_uddf_waypoint_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                              long column)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    if (!waypoint->active) {
        return false;
    }
    switch (element) {
    case PLMI_UDDF_waypoint: close_waypoint(reader); break;
    case PLMI_UDDF_depth: waypoint->sample.depth_m = plmi_uddf_number(reader, text, "depth", line, column); break;
    case PLMI_UDDF_divetime: waypoint->time_s = plmi_uddf_number(reader, text, "divetime", line, column); break;
    case PLMI_UDDF_temperature: waypoint->sample.temp_c = plmi_uddf_temp_c(reader, text, line, column); break;
    case PLMI_UDDF_calculatedpo2: waypoint->sample.po2_bar = plmi_uddf_po2_bar(reader, text, line, column); break;
    case PLMI_UDDF_setpo2: take_setpoint(reader, text, line, column); break;
    case PLMI_UDDF_measuredpo2: take_cell(reader, text, line, column); break;
    case PLMI_UDDF_divemode:
    case PLMI_UDDF_switchmix:
    case PLMI_UDDF_decostop: break;
    default:
        if (!plmi_uddf_event_close(reader, element, text, line, column) && element != PLMI_UDDF_OTHER) {
            plmi_uddf_unread_count(reader, plmi_uddf_element_name(element), line);
        }
        break;
    }
    return true;
}
