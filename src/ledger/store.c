/*
 * Puts exposures, records and figures in, and takes exposures away.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

/* Whether the one row meant was there. */
static enum plm_status changed_one(struct plm_ledger *ledger, enum plm_status status)
{
    if (status != PLM_STATUS_OK || sqlite3_changes(ledger->db) == 1) {
        return status;
    }
    plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0,
                   "something that was to be changed is not there; nothing was changed");
    return PLM_STATUS_INPUT;
}

/* Runs a statement whose only value is a text. */
static enum plm_status put_text(struct plm_ledger *ledger, enum plmi_statement which, const char *text)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, which);
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    plmi_ledger_bind_text(statement, 1, text);
    return plmi_ledger_run(ledger, statement);
}

/* Five values from a place on. */
static void bind_span(sqlite3_stmt *statement, int place, const struct plm_dive_span *span)
{
    (void)sqlite3_bind_int64(statement, place, span->start_utc_ms);
    (void)sqlite3_bind_int(statement, place + 1, span->offset_min);
    (void)sqlite3_bind_int64(statement, place + 2, span->duration_ms);
    (void)sqlite3_bind_int64(statement, place + 3, span->wet_from_ms);
    (void)sqlite3_bind_int64(statement, place + 4, span->wet_to_ms);
}

enum plm_status plm_ledger_exposure_put(struct plm_ledger *ledger, struct plm_exposure *exposure)
{
    enum plm_status status = plmi_ledger_diver_put(ledger, exposure->diver);
    sqlite3_stmt *statement =
        status == PLM_STATUS_OK ? plmi_ledger_statement(ledger, PLMI_STATEMENT_EXPOSURE_PUT) : NULL;
    if (statement == NULL) {
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    }
    status = plmi_ledger_bind_diver(ledger, statement, 1, exposure->diver);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    bind_span(statement, 2, &exposure->span);
    status = changed_one(ledger, plmi_ledger_run(ledger, statement));
    exposure->id = sqlite3_last_insert_rowid(ledger->db);
    return status;
}

static void bind_stated(sqlite3_stmt *statement, int place, const struct plm_stated *stated)
{
    plmi_ledger_bind_text(statement, place, stated->diver);
    plmi_ledger_bind_text(statement, place + 1, stated->start);
    plmi_ledger_bind_text(statement, place + 2, stated->zone);
    plmi_ledger_bind_number(statement, place + 3, stated->surface_bar);
    plmi_ledger_bind_number(statement, place + 4, stated->altitude_m);
    plmi_ledger_bind_number(statement, place + 5, stated->water_kg_m3);
    plmi_ledger_bind_text(statement, place + 6, stated->columns);
    plmi_ledger_bind_text(statement, place + 7, stated->date_order);
    plmi_ledger_bind_number(statement, place + 8, stated->interval_s);
    (void)sqlite3_bind_int(statement, place + 9, stated->zero_auto);
}

enum plm_status plm_ledger_record_put(struct plm_ledger *ledger, const struct plm_record *record)
{
    enum plm_status status = put_text(ledger, PLMI_STATEMENT_RULES_PUT, record->rules);
    sqlite3_stmt *statement = status == PLM_STATUS_OK ? plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORD_PUT) : NULL;
    if (statement == NULL) {
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(statement, 1, record->exposure);
    plmi_ledger_bind_text(statement, 2, record->log_sha256);
    (void)sqlite3_bind_int(statement, 3, record->log_index);
    plmi_ledger_bind_text(statement, 4, record->recorder);
    plmi_ledger_bind_text(statement, 5, record->card);
    plmi_ledger_bind_text(statement, 6, record->rules);
    bind_stated(statement, 7, &record->stated);
    bind_span(statement, 17, &record->span);
    plmi_ledger_bind_number(statement, 22, record->covered_s);
    plmi_ledger_bind_number(statement, 23, record->step_s);
    (void)sqlite3_bind_int64(statement, 24, (int64_t)record->cells);
    (void)sqlite3_bind_int(statement, 25, record->gas);
    return plmi_ledger_run(ledger, statement);
}

