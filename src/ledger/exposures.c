/*
 * Exposures, records and figures: put in and taken out. Tensions are stored as 32 doubles in the byte order of x86-64.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <string.h>

#define TENSIONS (2 * PLM_COMPARTMENTS)

static void tissue_pack(unsigned char bytes[8 * TENSIONS], const struct plm_tissue *tissue)
{
    for (int i = 0; i < TENSIONS; i++) {
        double value = i < PLM_COMPARTMENTS ? tissue->n2_bar[i] : tissue->he_bar[i - PLM_COMPARTMENTS];
        uint64_t bits;
        memcpy(&bits, &value, sizeof bits);
        for (int k = 0; k < 8; k++)
            bytes[8 * i + k] = (unsigned char)(bits >> (8 * k));
    }
}

static void tissue_unpack(struct plm_tissue *tissue, const unsigned char *bytes)
{
    for (int i = 0; i < TENSIONS; i++) {
        uint64_t bits = 0;
        double value;
        for (int k = 0; k < 8; k++)
            bits |= (uint64_t)bytes[8 * i + k] << (8 * k);
        memcpy(&value, &bits, sizeof value);
        if (i < PLM_COMPARTMENTS)
            tissue->n2_bar[i] = value;
        else
            tissue->he_bar[i - PLM_COMPARTMENTS] = value;
    }
}

static void bind_exposure(sqlite3_stmt *statement, const struct plm_exposure *exposure)
{
    (void)sqlite3_bind_int64(statement, 2, exposure->start_utc_ms);
    (void)sqlite3_bind_int(statement, 3, exposure->offset_min);
    (void)sqlite3_bind_int64(statement, 4, exposure->duration_ms);
    plmi_ledger_bind_text(statement, 5, exposure->log_sha256);
    (void)sqlite3_bind_int(statement, 6, exposure->log_index);
}

enum plm_status plm_ledger_exposure_put(struct plm_ledger *ledger, struct plm_exposure *exposure)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVER_PUT);
    if (!statement)
        return PLM_STATUS_IO;
    plmi_ledger_bind_text(statement, 1, exposure->diver);
    enum plm_status status = plmi_ledger_run(ledger, statement);
    if (status != PLM_STATUS_OK || !(statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_EXPOSURE_PUT)))
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    plmi_ledger_bind_text(statement, 1, exposure->diver);
    bind_exposure(statement, exposure);
    status = plmi_ledger_run(ledger, statement);
    exposure->id = sqlite3_last_insert_rowid(ledger->db);
    return status;
}

enum plm_status plm_ledger_exposure_change(struct plm_ledger *ledger, const struct plm_exposure *exposure)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_EXPOSURE_CHANGE);
    if (!statement)
        return PLM_STATUS_IO;
    (void)sqlite3_bind_int64(statement, 1, exposure->id);
    bind_exposure(statement, exposure);
    return plmi_ledger_run(ledger, statement);
}

enum plm_status plm_ledger_record_put(struct plm_ledger *ledger, const struct plm_record *record)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORD_PUT);
    if (!statement)
        return PLM_STATUS_IO;
    (void)sqlite3_bind_int64(statement, 1, record->exposure);
    plmi_ledger_bind_text(statement, 2, record->log_sha256);
    (void)sqlite3_bind_int(statement, 3, record->log_index);
    plmi_ledger_bind_text(statement, 4, record->recorder);
    plmi_ledger_bind_text(statement, 5, record->card);
    plmi_ledger_bind_text(statement, 6, record->options);
    (void)sqlite3_bind_int(statement, 7, record->best);
    return plmi_ledger_run(ledger, statement);
}

enum plm_status plm_ledger_figures_put(struct plm_ledger *ledger, int64_t exposure, const struct plm_figures *figures)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_FIGURES_PUT);
    unsigned char start[8 * TENSIONS], end[8 * TENSIONS];
    const double numbers[] = {figures->surface_bar, figures->max_depth_m, figures->mean_depth_m, figures->surface_interval_s,
                              figures->surfacing_gradient_pct, figures->peak_gradient_pct, figures->cns_start_pct, figures->cns_pct,
                              figures->cns_day_pct, figures->otu, figures->esot, figures->max_po2_bar, figures->owed_min, figures->done_min};
    if (!statement)
        return PLM_STATUS_IO;
    (void)sqlite3_bind_int64(statement, 1, exposure);
    plmi_ledger_bind_text(statement, 2, figures->program);
    plmi_ledger_bind_text(statement, 3, figures->rules);
    for (int i = 0; i < 14; i++)
        plmi_ledger_bind_number(statement, 4 + i, numbers[i]);
    (void)sqlite3_bind_int(statement, 18, figures->serious);
    (void)sqlite3_bind_int(statement, 19, figures->caution);
    (void)sqlite3_bind_int(statement, 20, figures->note);
    plmi_ledger_bind_text(statement, 21, figures->worst);
    tissue_pack(start, &figures->start);
    tissue_pack(end, &figures->end);
    (void)sqlite3_bind_blob(statement, 22, start, sizeof start, SQLITE_TRANSIENT);
    (void)sqlite3_bind_blob(statement, 23, end, sizeof end, SQLITE_TRANSIENT);
    return plmi_ledger_run(ledger, statement);
}

static enum plm_status run_plain(struct plm_ledger *ledger, enum plmi_statement which)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, which);
    return statement ? plmi_ledger_run(ledger, statement) : PLM_STATUS_IO;
}

enum plm_status plm_ledger_exposure_remove(struct plm_ledger *ledger, int64_t exposure)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, PLMI_STATEMENT_EXPOSURE_REMOVE);
    if (!statement)
        return PLM_STATUS_IO;
    (void)sqlite3_bind_int64(statement, 1, exposure);
    enum plm_status status = plmi_ledger_run(ledger, statement);
    if (status == PLM_STATUS_OK)
        status = run_plain(ledger, PLMI_STATEMENT_LOGS_UNUSED_REMOVE);
    if (status == PLM_STATUS_OK)
        status = run_plain(ledger, PLMI_STATEMENT_DIVERS_UNUSED_REMOVE);
    return status;
}

/* Returns: false where the stored tensions are not whole. */
static bool read_exposure(sqlite3_stmt *row, struct plm_exposure *exposure, struct plm_figures *figures)
{
    *exposure = (struct plm_exposure){.id = sqlite3_column_int64(row, 0), .diver = plmi_ledger_text(row, 1),
                                      .start_utc_ms = sqlite3_column_int64(row, 2), .offset_min = sqlite3_column_int(row, 3),
                                      .duration_ms = sqlite3_column_int64(row, 4), .log_sha256 = plmi_ledger_text(row, 5),
                                      .log_index = sqlite3_column_int(row, 6)};
    *figures = (struct plm_figures){.program = plmi_ledger_text(row, 7), .rules = plmi_ledger_text(row, 8)};
    double *const numbers[] = {&figures->surface_bar, &figures->max_depth_m, &figures->mean_depth_m, &figures->surface_interval_s,
                               &figures->surfacing_gradient_pct, &figures->peak_gradient_pct, &figures->cns_start_pct, &figures->cns_pct,
                               &figures->cns_day_pct, &figures->otu, &figures->esot, &figures->max_po2_bar, &figures->owed_min,
                               &figures->done_min};
    for (int i = 0; i < 14; i++)
        *numbers[i] = plmi_ledger_number(row, 9 + i);
    figures->serious = sqlite3_column_int(row, 23);
    figures->caution = sqlite3_column_int(row, 24);
    figures->note = sqlite3_column_int(row, 25);
    figures->worst = plmi_ledger_text(row, 26);
    const void *start = sqlite3_column_blob(row, 27), *end = sqlite3_column_blob(row, 28);
    if (!start || !end || sqlite3_column_bytes(row, 27) != 8 * TENSIONS || sqlite3_column_bytes(row, 28) != 8 * TENSIONS)
        return false;
    tissue_unpack(&figures->start, start);
    tissue_unpack(&figures->end, end);
    return exposure->diver && exposure->log_sha256;
}

