/*
 * Tables of text as dives: rows go to a builder, a dive ends where the table or the surface says so.
 * Must not look into cells; that is record.c.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/reader.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/dive_builder.h>

#include "base/figure.h"
#include "import/table/bob.h"
#include "import/table/early.h"
#include "import/table/own.h"
#include "import/table/plan_make.h"
#include "import/table/probe.h"
#include "import/table/record.h"

/* A gap in the record with both sides shallower than this [m] may part two dives. */
#define SHALLOW_M 3.0

/* Settings in force, kept to be given again to the builder of the next dive. */
struct in_force {
    bool has_mode, has_o2;
    enum plm_mode mode;
    double o2_frac, he_frac, setpoint_bar;
};

struct plmi_reader {
    struct plmi_table_plan plan;
    struct plmi_row_reader rows_read;
    const struct plm_import_options *options;
    struct plmi_diags *diags;
    struct plmi_rows *rows;
    long skip_to_line;                /* rows up to it are no data */
    struct plm_dive_builder *builder; /* of the dive being read, or NULL */
    int64_t base_ms;                  /* time of its start */
    int64_t last_ms;                  /* of its last row */
    double last_depth_m;
    int64_t surfaced_ms; /* since when it is at the surface */
    bool at_surface, was_under;
    char dive_number[128];
    uint64_t dive_hash; /* of the whole of it */
    uint32_t first_line;
    struct in_force in_force;
    struct plmi_row_values held; /* the last at the surface before the next dive, or its first row */
    bool has_held;
    bool continuous; /* one record over several dives: settings and time run on */
    bool partial;    /* something of the rows is not in the dives */
    int dives;       /* begun */
    int given;
    int64_t end_ms; /* end of the dive before; needs has_end */
    bool has_end;
    struct plmi_early early;       /* what cannot be, before a dive was begun */
    struct plm_dive *bob;          /* what may be no dive, until one that is follows it; or NULL */
    long missing_from, missing_to; /* lines of rows without depth that stand in a row */
    size_t missing;
    enum plm_status stopped; /* what ended the rows */
};

/* The rows without depth, reported as one stretch. */
static void tell_missing(struct plmi_reader *reader)
{
    if (reader->missing == 1) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_DEPTH_MISSING, reader->missing_from, 0,
                       "a row without a depth; passed over");
    } else if (reader->missing > 1) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_DEPTH_MISSING, reader->missing_from, 0,
                       "%zu rows without a depth, up to line %ld; passed over", reader->missing, reader->missing_to);
    }
    reader->missing = 0;
}

static double surface_limit_m(const struct plmi_reader *reader)
{
    double zero_m = reader->plan.zero_applied || reader->plan.zero_m < 0 ? 0 : reader->plan.zero_m;
    return reader->options->rules->surface_depth_m + zero_m;
}

static int64_t split_ms(const struct plmi_reader *reader)
{
    const int64_t never_ms = INT64_MAX / 2;
    return reader->plan.preamble.one_dive ? never_ms : (int64_t)(reader->options->rules->split_surface_min * 60000.0);
}

static bool by_clock(const struct plmi_table_plan *plan)
{
    return plan->time_kind == PLMI_TIME_KIND_CLOCK || plan->time_kind == PLMI_TIME_KIND_STAMP;
}

