/*
 * Finds the records of an exposure, as a frozen list.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/fields.h"

#include <stdlib.h>

struct plm_records {
    struct plmi_arena arena;
    struct plm_record *items;
    size_t count, capacity;
};

/* The columns of PLMI_RECORD_SQL. */
enum {
    EXPOSURE,
    SHA256,
    NAME,
    INDEX,
    RECORDER,
    CARD,
    RULES,
    STATED_DIVER,
    STATED_START,
    STATED_ZONE,
    STATED_SURFACE,
    STATED_ALTITUDE,
    STATED_WATER,
    STATED_COLUMNS,
    STATED_DATE_ORDER,
    STATED_INTERVAL,
    STATED_ZERO,
    START,
    OFFSET,
    DURATION,
    WET_FROM,
    WET_TO,
    COVERED,
    STEP,
    CELLS,
    GAS,
    BEST
};

static const struct plmi_field FIELDS[] = {
    {EXPOSURE, "exposure", PLMI_FIELD_INTEGER, 1, 9007199254740992.0, false},
    {SHA256, "log sha256", PLMI_FIELD_TEXT, 64, 64, false},
    {NAME, "log name", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, false},
    {INDEX, "log_index", PLMI_FIELD_INTEGER, 1, PLMI_COUNT_MAX, false},
    {RECORDER, "recorder", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {CARD, "card", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {RULES, "rules", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, false},
    {STATED_DIVER, "told_diver", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {STATED_START, "told_start", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {STATED_ZONE, "told_zone", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {STATED_SURFACE, "told_surface_bar", PLMI_FIELD_NUMBER, -PLMI_FIGURE_MAX, PLMI_FIGURE_MAX, true},
    {STATED_ALTITUDE, "told_altitude_m", PLMI_FIELD_NUMBER, -PLMI_FIGURE_MAX, PLMI_FIGURE_MAX, true},
    {STATED_WATER, "told_water_kg_m3", PLMI_FIELD_NUMBER, -PLMI_FIGURE_MAX, PLMI_FIGURE_MAX, true},
    {STATED_COLUMNS, "told_columns", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {STATED_DATE_ORDER, "told_date_order", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {STATED_INTERVAL, "told_interval_s", PLMI_FIELD_NUMBER, -PLMI_FIGURE_MAX, PLMI_FIGURE_MAX, true},
    {STATED_ZERO, "told_zero", PLMI_FIELD_INTEGER, 0, 1, false},
    PLMI_FIELDS_SPAN(START),
    {COVERED, "covered_s", PLMI_FIELD_NUMBER, 0, PLMI_FIGURE_MAX, false},
    {STEP, "step_s", PLMI_FIELD_NUMBER, 0, PLMI_FIGURE_MAX, false},
    {CELLS, "cells", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
    {GAS, "gas", PLMI_FIELD_INTEGER, 0, 1, false},
    {BEST, "best", PLMI_FIELD_INTEGER, 0, 1, false},
};

/* Whether a row can be read. */
static bool row_sound(struct plm_ledger *ledger, sqlite3_stmt *row)
{
    return plmi_ledger_fields_sound(ledger, row, FIELDS, sizeof FIELDS / sizeof FIELDS[0],
                                    sqlite3_column_int64(row, EXPOSURE));
}

static void read_stated(struct plm_records *records, sqlite3_stmt *row, struct plm_stated *stated, bool *failed)
{
    struct plmi_arena *arena = &records->arena;
    double interval_s = plmi_ledger_number(row, STATED_INTERVAL);
    *stated = (struct plm_stated){.diver = plmi_ledger_text(row, STATED_DIVER, arena, failed),
                                  .start = plmi_ledger_text(row, STATED_START, arena, failed),
                                  .zone = plmi_ledger_text(row, STATED_ZONE, arena, failed),
                                  .surface_bar = plmi_ledger_number(row, STATED_SURFACE),
                                  .altitude_m = plmi_ledger_number(row, STATED_ALTITUDE),
                                  .water_kg_m3 = plmi_ledger_number(row, STATED_WATER),
                                  .columns = plmi_ledger_text(row, STATED_COLUMNS, arena, failed),
                                  .date_order = plmi_ledger_text(row, STATED_DATE_ORDER, arena, failed),
                                  .interval_s = interval_s > 0 ? interval_s : 0,
                                  .zero_auto = sqlite3_column_int(row, STATED_ZERO) != 0};
}

static bool read_record(struct plm_records *records, sqlite3_stmt *row, struct plm_record *record)
{
    struct plmi_arena *arena = &records->arena;
    bool failed = false;
    *record = (struct plm_record){.exposure = sqlite3_column_int64(row, EXPOSURE),
                                  .log_sha256 = plmi_ledger_text(row, SHA256, arena, &failed),
                                  .log_name = plmi_ledger_text(row, NAME, arena, &failed),
                                  .log_index = sqlite3_column_int(row, INDEX),
                                  .recorder = plmi_ledger_text(row, RECORDER, arena, &failed),
                                  .card = plmi_ledger_text(row, CARD, arena, &failed),
                                  .rules = plmi_ledger_text(row, RULES, arena, &failed),
                                  .covered_s = plmi_ledger_number(row, COVERED),
                                  .step_s = plmi_ledger_number(row, STEP),
                                  .cells = (size_t)sqlite3_column_int64(row, CELLS),
                                  .gas = sqlite3_column_int(row, GAS) != 0,
                                  .best = sqlite3_column_int(row, BEST) != 0};
    read_stated(records, row, &record->stated, &failed);
    record->span = (struct plm_dive_span){sqlite3_column_int64(row, START), sqlite3_column_int(row, OFFSET),
                                          sqlite3_column_int64(row, DURATION), sqlite3_column_int64(row, WET_FROM),
                                          sqlite3_column_int64(row, WET_TO)};
    return !failed;
}

static enum plm_status take_row(struct plm_ledger *ledger, struct plm_records *records, sqlite3_stmt *row)
{
    void *items = records->items;
    if (!row_sound(ledger, row)) {
        return PLM_STATUS_INPUT;
    }
    bool grown = plmi_array_grow(&items, &records->capacity, records->count, sizeof *records->items);
    records->items = items;
    if (!grown || !read_record(records, row, &records->items[records->count])) {
        return plmi_ledger_no_memory(ledger);
    }
    const struct plm_record *record = &records->items[records->count];
    if (record->log_sha256 == NULL || record->log_name == NULL || record->rules == NULL) {
        plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                       "what is stored of a record of dive %lld is damaged", (long long)record->exposure);
        return PLM_STATUS_INPUT;
    }
    records->count++;
    return PLM_STATUS_OK;
}

enum plm_status plm_ledger_records(struct plm_records **out, struct plm_ledger *ledger, int64_t exposure)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORDS);
    *out = NULL;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    struct plm_records *records = calloc(1, sizeof *records);
    enum plm_status status = records != NULL ? PLM_STATUS_OK : plmi_ledger_no_memory(ledger);
    int code = SQLITE_DONE;
    (void)sqlite3_bind_int64(row, 1, exposure);
    while (status == PLM_STATUS_OK && (code = sqlite3_step(row)) == SQLITE_ROW) {
        status = take_row(ledger, records, row);
    }
    if (status == PLM_STATUS_OK && code != SQLITE_DONE) {
        status = plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(row);
    if (status != PLM_STATUS_OK) {
        plm_records_free(records);
        records = NULL;
    }
    *out = records;
    return status;
}

enum plm_status plmi_ledger_check_records(struct plm_ledger *ledger)
{
    return plmi_ledger_check_rows(ledger, PLMI_STATEMENT_RECORDS_CHECK, row_sound);
}

const struct plm_record *plm_records_get(const struct plm_records *records, size_t *count)
{
    *count = records->count;
    return records->items;
}

void plm_records_free(struct plm_records *records)
{
    if (records == NULL) {
        return;
    }
    plmi_arena_free(&records->arena);
    free(records->items);
    free(records);
}
