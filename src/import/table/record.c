/*
 * Rows into records: one reader per meaning, in a table.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/record.h"

#include <math.h>
#include <string.h>

#include "import/format/breathing.h"

#define DAY_MS INT64_C(86400000)

/* A cell at its place. */
struct place {
    const char *text;
    size_t n;
    long line, column;
};

typedef enum plm_status (*read_cell)(struct plmi_row_reader *reader, struct plmi_column *column,
                                     const struct place *cell, struct plmi_row_values *record);

static void tell(struct plmi_row_reader *reader, enum plm_diag_id id, const struct place *cell, const char *what,
                 const char *done)
{
    reader->partial = true;
    plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, id, cell->line, cell->column, "'%.40s' is no %s; %s", cell->text,
                   what, done);
}

/* The number of a cell in our unit. A column without a fraction so far may still show that its point is the other one.
 */
static bool number(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell, double *value,
                   const char *done)
{
    bool fits = plmi_column_number(column, cell->text, cell->n, value);
    if (!fits && !column->point_known) {
        column->point = column->point == '.' ? ',' : '.';
        fits = plmi_column_number(column, cell->text, cell->n, value);
        column->point_known = fits;
    }
    if (!fits) {
        tell(reader, PLM_DIAG_NUMBER, cell, "number", done);
    }
    return fits;
}

static bool measured(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                     double *value)
{
    double raw;
    if (!number(reader, column, cell, &raw, "value dropped")) {
        return false;
    }
    *value = column->unit == NULL ? raw : plmi_unit_convert(column->unit, raw);
    return true;
}

static enum plm_status read_depth(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                  struct plmi_row_values *record)
{
    double value;
    if (number(reader, column, cell, &value, "row dropped")) {
        record->sample.depth_m =
            plmi_plan_depth_m(reader->plan, column, value) - (reader->plan->zero_applied ? reader->plan->zero_m : 0);
        record->has_depth = true;
    }
    record->unreadable = record->unreadable || !record->has_depth;
    return PLM_STATUS_OK;
}

static enum plm_status read_temp(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                 struct plmi_row_values *record)
{
    const double grain = 1e6; /* so that 283.15 K and 10 C are one double */
    double value;
    if (measured(reader, column, cell, &value)) {
        record->sample.temp_c = nearbyint(value * grain) / grain;
    }
    return PLM_STATUS_OK;
}

static enum plm_status read_mode(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                 struct plmi_row_values *record)
{
    bool apnoe = false;
    (void)column;
    record->has_mode = plmi_mode_parse(cell->text, &record->mode, &apnoe);
    if (!record->has_mode) {
        tell(reader, PLM_DIAG_MODE, cell, "breathing mode that is known", "the mode before stays in force");
    } else if (apnoe) {
        tell(reader, PLM_DIAG_MODE, cell, "mode that the model knows", "open circuit taken");
    }
    return PLM_STATUS_OK;
}

static enum plm_status read_o2(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                               struct plmi_row_values *record)
{
    record->has_o2 = measured(reader, column, cell, &record->o2_frac);
    return PLM_STATUS_OK;
}

static enum plm_status read_he(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                               struct plmi_row_values *record)
{
    record->has_he = measured(reader, column, cell, &record->he_frac);
    return PLM_STATUS_OK;
}

static enum plm_status read_gas(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                struct plmi_row_values *record)
{
    bool named = plmi_mix_name_parse(cell->text, &record->o2_frac, &record->he_frac);
    if (!named && column->named_in_part) {
        column->read = false;
        tell(reader, PLM_DIAG_MIX_UNKNOWN, cell, "mix",
             "the column, taken for mixes by a part of its name, is read no further");
        return PLM_STATUS_OK;
    }
    if (!named) {
        plmi_diags_add(reader->diags, PLM_LEVEL_ERROR, PLM_DIAG_MIX_UNKNOWN, cell->line, cell->column,
                       "'%.40s' names no mix (air, oxygen, nitrox 32, 18/45 and the like do); leave the column out "
                       "with --columns and tell the "
                       "mixes in a dive card",
                       cell->text);
        return PLM_STATUS_INPUT;
    }
    record->has_o2 = true;
    record->has_he = true;
    return PLM_STATUS_OK;
}

static enum plm_status read_setpoint(struct plmi_row_reader *reader, struct plmi_column *column,
                                     const struct place *cell, struct plmi_row_values *record)
{
    record->has_setpoint = measured(reader, column, cell, &record->setpoint_bar);
    return PLM_STATUS_OK;
}