enum plm_status plm_ledger_exposures(struct plm_ledger *ledger, const char *diver, int64_t from_utc_ms, int64_t to_utc_ms,
                                     plm_ledger_exposure_take *take, void *context)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, diver ? PLMI_STATEMENT_EXPOSURES_OF : PLMI_STATEMENT_EXPOSURES_ALL);
    if (!statement)
        return PLM_STATUS_IO;
    plmi_ledger_bind_text(statement, 1, diver);
    (void)sqlite3_bind_int64(statement, 2, from_utc_ms);
    (void)sqlite3_bind_int64(statement, 3, to_utc_ms);
    int code;
    bool more = true;
    while (more && (code = sqlite3_step(statement)) == SQLITE_ROW) {
        struct plm_exposure exposure;
        struct plm_figures figures;
        if (!read_exposure(statement, &exposure, &figures)) {
            plmi_report_add(&ledger->report, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "the figures of a dive are damaged; recompute them");
            plmi_ledger_done(statement);
            return PLM_STATUS_INPUT;
        }
        more = take(context, &exposure, &figures);
    }
    enum plm_status status = !more || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return status;
}

enum plm_status plm_ledger_records(struct plm_ledger *ledger, int64_t exposure, plm_ledger_record_take *take, void *context)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORDS);
    if (!row)
        return PLM_STATUS_IO;
    (void)sqlite3_bind_int64(row, 1, exposure);
    int code;
    bool more = true;
    while (more && (code = sqlite3_step(row)) == SQLITE_ROW) {
        struct plm_record record = {.exposure = sqlite3_column_int64(row, 0), .log_sha256 = plmi_ledger_text(row, 1),
                                    .log_index = sqlite3_column_int(row, 2), .recorder = plmi_ledger_text(row, 3),
                                    .card = plmi_ledger_text(row, 4), .options = plmi_ledger_text(row, 5), .best = sqlite3_column_int(row, 6) != 0};
        more = take(context, &record);
    }
    enum plm_status status = !more || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(row);
    return status;
}

enum plm_status plm_ledger_divers(struct plm_ledger *ledger, plm_ledger_diver_take *take, void *context)
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, PLMI_STATEMENT_DIVERS);
    if (!row)
        return PLM_STATUS_IO;
    int code;
    bool more = true;
    while (more && (code = sqlite3_step(row)) == SQLITE_ROW)
        more = take(context, plmi_ledger_text(row, 0), sqlite3_column_int64(row, 1), sqlite3_column_int64(row, 2), sqlite3_column_int64(row, 3));
    enum plm_status status = !more || code == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(row);
    return status;
}
