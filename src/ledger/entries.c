/*
 * Finds exposures with their figures, as frozen lists.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/fields.h"

#include <stdlib.h>
#include <string.h>

/* Three days without a dive hold a whole local day without one, wherever the dives were. */
#define APART_MS (INT64_C(3) * 86400000)
#define DAY_MS   INT64_C(86400000)

struct plm_entries {
    struct plmi_arena arena;
    struct plm_entry *items;
    size_t count, capacity;
    const char *rules;
};

/* The columns of PLMI_ENTRY_SQL. */
enum {
    ID,
    DIVER,
    START,
    OFFSET,
    DURATION,
    WET_FROM,
    WET_TO,
    SHA256,
    NAME,
    INDEX,
    RECORDS,
    FIGURES,
    PROGRAM,
    RULES,
    WORST,
    SERIOUS,
    CAUTION,
    NOTE,
    RUN_DAYS,
    START_BAR,
    END_BAR,
    NUMBERS
};

static const struct plmi_field ENTRY_FIELDS[] = {
    {ID, "id", PLMI_FIELD_INTEGER, 1, 9007199254740992.0, false},
    {DIVER, "diver", PLMI_FIELD_TEXT, 1, PLMI_TEXT_MAX, false},
    PLMI_FIELDS_SPAN(START),
    {SHA256, "log sha256", PLMI_FIELD_TEXT, 64, 64, false},
    {NAME, "log name", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, false},
    {INDEX, "log_index", PLMI_FIELD_INTEGER, 1, PLMI_COUNT_MAX, false},
    {RECORDS, "records", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
};

#define FIGURE(place, name)                                                                 \
    {                                                                                       \
        NUMBERS + (place), name, PLMI_FIELD_NUMBER, -PLMI_FIGURE_MAX, PLMI_FIGURE_MAX, true \
    }
static const struct plmi_field FIGURES_FIELDS[] = {
    {PROGRAM, "program", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, false},
    {RULES, "rules", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, false},
    {WORST, "worst", PLMI_FIELD_TEXT, 0, PLMI_TEXT_MAX, true},
    {SERIOUS, "serious", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
    {CAUTION, "caution", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
    {NOTE, "note", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
    {RUN_DAYS, "otu_run_days", PLMI_FIELD_INTEGER, 0, PLMI_COUNT_MAX, false},
    {START_BAR, "start_bar", PLMI_FIELD_TISSUE, PLMI_TENSION_MIN_BAR, PLMI_TENSION_MAX_BAR, false},
    {END_BAR, "end_bar", PLMI_FIELD_TISSUE, PLMI_TENSION_MIN_BAR, PLMI_TENSION_MAX_BAR, false},
    FIGURE(0, "surface_bar"),
    FIGURE(1, "max_depth_m"),
    FIGURE(2, "mean_depth_m"),
    FIGURE(3, "surfacing_gradient_pct"),
    FIGURE(4, "peak_gradient_pct"),
    FIGURE(5, "max_po2_bar"),
    FIGURE(6, "owed_min"),
    FIGURE(7, "done_min"),
    FIGURE(8, "cns_pct"),
    FIGURE(9, "cns_day_pct"),
    FIGURE(10, "otu"),
    FIGURE(11, "esot"),
    FIGURE(12, "surface_interval_s"),
    FIGURE(13, "cns_start_pct"),
    FIGURE(14, "cns_day_before_pct"),
    FIGURE(15, "otu_before"),
    FIGURE(16, "esot_before"),
    FIGURE(17, "otu_run"),
    FIGURE(18, "start_anchor_bar"),
    FIGURE(19, "end_anchor_bar"),
    FIGURE(20, "cns_beyond_min"),
    FIGURE(21, "cns_beyond_before_min"),
};

/* Whether a row can be read. */
static bool row_sound(struct plm_ledger *ledger, sqlite3_stmt *row)
{
    int64_t id = sqlite3_column_int64(row, ID);
    bool entry = plmi_ledger_fields_sound(ledger, row, ENTRY_FIELDS, sizeof ENTRY_FIELDS / sizeof ENTRY_FIELDS[0], id);
    if (sqlite3_column_type(row, FIGURES) == SQLITE_NULL) {
        return entry;
    }
    return plmi_ledger_fields_sound(ledger, row, FIGURES_FIELDS, sizeof FIGURES_FIELDS / sizeof FIGURES_FIELDS[0],
                                    id) &&
           entry;
}

/* A rules text that many entries share is kept once. */
static const char *read_rules(struct plm_entries *entries, sqlite3_stmt *row, bool *failed)
{
    const char *text = (const char *)sqlite3_column_text(row, RULES);
    if (text != NULL && entries->rules != NULL && strcmp(text, entries->rules) == 0) {
        return entries->rules;
    }
    entries->rules = plmi_ledger_text(row, RULES, &entries->arena, failed);
    return entries->rules;
}

/* Returns: false where the stored tensions are not whole. */
static bool read_tissue(sqlite3_stmt *row, int column, struct plm_tissue *tissue)
{
    const void *bytes = sqlite3_column_blob(row, column);
    if (bytes == NULL || sqlite3_column_bytes(row, column) != PLMI_TISSUE_BYTES) {
        return false;
    }
    plmi_tissue_unpack(tissue, bytes);
    return true;
}

/* Returns: false where what is stored is not whole. */
static bool read_figures(struct plm_entries *entries, sqlite3_stmt *row, struct plm_figures *figures, bool *failed)
{
    double *const numbers[] = {&figures->surface_bar,
                               &figures->max_depth_m,
                               &figures->mean_depth_m,
                               &figures->surfacing_gradient_pct,
                               &figures->peak_gradient_pct,
                               &figures->max_po2_bar,
                               &figures->owed_min,
                               &figures->done_min,
                               &figures->cns_pct,
                               &figures->cns_day_pct,
                               &figures->otu,
                               &figures->esot,
                               &figures->surface_interval_s,
                               &figures->cns_start_pct,
                               &figures->cns_day_before_pct,
                               &figures->otu_before,
                               &figures->esot_before,
                               &figures->otu_run,
                               &figures->start_anchor_bar,
                               &figures->end_anchor_bar,
                               &figures->cns_beyond_min,
                               &figures->cns_beyond_before_min};
    figures->program = plmi_ledger_text(row, PROGRAM, &entries->arena, failed);
    figures->rules = read_rules(entries, row, failed);
    figures->worst = plmi_ledger_text(row, WORST, &entries->arena, failed);
    figures->serious = (size_t)sqlite3_column_int64(row, SERIOUS);
    figures->caution = (size_t)sqlite3_column_int64(row, CAUTION);
    figures->note = (size_t)sqlite3_column_int64(row, NOTE);
    figures->otu_run_days = sqlite3_column_int(row, RUN_DAYS);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        *numbers[i] = plmi_ledger_number(row, NUMBERS + (int)i);
    }
    return read_tissue(row, START_BAR, &figures->start) && read_tissue(row, END_BAR, &figures->end) &&
           (*failed || (figures->program != NULL && figures->rules != NULL));
}

static bool read_entry(struct plm_entries *entries, sqlite3_stmt *row, struct plm_entry *entry, bool *failed)
{
    struct plm_exposure *exposure = &entry->exposure;
    memset(entry, 0, sizeof *entry);
    exposure->id = sqlite3_column_int64(row, ID);
    exposure->diver = plmi_ledger_text(row, DIVER, &entries->arena, failed);
    exposure->span = (struct plm_dive_span){sqlite3_column_int64(row, START), sqlite3_column_int(row, OFFSET),
                                            sqlite3_column_int64(row, DURATION), sqlite3_column_int64(row, WET_FROM),
                                            sqlite3_column_int64(row, WET_TO)};
    exposure->log_sha256 = plmi_ledger_text(row, SHA256, &entries->arena, failed);
    exposure->log_name = plmi_ledger_text(row, NAME, &entries->arena, failed);
    exposure->log_index = sqlite3_column_int(row, INDEX);
    exposure->record_count = (size_t)sqlite3_column_int64(row, RECORDS);
    entry->has_figures = sqlite3_column_type(row, FIGURES) != SQLITE_NULL;
    if (entry->has_figures && !read_figures(entries, row, &entry->figures, failed)) {
        return false;
    }
    return *failed || (exposure->diver != NULL && exposure->log_sha256 != NULL && exposure->log_name != NULL);
}

static enum plm_status take_row(struct plm_ledger *ledger, struct plm_entries *entries, sqlite3_stmt *row)
{
    void *items = entries->items;
    bool failed = !plmi_array_grow(&items, &entries->capacity, entries->count, sizeof *entries->items);
    entries->items = items;
    if (failed) {
        return plmi_ledger_no_memory(ledger);
    }
    if (!row_sound(ledger, row)) {
        return PLM_STATUS_INPUT;
    }
    bool whole = read_entry(entries, row, &entries->items[entries->count], &failed);
    if (failed) {
        return plmi_ledger_no_memory(ledger);
    }
    if (!whole) {
        plmi_diags_add(
            &ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
            "what is stored of dive %lld is damaged; keep a copy of the file, remove the dive and add its log again",
            (long long)sqlite3_column_int64(row, ID));
        return PLM_STATUS_INPUT;
    }
    entries->count++;
    return PLM_STATUS_OK;
}

/* Behind this row, read last, only what is too long ago to count. */
static bool far_apart(const struct plm_entries *entries)
{
    size_t n = entries->count;
    return n >= 2 && plm_span_down_utc_ms(&entries->items[n - 2].exposure.span) -
                             plm_span_down_utc_ms(&entries->items[n - 1].exposure.span) >
                         APART_MS;
}

/* How far back rows are read that come newest first: until they are far apart, or one had left the water a day before
 * the dive at down_utc_ms. */
enum reach { REACH_ALL, REACH_RUN, REACH_DAY };

static bool reached(const struct plm_entries *entries, enum reach reach, int64_t down_utc_ms)
{
    if (reach == REACH_RUN) {
        return far_apart(entries);
    }
    return reach == REACH_DAY && entries->count > 0 &&
           down_utc_ms - plm_span_up_utc_ms(&entries->items[entries->count - 1].exposure.span) >= DAY_MS;
}

/* All rows of a bound statement, as far as they are wanted. */
static enum plm_status take_rows(struct plm_entries **out, struct plm_ledger *ledger, sqlite3_stmt *row,
                                 enum reach reach, int64_t down_utc_ms)
{
    struct plm_entries *entries = calloc(1, sizeof *entries);
    enum plm_status status = entries != NULL ? PLM_STATUS_OK : plmi_ledger_no_memory(ledger);
    int code = SQLITE_DONE;
    while (status == PLM_STATUS_OK && !reached(entries, reach, down_utc_ms) &&
           (code = sqlite3_step(row)) == SQLITE_ROW) {
        status = take_row(ledger, entries, row);
    }
    if (status == PLM_STATUS_OK && code != SQLITE_DONE && code != SQLITE_ROW) {
        status = plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(row);
    if (status != PLM_STATUS_OK) {
        plm_entries_free(entries);
        entries = NULL;
    }
    *out = entries;
    return status;
}

enum plm_status plm_ledger_entries(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                   int64_t from_utc_ms, int64_t to_utc_ms)
{
    sqlite3_stmt *row =
        plmi_ledger_statement(ledger, diver != NULL ? PLMI_STATEMENT_ENTRIES_OF : PLMI_STATEMENT_ENTRIES_ALL);
    *out = NULL;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    enum plm_status status = diver != NULL ? plmi_ledger_bind_diver(ledger, row, 1, diver) : PLM_STATUS_OK;
    if (status != PLM_STATUS_OK) {
        return status;
    }
    (void)sqlite3_bind_int64(row, 2, from_utc_ms);
    (void)sqlite3_bind_int64(row, 3, to_utc_ms);
    return take_rows(out, ledger, row, REACH_ALL, 0);
}

enum plm_status plm_ledger_entry(struct plm_entries **out, struct plm_ledger *ledger, int64_t exposure)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_ENTRY);
    *out = NULL;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(row, 1, exposure);
    return take_rows(out, ledger, row, REACH_ALL, 0);
}

/* Those before a dive, oldest first. */
static enum plm_status entries_back(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                    int64_t down_utc_ms, enum reach reach)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_ENTRIES_BEFORE);
    *out = NULL;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    enum plm_status status = plmi_ledger_bind_diver(ledger, row, 1, diver);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    (void)sqlite3_bind_int64(row, 2, down_utc_ms);
    status = take_rows(out, ledger, row, reach, down_utc_ms);
    struct plm_entries *entries = *out;
    for (size_t i = 0; entries != NULL && i < entries->count / 2; i++) {
        struct plm_entry swap = entries->items[i];
        entries->items[i] = entries->items[entries->count - 1 - i];
        entries->items[entries->count - 1 - i] = swap;
    }
    return status;
}