static enum plm_status read_po2(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                struct plmi_row_values *record)
{
    (void)measured(reader, column, cell, &record->sample.po2_bar);
    return PLM_STATUS_OK;
}

static enum plm_status read_loop_cell(struct plmi_row_reader *reader, struct plmi_column *column,
                                      const struct place *cell, struct plmi_row_values *record)
{
    (void)measured(reader, column, cell, &record->sample.cell_bar[column->cell]);
    return PLM_STATUS_OK;
}

/* FNV-1a; its constants are those of draft-eastlake-fnv. */
static uint64_t hash(const char *text)
{
    uint64_t value = UINT64_C(14695981039346656037);
    for (; *text != '\0'; text++) {
        value = (value ^ (unsigned char)*text) * UINT64_C(1099511628211);
    }
    return value;
}

static enum plm_status read_dive(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                 struct plmi_row_values *record)
{
    (void)column;
    size_t n = plmi_text_head(cell->text, sizeof record->dive - 1);
    memcpy(record->dive, cell->text, n);
    record->dive[n] = '\0';
    record->dive_hash = hash(cell->text);
    if (n < cell->n) {
        reader->partial = true;
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_LIMIT, cell->line, cell->column,
                       "the number of a dive is longer than %zu bytes; cut for show", sizeof record->dive - 1);
    }
    return PLM_STATUS_OK;
}

static enum plm_status read_events(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                   struct plmi_row_values *record)
{
    (void)reader;
    (void)column;
    record->events = cell->text;
    return PLM_STATUS_OK;
}

static enum plm_status read_time(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                 struct plmi_row_values *record)
{
    const double longest_ms = 4e12; /* more than a century */
    double value;
    if (reader->plan->time_kind == PLMI_TIME_KIND_ELAPSED) {
        record->has_time = plmi_elapsed_parse(cell->text, reader->plan->hour_min, &record->time_ms);
        if (!record->has_time) {
            tell(reader, PLM_DIAG_STAMP, cell, "time with colons", "row dropped");
        }
    } else if (reader->plan->time_kind != PLMI_TIME_KIND_NUMBER) {
        return PLM_STATUS_OK;
    } else if (number(reader, column, cell, &value, "row dropped")) {
        double time_ms = plmi_unit_convert(column->unit, value) * 1000.0;
        record->has_time = fabs(time_ms) < longest_ms;
        record->time_ms = record->has_time ? llround(time_ms) : 0;
        if (!record->has_time) {
            tell(reader, PLM_DIAG_RANGE, cell, "time that can be", "row dropped");
        }
    }
    record->unreadable = record->unreadable || !record->has_time;
    return PLM_STATUS_OK;
}

/* A clock that falls by more than half a day has passed midnight. */
static int64_t over_midnight(struct plmi_row_reader *reader, int64_t clock_ms)
{
    int64_t now_ms = clock_ms + reader->carry_ms;
    if (reader->clock_seen && reader->last_clock_ms - now_ms > DAY_MS / 2) {
        reader->carry_ms += DAY_MS;
        now_ms += DAY_MS;
    }
    reader->clock_seen = true;
    reader->last_clock_ms = now_ms;
    return now_ms;
}

static enum plm_status read_date(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                 struct plmi_row_values *record)
{
    int64_t days;
    (void)column;
    (void)record;
    if (strcmp(reader->date, cell->text) == 0) {
        return PLM_STATUS_OK;
    }
    if (cell->n >= sizeof reader->date || !plmi_date_parse(cell->text, reader->plan->date_order, &days)) {
        tell(reader, PLM_DIAG_STAMP, cell, "date", "the date before is kept");
        return PLM_STATUS_OK;
    }
    memcpy(reader->date, cell->text, cell->n + 1);
    reader->date_ms = days * DAY_MS;
    reader->carry_ms = 0;
    return PLM_STATUS_OK;
}

static enum plm_status read_clock(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                  struct plmi_row_values *record)
{
    int64_t day_ms;
    bool needed = reader->plan->time_kind == PLMI_TIME_KIND_CLOCK;
    (void)column;
    if (!needed && reader->clock_seen) {
        return PLM_STATUS_OK; /* only the first tells the start */
    }
    if (!plmi_daytime_parse(cell->text, &day_ms)) {
        tell(reader, PLM_DIAG_STAMP, cell, "time of day", needed ? "row dropped" : "value dropped");
        record->unreadable = true;
        return PLM_STATUS_OK;
    }
    int64_t now_ms = over_midnight(reader, reader->date_ms + day_ms);
    if (needed) {
        record->has_time = true;
        record->time_ms = now_ms;
    }
    return PLM_STATUS_OK;
}

