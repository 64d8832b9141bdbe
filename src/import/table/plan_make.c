/*
 * Making the plan of a table: names first, then values, then what is left to say.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/plan_make.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "import/table/doubt.h"
#include "import/table/plan_time.h"
#include "import/table/stats.h"
#include "import/table/units_guess.h"
#include "import/table/verdict.h"
#include "import/table/zero.h"

static size_t widest(const struct plmi_table_plan *plan)
{
    size_t width = plan->head.header == PLMI_NO_ROW ? 0 : plan->head.rows[plan->head.header].count;
    for (size_t i = plan->head.data; i < plan->head.count && plan->head.header == PLMI_NO_ROW; i++) {
        width = plan->head.rows[i].count > width ? plan->head.rows[i].count : width;
    }
    return width;
}

/* The n-th of names parted by commas, without blanks around; "" behind the last. */
static const char *nth_name(struct plmi_table_plan *plan, const char *names, size_t n)
{
    for (; n > 0 && names != NULL; n--) {
        names = strchr(names, ',');
        names = names == NULL ? NULL : names + 1;
    }
    if (names == NULL) {
        return "";
    }
    names += strspn(names, " ");
    size_t length = strcspn(names, ",");
    while (length > 0 && names[length - 1] == ' ') {
        length--;
    }
    return plmi_plan_text(plan, "%.*s", (int)length, names);
}

static size_t name_count(const char *names)
{
    size_t count = 1;
    for (; *names != '\0'; names++) {
        count += *names == ',';
    }
    return count;
}

static void column_by_name(struct plmi_table_plan *plan, struct plmi_column *column, const char *units)
{
    struct plmi_header_cell cell = plmi_header_read(column->header);
    column->meaning = cell.meaning;
    column->unit = cell.unit;
    column->cell = cell.number;
    column->read = cell.meaning > PLMI_MEANING_OTHER;
    column->guessed = cell.unknown_words > 0 && column->read;
    column->named_in_part = column->guessed;
    column->unknown_unit = cell.unknown_unit[0] != '\0' ? plmi_plan_text(plan, "%s", cell.unknown_unit) : "";
    column->point = '.';
    column->evidence = !column->read ? "" : cell.unknown_words == 0 ? "the name says so" : "the name says so in part";
    if (cell.unknown_words > 2) {
        column->read = false;
        column->meaning = PLMI_MEANING_UNKNOWN;
    }
    const struct plmi_unit *named =
        column->unit == NULL && units[0] != '\0' && column->read ? plmi_header_unit(units, column->meaning) : NULL;
    if (named == NULL && column->unit == NULL && plmi_header_is_foreign_unit(units) && column->read) {
        column->unknown_unit = plmi_plan_text(plan, "%s", units);
    }
    if (named != NULL) {
        column->unknown_unit = "";
        column->unit = named;
        column->evidence = plmi_plan_text(plan, "%s, the row below names the unit", column->evidence);
        if (column->meaning == PLMI_MEANING_DEPTH && plmi_unit_dimension(named) == PLMI_DIMENSION_PRESSURE) {
            column->meaning = PLMI_MEANING_PRESSURE;
        }
    }
}

static enum plm_status make_columns(struct plmi_table_plan *plan, const char *names, struct plmi_diags *diags)
{
    static const struct plmi_head_row NO_ROW = {0};
    const struct plmi_head_row *header =
        plan->head.header == PLMI_NO_ROW ? &NO_ROW : &plan->head.rows[plan->head.header];
    const struct plmi_head_row *units = plan->head.units == PLMI_NO_ROW ? &NO_ROW : &plan->head.rows[plan->head.units];
    plan->count = widest(plan);
    if (names != NULL && name_count(names) > plan->count && plan->head.count > 0) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "--columns names %zu columns, the table has %zu",
                       name_count(names), plan->count);
        return PLM_STATUS_ARGUMENT;
    }
    plan->columns = calloc(plan->count + 1, sizeof *plan->columns);
    if (plan->columns == NULL) {
        return plmi_diags_no_memory(diags, 0, "for the columns");
    }
    for (size_t i = 0; i < plan->count; i++) {
        struct plmi_column *column = &plan->columns[i];
        column->index = i;
        column->header = names != NULL ? nth_name(plan, names, i) : plmi_head_cell(header, i);
        column_by_name(plan, column, names != NULL ? "" : plmi_head_cell(units, i));
        if (names != NULL && !plmi_cell_empty(column->header) && !plmi_text_same(column->header, "skip")) {
            column->evidence = "named by --columns";
            if (!column->read || column->guessed) {
                plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0,
                               "--columns: '%s' names no column that is read; time_s, depth_m, temp_c, mode, o2_frac, "
                               "he_frac, setpoint_bar, "
                               "po2_bar, cell1_bar and the like do, '-' leaves one out",
                               column->header);
                return PLM_STATUS_ARGUMENT;
            }
        }
    }
    return PLM_STATUS_OK;
}