/* When the dive began, from a clock of the table or the lines before its header. */
static struct plm_stamp start_stamp(const struct plmi_reader *reader)
{
    const struct plmi_table_plan *plan = &reader->plan;
    struct plm_stamp stamp = plan->preamble.start;
    bool dated = plmi_plan_column(plan, PLMI_MEANING_DATE) != NULL || plan->time_kind == PLMI_TIME_KIND_STAMP;
    if (by_clock(plan) && dated) {
        stamp = (struct plm_stamp){.local_ms = reader->base_ms, .known = true, .has_clock = true};
        stamp.has_zone = reader->rows_read.zone_seen;
        stamp.offset_min = reader->rows_read.zone_seen ? reader->rows_read.offset_min : 0;
    } else if (by_clock(plan) && stamp.known) {
        int64_t day_ms = INT64_C(86400000);
        stamp.local_ms = stamp.local_ms / day_ms * day_ms + reader->base_ms;
        stamp.has_clock = true;
    } else if (!by_clock(plan) && reader->rows_read.clock_seen && reader->dives <= 1) {
        stamp = (struct plm_stamp){.local_ms = reader->rows_read.last_clock_ms,
                                   .known = reader->rows_read.last_clock_ms > INT64_C(86400000),
                                   .has_clock = true};
        stamp = stamp.known ? stamp : (struct plm_stamp){0};
    } else if (stamp.known && stamp.has_clock) {
        stamp.local_ms += reader->base_ms;
    } else if (reader->dives > 1) {
        stamp = (struct plm_stamp){0};
    }
    return stamp;
}

static void fill_info(struct plmi_reader *reader)
{
    const struct plmi_preamble *preamble = &reader->plan.preamble;
    struct plm_dive_builder *builder = reader->builder;
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    info->format = plmi_format_csv.info.name;
    info->line = reader->first_line;
    info->index = reader->dives;
    info->number = plm_dive_builder_text(builder, reader->dive_number[0] != '\0' ? reader->dive_number
                                                  : reader->dives == 1           ? preamble->number
                                                                                 : NULL);
    info->diver = plm_dive_builder_text(builder, preamble->diver);
    info->recorder = plm_dive_builder_text(builder, preamble->recorder);
    info->site = plm_dive_builder_text(builder, preamble->site);
    info->notes = plm_dive_builder_text(builder, preamble->notes);
    info->start = start_stamp(reader);
    info->altitude_m = preamble->altitude_m;
    info->water_kg_m3 = preamble->water_kg_m3;
    info->gf_low_pct = preamble->gf_low_pct;
    info->gf_high_pct = preamble->gf_high_pct;
    info->surface_bar = !isnan(preamble->surface_bar)  ? preamble->surface_bar
                        : reader->plan.surface_bar > 0 ? reader->plan.surface_bar
                                                       : (double)NAN;
    if (reader->has_end && reader->base_ms >= reader->end_ms && (by_clock(&reader->plan) || reader->continuous)) {
        info->surface_interval_s = (double)(reader->base_ms - reader->end_ms) / 1000.0;
    }
}

/* Takes out of *out what is no dive. The first of a record is held: it may be all that there is. */
static void sort_out_bob(struct plmi_reader *reader, struct plm_dive **out)
{
    struct plm_dive *dive = *out;
    const struct plm_rules *rules = reader->options->rules;
    if (reader->continuous && plmi_bob_is(dive, rules)) {
        *out = NULL;
        reader->dives--;
        if (reader->given == 0 && reader->bob == NULL) {
            reader->bob = dive;
        } else {
            plmi_bob_drop(dive, rules, reader->diags);
        }
    } else if (reader->bob != NULL) {
        plmi_bob_drop(reader->bob, rules, reader->diags);
        reader->bob = NULL;
    }
}

/* Ends the dive being read. by_surface: a stay there ended it and is no part of it.
 * Returns: OK with a dive, or with none where it is a bob; INPUT where it is none, which is reported; others. */
static enum plm_status finish_dive(struct plmi_reader *reader, bool by_surface, struct plm_dive **out)
{
    if (by_surface && reader->at_surface && reader->was_under) {
        plm_dive_builder_cut(reader->builder, reader->surfaced_ms - reader->base_ms);
        reader->last_ms = reader->surfaced_ms;
    }
    tell_missing(reader);
    fill_info(reader);
    enum plm_status status = plm_dive_builder_finish(reader->builder, out);
    reader->partial = reader->partial || status != PLM_STATUS_OK || plm_dive_info_get(*out)->partial;
    reader->builder = NULL;
    if (status == PLM_STATUS_OK) {
        sort_out_bob(reader, out);
    }
    if (status != PLM_STATUS_OK || *out != NULL) {
        reader->end_ms = reader->last_ms;
        reader->has_end = status == PLM_STATUS_OK;
        reader->given += status == PLM_STATUS_OK;
    }
    return status;
}