/* Runs a statement whose first value is an exposure. */
static enum plm_status run_on(struct plm_ledger *ledger, enum plmi_statement which, int64_t exposure)
{
    sqlite3_stmt *statement = plmi_ledger_statement(ledger, which);
    if (statement == NULL) {
        return PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(statement, 1, exposure);
    return plmi_ledger_run(ledger, statement);
}

enum plm_status plm_ledger_record_choose(struct plm_ledger *ledger, const struct plm_record *record)
{
    enum plm_status status = run_on(ledger, PLMI_STATEMENT_RECORDS_UNCHOOSE, record->exposure);
    sqlite3_stmt *statement =
        status == PLM_STATUS_OK ? plmi_ledger_statement(ledger, PLMI_STATEMENT_RECORD_CHOOSE) : NULL;
    if (statement == NULL) {
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(statement, 1, record->exposure);
    plmi_ledger_bind_text(statement, 2, record->log_sha256);
    (void)sqlite3_bind_int(statement, 3, record->log_index);
    status = changed_one(ledger, plmi_ledger_run(ledger, statement));
    statement = status == PLM_STATUS_OK ? plmi_ledger_statement(ledger, PLMI_STATEMENT_EXPOSURE_SPAN) : NULL;
    if (statement == NULL) {
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(statement, 1, record->exposure);
    bind_span(statement, 2, &record->span);
    return changed_one(ledger, plmi_ledger_run(ledger, statement));
}

enum plm_status plm_ledger_figures_put(struct plm_ledger *ledger, int64_t exposure, const struct plm_figures *figures)
{
    const double numbers[] = {figures->surface_bar,
                              figures->max_depth_m,
                              figures->mean_depth_m,
                              figures->surfacing_gradient_pct,
                              figures->peak_gradient_pct,
                              figures->max_po2_bar,
                              figures->owed_min,
                              figures->done_min,
                              figures->cns_pct,
                              figures->cns_day_pct,
                              figures->otu,
                              figures->esot,
                              figures->surface_interval_s,
                              figures->cns_start_pct,
                              figures->cns_day_before_pct,
                              figures->otu_before,
                              figures->esot_before,
                              figures->otu_run,
                              figures->start_anchor_bar,
                              figures->end_anchor_bar,
                              figures->cns_beyond_min,
                              figures->cns_beyond_before_min};
    unsigned char start[PLMI_TISSUE_BYTES], end[PLMI_TISSUE_BYTES];
    enum plm_status status = put_text(ledger, PLMI_STATEMENT_RULES_PUT, figures->rules);
    sqlite3_stmt *statement =
        status == PLM_STATUS_OK ? plmi_ledger_statement(ledger, PLMI_STATEMENT_FIGURES_PUT) : NULL;
    if (statement == NULL) {
        return status != PLM_STATUS_OK ? status : PLM_STATUS_IO;
    }
    (void)sqlite3_bind_int64(statement, 1, exposure);
    plmi_ledger_bind_text(statement, 2, figures->program);
    plmi_ledger_bind_text(statement, 3, figures->rules);
    plmi_ledger_bind_text(statement, 4, figures->worst);
    (void)sqlite3_bind_int64(statement, 5, (int64_t)figures->serious);
    (void)sqlite3_bind_int64(statement, 6, (int64_t)figures->caution);
    (void)sqlite3_bind_int64(statement, 7, (int64_t)figures->note);
    (void)sqlite3_bind_int(statement, 8, figures->otu_run_days);
    plmi_tissue_pack(start, &figures->start);
    plmi_tissue_pack(end, &figures->end);
    (void)sqlite3_bind_blob(statement, 9, start, sizeof start, SQLITE_STATIC);
    (void)sqlite3_bind_blob(statement, 10, end, sizeof end, SQLITE_STATIC);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        plmi_ledger_bind_number(statement, 11 + (int)i, numbers[i]);
    }
    return plmi_ledger_run(ledger, statement);
}

enum plm_status plm_ledger_exposure_remove(struct plm_ledger *ledger, int64_t exposure)
{
    static const enum plmi_statement sweeps[] = {PLMI_STATEMENT_LOGS_SWEEP, PLMI_STATEMENT_RULES_SWEEP,
                                                 PLMI_STATEMENT_DIVERS_SWEEP};
    enum plm_status status = changed_one(ledger, run_on(ledger, PLMI_STATEMENT_EXPOSURE_REMOVE, exposure));
    for (size_t i = 0; status == PLM_STATUS_OK && i < sizeof sweeps / sizeof sweeps[0]; i++) {
        sqlite3_stmt *statement = plmi_ledger_statement(ledger, sweeps[i]);
        status = statement != NULL ? plmi_ledger_run(ledger, statement) : PLM_STATUS_IO;
    }
    return status;
}