/* Of several columns of one meaning the one whose name is wholly understood is read, else the first. Cells are
 * numbered. */
static void choose_columns(struct plmi_table_plan *plan)
{
    bool cells[PLM_CELLS] = {false};
    for (int m = 0; m < PLMI_MEANING_COUNT; m++) {
        plan->by_meaning[m] = PLMI_NO_COLUMN;
    }
    for (int sure = 1; sure >= 0; sure--) {
        for (size_t i = 0; i < plan->count; i++) {
            struct plmi_column *column = &plan->columns[i];
            if (!column->read || column->guessed == (sure == 1)) {
                continue;
            }
            if (column->meaning == PLMI_MEANING_CELL) {
                int number = column->cell >= 1 && column->cell <= PLM_CELLS ? column->cell - 1 : 0;
                while (number < PLM_CELLS && cells[number]) {
                    number++;
                }
                column->read = number < PLM_CELLS;
                column->cell = number;
                if (column->read) {
                    cells[number] = true;
                    plan->by_meaning[PLMI_MEANING_CELL] = i;
                }
            } else if (plan->by_meaning[column->meaning] == PLMI_NO_COLUMN) {
                plan->by_meaning[column->meaning] = i;
            } else {
                column->read = false;
                column->evidence =
                    plmi_plan_text(plan, "column %zu is read for it", plan->by_meaning[column->meaning] + 1);
            }
        }
    }
}

/* A pressure beside a depth is a tank's, or says the same again. */
static void settle_depth(struct plmi_table_plan *plan)
{
    struct plmi_column *pressure = plmi_plan_column(plan, PLMI_MEANING_PRESSURE);
    if (pressure != NULL && plmi_plan_column(plan, PLMI_MEANING_DEPTH) != NULL) {
        pressure->read = false;
        pressure->evidence = "there is a column of depth";
        plan->by_meaning[PLMI_MEANING_PRESSURE] = PLMI_NO_COLUMN;
    }
}

static const char *names_of(struct plmi_table_plan *plan, bool read)
{
    const char *all = "";
    for (size_t i = 0; i < plan->count; i++) {
        const struct plmi_column *column = &plan->columns[i];
        if (column->read == read && !(plmi_cell_empty(column->header) && !read)) {
            all = plmi_plan_text(plan, "%s%s%s (column %zu)", all, all[0] == '\0' ? "" : ", ", column->header, i + 1);
        }
    }
    return all;
}

static enum plm_status check_needed(struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    bool when = plan->time_kind != PLMI_TIME_KIND_INTERVAL || plan->interval_s > 0;
    if (plmi_plan_depth_column(plan) == NULL) {
        const char *read = names_of(plan, true);
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_COLUMN_MISSING, plmi_plan_header_line(plan), 0,
                       "no column of depth; understood: %s; not understood: %s (--columns names them by hand)",
                       read[0] == '\0' ? "nothing" : read, names_of(plan, false));
        return PLM_STATUS_INPUT;
    }
    if (!when) {
        plmi_diags_add(
            diags, PLM_LEVEL_ERROR, PLM_DIAG_COLUMN_MISSING, plmi_plan_header_line(plan), 0,
            "no column of time; --columns names one by hand, --interval 10s says that a row stands for every 10 s");
        return PLM_STATUS_INPUT;
    }
    return PLM_STATUS_OK;
}

static void tell_columns(struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    const char *left_out = names_of(plan, false);
    if (left_out[0] != '\0') {
        plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_COLUMN_IGNORED, plmi_plan_header_line(plan), 0, "not read: %s",
                       left_out);
    }
    for (size_t i = 0; i < plan->count; i++) {
        const struct plmi_column *column = &plan->columns[i];
        if (column->read && column->guessed && column->unit == NULL) {
            plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_COLUMN_GUESSED, plmi_plan_header_line(plan), 0,
                           "column %zu, '%s', is taken as %s: %s", i + 1, column->header,
                           plmi_meaning_info(column->meaning)->name, column->evidence);
        }
    }
}

static enum plm_status check_header(const struct plmi_table_plan *plan, const char *names, struct plmi_diags *diags)
{
    if (plan->head.header != PLMI_NO_ROW || names != NULL) {
        return PLM_STATUS_OK;
    }
    const struct plmi_head_row *row = &plan->head.rows[0];
    plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_CSV_HEADER, row->line, 0,
                   "no header row is understood (the first row begins with '%.40s'); name the columns: --columns "
                   "time_s,depth_m,...",
                   plmi_head_cell(row, 0));
    return PLM_STATUS_INPUT;
}