/* Takes the settings of a record; INPUT where they cannot be. */
static enum plm_status hold_settings(struct plmi_reader *reader, const struct plmi_row_values *record)
{
    struct in_force *now = &reader->in_force;
    now->mode = record->has_mode ? record->mode : now->mode;
    now->has_mode = now->has_mode || record->has_mode;
    now->setpoint_bar = record->has_setpoint ? record->setpoint_bar : now->setpoint_bar;
    now->o2_frac = record->has_o2 ? record->o2_frac : now->o2_frac;
    now->he_frac = record->has_he ? record->he_frac : now->he_frac;
    now->has_o2 = now->has_o2 || record->has_o2;
    if (record->has_he && !now->has_o2) {
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX, (long)record->sample.line, 0,
                       "helium is told and no oxygen; the mix cannot be known");
        return PLM_STATUS_INPUT;
    }
    return PLM_STATUS_OK;
}

/* Tells the builder what a record changes; all that is in force where record is NULL. */
static enum plm_status tell_settings(struct plmi_reader *reader, const struct plmi_row_values *record, uint32_t line)
{
    const struct in_force *now = &reader->in_force;
    if (record == NULL ? now->has_mode : record->has_mode) {
        plm_dive_builder_mode(reader->builder, now->mode, line);
    }
    if (record == NULL ? !isnan(now->setpoint_bar) : record->has_setpoint) {
        plm_dive_builder_setpoint(reader->builder, now->setpoint_bar, line);
    }
    if (record == NULL ? !now->has_o2 : !record->has_o2 && !record->has_he) {
        return PLM_STATUS_OK;
    }
    uint32_t mix;
    enum plm_status status = plm_dive_builder_mix_find(reader->builder, now->o2_frac, now->he_frac, line, &mix);
    if (status == PLM_STATUS_OK) {
        plm_dive_builder_switch(reader->builder, mix, line);
    }
    return status;
}

/* Mixes that lines before the header name as carried. */
static enum plm_status tell_carried(struct plmi_reader *reader, uint32_t line)
{
    const struct plmi_preamble *preamble = &reader->plan.preamble;
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < preamble->carried_count && status == PLM_STATUS_OK; i++) {
        const struct plmi_table_carried *carried = &preamble->carried[i];
        uint32_t mix;
        status = plm_dive_builder_mix_find(reader->builder, carried->o2_frac, carried->he_frac, line, &mix);
        if (status == PLM_STATUS_OK) {
            plm_dive_builder_carry(reader->builder, mix, carried->use, carried->po2_max_bar);
        }
    }
    return status;
}

/* The time that counts as the start of a dive whose first row is this one. */
static int64_t start_ms(const struct plmi_reader *reader, const struct plmi_row_values *record)
{
    bool runs_on = by_clock(&reader->plan) || reader->continuous || record->time_ms < 0;
    bool late = reader->dives > 1 && record->time_ms > split_ms(reader);
    return runs_on || late ? record->time_ms : 0;
}

/* A builder for the dive whose first row is this one. */
static enum plm_status begin_dive(struct plmi_reader *reader, const struct plmi_row_values *record)
{
    const double most = reader->options->rules->dives_max;
    if ((double)reader->dives >= most) {
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, (long)record->sample.line, 0,
                       "more than %lld dives (rule dives_max); reading stops there", (long long)most);
        return PLM_STATUS_LIMIT;
    }
    reader->builder = plm_dive_builder_new(reader->diags->file, reader->options->rules, reader->diags->sink);
    if (reader->builder == NULL) {
        return plmi_diags_no_memory(reader->diags, (long)record->sample.line, "for a dive");
    }
    reader->dives++;
    reader->base_ms = start_ms(reader, record);
    reader->last_ms = record->time_ms;
    reader->first_line = record->sample.line;
    reader->was_under = false;
    reader->at_surface = false;
    memcpy(reader->dive_number, record->dive, sizeof reader->dive_number);
    reader->dive_hash = record->dive_hash;
    enum plm_status status = tell_carried(reader, record->sample.line);
    status = status == PLM_STATUS_OK ? plmi_early_hand_over(&reader->early, reader->builder, reader->base_ms) : status;
    return status == PLM_STATUS_OK ? tell_settings(reader, NULL, record->sample.line) : status;
}