enum plm_status plm_ledger_entries_before(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                          int64_t down_utc_ms)
{
    return entries_back(out, ledger, diver, down_utc_ms, REACH_RUN);
}

enum plm_status plm_ledger_entries_recent(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                          int64_t down_utc_ms)
{
    return entries_back(out, ledger, diver, down_utc_ms, REACH_DAY);
}

/* All rows of a statement that asks for a diver and two numbers more. */
static enum plm_status entries_by(struct plm_entries **out, struct plm_ledger *ledger, enum plmi_statement statement,
                                  const char *diver, int64_t second, int64_t third)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, statement);
    *out = NULL;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    enum plm_status status = plmi_ledger_bind_diver(ledger, row, 1, diver);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    (void)sqlite3_bind_int64(row, 2, second);
    (void)sqlite3_bind_int64(row, 3, third);
    return take_rows(out, ledger, row, REACH_ALL, 0);
}

enum plm_status plm_ledger_entry_behind(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                        int64_t down_utc_ms, int64_t exposure)
{
    return entries_by(out, ledger, PLMI_STATEMENT_ENTRY_BEHIND, diver, down_utc_ms, exposure);
}

enum plm_status plm_ledger_entries_wet(struct plm_entries **out, struct plm_ledger *ledger, const char *diver,
                                       int64_t from_utc_ms, int64_t to_utc_ms)
{
    return entries_by(out, ledger, PLMI_STATEMENT_ENTRIES_WET, diver, from_utc_ms, to_utc_ms);
}

enum plm_status plmi_ledger_check_entries(struct plm_ledger *ledger)
{
    return plmi_ledger_check_rows(ledger, PLMI_STATEMENT_ENTRIES_CHECK, row_sound);
}

const struct plm_entry *plm_entries_get(const struct plm_entries *entries, size_t *count)
{
    *count = entries->count;
    return entries->items;
}

void plm_entries_free(struct plm_entries *entries)
{
    if (entries == NULL) {
        return;
    }
    plmi_arena_free(&entries->arena);
    free(entries->items);
    free(entries);
}