/* More cells than names in most rows: the names cannot be those of the cells. */
static enum plm_status check_width(const struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    const struct plmi_table_head *head = &plan->head;
    size_t wide = 0;
    for (size_t i = head->data; i < head->count; i++) {
        size_t filled = head->rows[i].count;
        while (filled > plan->count && head->rows[i].cells[filled - 1][0] == '\0') {
            filled--;
        }
        wide += filled > plan->count;
    }
    if (wide == 0 || wide * 2 <= head->count - head->data) {
        return PLM_STATUS_OK;
    }
    plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_CSV_COLUMNS, head->rows[head->data].line, 0,
                   "%zu of the first %zu rows have more cells than the header has names; are commas decimal signs and "
                   "separators at once?",
                   wide, head->count - head->data);
    return PLM_STATUS_INPUT;
}

/* How the table is written, as facts. */
static void dialect_facts(struct plmi_table_plan *plan)
{
    const struct plmi_table_head *head = &plan->head;
    char separator = head->dialect.separator;
    plmi_plan_fact(plan, "Text", head->encoding, "the first bytes");
    plmi_plan_fact(plan, "Separator",
                   separator == ','    ? "comma"
                   : separator == ';'  ? "semicolon"
                   : separator == '\t' ? "tab"
                                       : "bar |",
                   "it parts the first rows most evenly");
    if (head->header != PLMI_NO_ROW) {
        plmi_plan_fact(plan, "Header row", plmi_plan_text(plan, "line %ld", plmi_plan_header_line(plan)),
                       "most of its cells are words for columns");
    }
    if (head->units != PLMI_NO_ROW) {
        plmi_plan_fact(plan, "Row of units", plmi_plan_text(plan, "line %ld", head->rows[head->units].line),
                       "its cells are units");
    }
}

/* Why there is not even a first row: what its reading reports, or that there is none. */
static enum plm_status tell_no_rows(const struct plmi_table_plan *plan, struct plm_source *source,
                                    const struct plm_rules *rules, struct plmi_diags *diags)
{
    struct plmi_rows *rows = NULL;
    struct plmi_row row;
    enum plm_status status = plmi_rows_open(&rows, source, &plan->head.dialect, rules, diags);
    if (status == PLM_STATUS_OK) {
        status = plmi_rows_next(rows, &row);
    }
    plmi_rows_free(rows);
    if (status == PLM_STATUS_OK || status == PLM_STATUS_END) {
        plmi_diags_add(diags, PLM_LEVEL_ERROR, PLM_DIAG_EMPTY, 0, 0, "the table has no rows");
        status = PLM_STATUS_INPUT;
    }
    return status;
}

enum plm_status plmi_table_plan_make(struct plmi_table_plan *plan, struct plm_source *source,
                                     const struct plm_import_options *options, struct plmi_diags *diags)
{
    *plan = (struct plmi_table_plan){0};
    plan->preamble.surface_bar = plan->preamble.altitude_m = plan->preamble.water_kg_m3 = (double)NAN;
    plan->preamble.gf_low_pct = plan->preamble.gf_high_pct = (double)NAN;
    plan->surface_bar = (double)NAN;
    enum plm_status status = plmi_table_head_read(&plan->head, source, options->rules, options->columns != NULL, diags);
    status =
        status == PLM_STATUS_OK && plan->head.count == 0 ? tell_no_rows(plan, source, options->rules, diags) : status;
    status = status == PLM_STATUS_OK ? check_header(plan, options->columns, diags) : status;
    status = status == PLM_STATUS_OK ? make_columns(plan, options->columns, diags) : status;
    if (status != PLM_STATUS_OK) {
        return status;
    }
    status = check_width(plan, diags);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    dialect_facts(plan);
    plmi_plan_doubt(plan, diags);
    choose_columns(plan);
    plmi_plan_points(plan);
    plmi_plan_time(plan, options, diags);
    settle_depth(plan);
    status = check_needed(plan, diags);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    status = plmi_plan_units(plan, options->rules, diags);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plmi_plan_zero(plan, options, diags);
    tell_columns(plan, diags);
    if (!plmi_table_verdict(plan)) {
        return plmi_diags_no_memory(diags, 0, "for the verdict");
    }
    return PLM_STATUS_OK;
}

void plmi_table_plan_free(struct plmi_table_plan *plan)
{
    free(plan->columns);
    free(plan->facts);
    free((void *)(uintptr_t)plan->verdict.columns);
    plmi_table_head_free(&plan->head);
}