static bool other_number(const struct plmi_reader *reader, const struct plmi_row_values *record)
{
    return record->dive[0] != '\0' && record->dive_hash != reader->dive_hash;
}

/* Whether the surface, or a long gap near it, parts this record from the dive being read. */
static bool parted_by_surface(const struct plmi_reader *reader, const struct plmi_row_values *record)
{
    double shallow_m = SHALLOW_M + fabs(reader->plan.zero_m);
    bool long_surface = reader->at_surface && record->time_ms - reader->surfaced_ms > split_ms(reader);
    bool gap = record->time_ms - reader->last_ms > split_ms(reader) && reader->last_depth_m < shallow_m &&
               record->sample.depth_m < shallow_m;
    return long_surface || gap;
}

static enum plm_status add_events(struct plmi_reader *reader, const struct plmi_row_values *record)
{
    if (record->events == NULL) {
        return PLM_STATUS_OK;
    }
    return plmi_own_events(reader->builder, record->events, record->time_ms - reader->base_ms, record->sample.line,
                           reader->diags);
}

/* Adds a record to the dive being read, to which it belongs. */
static enum plm_status add_record(struct plmi_reader *reader, struct plmi_row_values *record)
{
    bool surface = record->sample.depth_m < surface_limit_m(reader);
    if (record->time_ms >= reader->last_ms) {
        if (surface && !reader->at_surface) {
            reader->surfaced_ms = record->time_ms;
        }
        reader->at_surface = surface;
        reader->was_under = reader->was_under || !surface;
        reader->last_ms = record->time_ms;
        reader->last_depth_m = record->sample.depth_m;
    }
    enum plm_status status = tell_settings(reader, record, record->sample.line);
    if (status == PLM_STATUS_OK) {
        record->sample.time_ms = record->time_ms - reader->base_ms;
        status = plm_dive_builder_sample(reader->builder, &record->sample);
    }
    return status == PLM_STATUS_OK ? add_events(reader, record) : status;
}

static void hold_record(struct plmi_reader *reader, const struct plmi_row_values *record)
{
    reader->held = *record;
    reader->held.events = NULL; /* of a row that is gone */
    reader->has_held = true;
}

/* Between two dives of one record: waits at the surface, begins the next dive with the last row there. */
static enum plm_status wait_or_begin(struct plmi_reader *reader, struct plmi_row_values *record)
{
    if (reader->continuous && record->sample.depth_m < surface_limit_m(reader)) {
        hold_record(reader, record);
        return PLM_STATUS_OK;
    }
    enum plm_status status = PLM_STATUS_OK;
    struct plmi_row_values held = reader->held;
    bool use_held =
        reader->has_held && record->time_ms - held.time_ms <= split_ms(reader) && record->time_ms >= held.time_ms;
    reader->has_held = false;
    status = begin_dive(reader, use_held ? &held : record);
    if (status == PLM_STATUS_OK && use_held) {
        held.has_mode = held.has_setpoint = held.has_o2 = held.has_he = false; /* in force already */
        status = add_record(reader, &held);
    }
    return status == PLM_STATUS_OK ? add_record(reader, record) : status;
}