static enum plm_status read_stamp(struct plmi_row_reader *reader, struct plmi_column *column, const struct place *cell,
                                  struct plmi_row_values *record)
{
    struct plm_stamp stamp;
    bool needed = reader->plan->time_kind == PLMI_TIME_KIND_STAMP;
    (void)column;
    if (!needed && reader->clock_seen) {
        return PLM_STATUS_OK;
    }
    if (!plmi_stamp_parse(cell->text, reader->plan->date_order, &stamp)) {
        tell(reader, PLM_DIAG_STAMP, cell, "date and time", needed ? "row dropped" : "value dropped");
        record->unreadable = true;
        return PLM_STATUS_OK;
    }
    if (stamp.has_zone && !reader->zone_seen && !reader->clock_seen) {
        reader->zone_seen = true;
        reader->offset_min = stamp.offset_min;
    }
    if (stamp.has_zone && reader->zone_seen) {
        /* A change of zone within a record is no jump in time. */
        stamp.local_ms += (int64_t)(reader->offset_min - stamp.offset_min) * 60000;
    }
    reader->clock_seen = true;
    reader->last_clock_ms = stamp.local_ms;
    if (needed) {
        record->has_time = true;
        record->time_ms = stamp.local_ms;
    }
    return PLM_STATUS_OK;
}

static const read_cell READERS[PLMI_MEANING_COUNT] = {
    [PLMI_MEANING_TIME] = read_time,   [PLMI_MEANING_DATE] = read_date,
    [PLMI_MEANING_CLOCK] = read_clock, [PLMI_MEANING_DATE_CLOCK] = read_stamp,
    [PLMI_MEANING_DEPTH] = read_depth, [PLMI_MEANING_PRESSURE] = read_depth,
    [PLMI_MEANING_TEMP] = read_temp,   [PLMI_MEANING_MODE] = read_mode,
    [PLMI_MEANING_O2] = read_o2,       [PLMI_MEANING_HE] = read_he,
    [PLMI_MEANING_GAS] = read_gas,     [PLMI_MEANING_SETPOINT] = read_setpoint,
    [PLMI_MEANING_PO2] = read_po2,     [PLMI_MEANING_CELL] = read_loop_cell,
    [PLMI_MEANING_DIVE] = read_dive,   [PLMI_MEANING_EVENTS] = read_events,
};

static void record_init(struct plmi_row_values *record, long line)
{
    *record = (struct plmi_row_values){0};
    record->sample.line = (uint32_t)line;
    record->sample.depth_m = record->sample.temp_c = record->sample.po2_bar = (double)NAN;
    for (size_t i = 0; i < PLM_CELLS; i++) {
        record->sample.cell_bar[i] = (double)NAN;
    }
}

/* Cells where the header has none, or none where it has some. */
static void check_width(struct plmi_row_reader *reader, const struct plmi_row *row)
{
    size_t width = reader->plan->count;
    size_t filled = row->count;
    while (filled > width && row->cells[filled - 1][0] == '\0') {
        filled--;
    }
    if (filled > width) {
        reader->partial = true;
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_CSV_COLUMNS, row->line, row->columns[width],
                       "the row has %zu cells, the table %zu columns; the cells behind are dropped", filled, width);
    }
}

enum plm_status plmi_row_values_read(struct plmi_row_reader *reader, const struct plmi_row *row,
                                     struct plmi_row_values *record)
{
    struct plmi_table_plan *plan = reader->plan;
    enum plm_status status = PLM_STATUS_OK;
    record_init(record, row->line);
    if (row->count > plan->count) {
        check_width(reader, row);
    }
    /* a date before its clock */
    for (size_t order = plmi_plan_column(plan, PLMI_MEANING_DATE) == NULL ? 1 : 0; order < 2; order++) {
        for (size_t i = 0; i < plan->count && i < row->count && status == PLM_STATUS_OK; i++) {
            struct plmi_column *column = &plan->columns[i];
            bool date = column->meaning == PLMI_MEANING_DATE;
            if (column->read && date == (order == 0) && !plmi_cell_empty(row->cells[i])) {
                struct place cell = {row->cells[i], row->lengths[i], row->line, row->columns[i]};
                status = READERS[column->meaning](reader, column, &cell, record);
            }
        }
    }
    if (plan->time_kind == PLMI_TIME_KIND_INTERVAL) {
        record->has_time = true;
        record->time_ms = llround((double)reader->rows * plan->interval_s * 1000.0);
    }
    reader->rows++;
    return status;
}