/* Takes a record. Sets *out where it ends a dive; it is held for the next then. */
static enum plm_status take_record(struct plmi_reader *reader, struct plmi_row_values *record, struct plm_dive **out)
{
    bool numbered = reader->builder != NULL && other_number(reader, record);
    if (numbered) {
        reader->continuous = false;
        reader->in_force = (struct in_force){.setpoint_bar = (double)NAN};
    }
    enum plm_status status = hold_settings(reader, record);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (reader->builder == NULL) {
        return wait_or_begin(reader, record);
    }
    if (!numbered && !parted_by_surface(reader, record)) {
        return add_record(reader, record);
    }
    if (!numbered) {
        reader->continuous = true;
    }
    if (!reader->was_under && !numbered) { /* a long wait before the first dive */
        reader->partial = reader->partial || plm_dive_builder_info(reader->builder)->partial;
        plm_dive_builder_free(reader->builder);
        reader->builder = NULL;
        reader->dives--;
        return wait_or_begin(reader, record);
    }
    status = finish_dive(reader, !numbered, out);
    hold_record(reader, record);
    if (numbered || record->sample.depth_m >= surface_limit_m(reader)) {
        /* It is the first row of the next dive, not a wait for it. */
        reader->has_held = false;
        enum plm_status begun = begin_dive(reader, record);
        begun = begun == PLM_STATUS_OK ? add_record(reader, record) : begun;
        if (begun != PLM_STATUS_OK) {
            return begun;
        }
    }
    return status == PLM_STATUS_INPUT ? PLM_STATUS_OK : status;
}

/* Whether a row is no data: a comment, or the header once more. */
static bool passed_over(const struct plmi_reader *reader, const struct plmi_row *row)
{
    const struct plmi_table_plan *plan = &reader->plan;
    if (row->line <= reader->skip_to_line || row->cells[0][0] == '#') {
        return true;
    }
    if (plan->head.header == PLMI_NO_ROW) {
        return false;
    }
    const struct plmi_head_row *header = &plan->head.rows[plan->head.header];
    size_t at = plmi_plan_depth_column(plan)->index;
    return at < row->count && row->cells[at][0] != '\0' && strcmp(row->cells[at], plmi_head_cell(header, at)) == 0;
}

/* A depth that cannot be would begin and part dives before the builder drops it: the dive being read drops it at once,
 * or the next one. */
static enum plm_status drop_impossible(struct plmi_reader *reader, struct plmi_row_values *record)
{
    if (reader->builder != NULL && !other_number(reader, record)) {
        record->sample.time_ms = record->time_ms - reader->base_ms;
        return plm_dive_builder_sample(reader->builder, &record->sample);
    }
    record->sample.time_ms = record->time_ms;
    reader->partial = true;
    if (!plmi_early_keep(&reader->early, &record->sample)) {
        plmi_early_report(&record->sample, reader->options->rules, reader->diags);
    }
    return PLM_STATUS_OK;
}

static bool depth_possible(const struct plmi_reader *reader, const struct plmi_row_values *record)
{
    return record->sample.depth_m <= reader->options->rules->depth_max_m;
}

/* A record that can be added, or one that only changes settings. */
static bool usable(struct plmi_reader *reader, const struct plmi_row_values *record)
{
    if (record->has_time && record->has_depth) {
        tell_missing(reader);
        return depth_possible(reader, record);
    }
    if (record->unreadable) {
        return false;
    }
    if (record->has_depth) {
        reader->partial = true;
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_TIME_MISSING, (long)record->sample.line, 0,
                       "a row without time; dropped");
        return false;
    }
    if (record->events != NULL && record->has_time && reader->builder != NULL) {
        return false; /* a row of events alone */
    }
    if (reader->missing == 0) {
        reader->missing_from = (long)record->sample.line;
    }
    reader->missing++;
    reader->missing_to = (long)record->sample.line;
    return false;
}

static enum plm_status next_row(struct plmi_reader *reader, struct plm_dive **out)
{
    struct plmi_row row;
    struct plmi_row_values record;
    enum plm_status status = plmi_rows_next(reader->rows, &row);
    if (status != PLM_STATUS_OK || passed_over(reader, &row)) {
        return status;
    }
    status = plmi_row_values_read(&reader->rows_read, &row, &record);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (!usable(reader, &record)) {
        status = hold_settings(reader, &record);
        bool open = reader->builder != NULL;
        status = status == PLM_STATUS_OK && open ? tell_settings(reader, &record, record.sample.line) : status;
        if (status == PLM_STATUS_OK && record.has_time && record.has_depth) {
            status = drop_impossible(reader, &record);
        }
        return status == PLM_STATUS_OK && open && record.has_time ? add_events(reader, &record) : status;
    }
    return take_record(reader, &record, out);
}

/* The last dive, and whether the whole table gave any. */
static enum plm_status end_of_rows(struct plmi_reader *reader, struct plm_dive **out)
{
    if (reader->builder != NULL) {
        enum plm_status status = finish_dive(reader, false, out);
        if (status != PLM_STATUS_INPUT && (status != PLM_STATUS_OK || *out != NULL)) {
            return status;
        }
    }
    for (size_t i = 0; i < reader->early.count; i++) {
        plmi_early_report(&reader->early.samples[i], reader->options->rules, reader->diags);
    }
    reader->early.count = 0;
    if (reader->bob != NULL) { /* all that the record holds is a dive after all */
        *out = reader->bob;
        reader->bob = NULL;
        reader->dives++;
        reader->given++;
        return PLM_STATUS_OK;
    }
    if (reader->dives == 0) {
        tell_missing(reader);
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_EMPTY, 0, 0,
                       "the table holds no row with time and depth");
    }
    return reader->given > 0 ? PLM_STATUS_END : PLM_STATUS_INPUT;
}

static enum plm_status csv_next(struct plmi_reader *reader, struct plm_dive **out)
{
    *out = NULL;
    while (reader->stopped == PLM_STATUS_OK && *out == NULL) {
        reader->stopped = next_row(reader, out);
    }
    if (*out != NULL) {
        return PLM_STATUS_OK;
    }
    if (reader->stopped == PLM_STATUS_END) {
        return end_of_rows(reader, out);
    }
    return reader->stopped;
}

static void csv_free(struct plmi_reader *reader)
{
    plm_dive_builder_free(reader->builder);
    plm_dive_free(reader->bob);
    plmi_rows_free(reader->rows);
    plmi_table_plan_free(&reader->plan);
    free(reader);
}

static enum plm_status csv_open(struct plmi_reader **out, struct plm_source *source,
                                const struct plm_import_options *options, struct plmi_diags *diags)
{
    *out = NULL;
    struct plmi_reader *reader = calloc(1, sizeof *reader);
    if (reader == NULL) {
        return plmi_diags_no_memory(diags, 0, "to read the table");
    }
    reader->options = options;
    reader->diags = diags;
    reader->in_force.setpoint_bar = (double)NAN;
    enum plm_status status = plmi_table_plan_make(&reader->plan, source, options, diags);
    if (status == PLM_STATUS_OK) {
        const struct plmi_table_head *head = &reader->plan.head;
        reader->plan.verdict.format = plmi_format_csv.info.name;
        reader->plan.verdict.summary = plmi_format_csv.info.summary;
        reader->skip_to_line = head->data > 0 ? head->rows[head->data - 1].line : 0;
        reader->rows_read = (struct plmi_row_reader){.plan = &reader->plan, .diags = diags};
        status = plmi_rows_open(&reader->rows, source, &head->dialect, options->rules, diags);
    }
    if (status != PLM_STATUS_OK) {
        csv_free(reader);
        return status;
    }
    *out = reader;
    return PLM_STATUS_OK;
}

static int csv_dives(const struct plmi_reader *reader)
{
    return reader->dives;
}

static bool csv_partial(const struct plmi_reader *reader)
{
    bool failed = reader->stopped != PLM_STATUS_OK && reader->stopped != PLM_STATUS_END;
    bool open_partial = reader->builder != NULL && plm_dive_builder_info(reader->builder)->partial;
    return reader->partial || reader->plan.partial || reader->rows_read.partial || plmi_rows_partial(reader->rows) ||
           failed || open_partial;
}

static const struct plm_verdict *csv_verdict(const struct plmi_reader *reader)
{
    return &reader->plan.verdict;
}

const struct plmi_format plmi_format_csv = {
    .info = {"csv", "table of text with a row a sample", false},
    .probe = plmi_table_probe,
    .open = csv_open,
    .next = csv_next,
    .dives = csv_dives,
    .partial = csv_partial,
    .verdict = csv_verdict,
    .free = csv_free,
};
