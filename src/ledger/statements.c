/*
 * The SQL that is used again and again, as a table; prepared when first asked for. Values are bound, never written into SQL.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <math.h>

#define EXPOSURE_COLUMNS                                                                                                              \
    "SELECT e.id, d.name, e.start_utc_ms, e.offset_min, e.duration_ms, e.log, e.log_index, f.program, f.rules, f.surface_bar,"         \
    " f.max_depth_m, f.mean_depth_m, f.surface_interval_s, f.surfacing_gradient_pct, f.peak_gradient_pct, f.cns_start_pct, f.cns_pct," \
    " f.cns_day_pct, f.otu, f.esot, f.max_po2_bar, f.owed_min, f.done_min, f.serious, f.caution, f.note, f.worst, f.start_bar,"        \
    " f.end_bar FROM exposure e JOIN diver d ON d.id = e.diver JOIN figures f ON f.exposure = e.id "

static const char *const SQL[PLMI_STATEMENT_COUNT] = {
    [PLMI_STATEMENT_DIVER_PUT] = "INSERT INTO diver (name) VALUES (?1) ON CONFLICT (name) DO NOTHING",
    [PLMI_STATEMENT_LOG_PUT] = "INSERT INTO log (sha256, name, size, bytes) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (sha256) DO NOTHING",
    [PLMI_STATEMENT_LOG_GET] = "SELECT size, bytes FROM log WHERE sha256 = ?1",
    [PLMI_STATEMENT_LOG_NAME] = "SELECT name FROM log WHERE sha256 = ?1",
    [PLMI_STATEMENT_HAS] = "SELECT 1 FROM record WHERE log = ?1 AND log_index = ?2",
    [PLMI_STATEMENT_EXPOSURE_PUT] = "INSERT INTO exposure (diver, start_utc_ms, offset_min, duration_ms, log, log_index)"
                                    " SELECT id, ?2, ?3, ?4, ?5, ?6 FROM diver WHERE name = ?1",
    [PLMI_STATEMENT_EXPOSURE_CHANGE] = "UPDATE exposure SET start_utc_ms = ?2, offset_min = ?3, duration_ms = ?4, log = ?5, log_index = ?6"
                                       " WHERE id = ?1",
    [PLMI_STATEMENT_EXPOSURE_REMOVE] = "DELETE FROM exposure WHERE id = ?1",
    [PLMI_STATEMENT_LOGS_UNUSED_REMOVE] = "DELETE FROM log WHERE sha256 NOT IN (SELECT log FROM record UNION SELECT log FROM exposure)",
    [PLMI_STATEMENT_DIVERS_UNUSED_REMOVE] = "DELETE FROM diver WHERE id NOT IN (SELECT diver FROM exposure)",
    [PLMI_STATEMENT_RECORD_PUT] = "INSERT INTO record (exposure, log, log_index, recorder, card, options, best) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)"
                                  " ON CONFLICT (log, log_index) DO UPDATE SET best = excluded.best",
    [PLMI_STATEMENT_FIGURES_PUT] =
        "INSERT OR REPLACE INTO figures (exposure, program, rules, surface_bar, max_depth_m, mean_depth_m, surface_interval_s,"
        " surfacing_gradient_pct, peak_gradient_pct, cns_start_pct, cns_pct, cns_day_pct, otu, esot, max_po2_bar, owed_min, done_min, serious,"
        " caution, note, worst, start_bar, end_bar) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18,"
        " ?19, ?20, ?21, ?22, ?23)",
    [PLMI_STATEMENT_EXPOSURES_OF] = EXPOSURE_COLUMNS "WHERE d.name = ?1 AND e.start_utc_ms >= ?2 AND e.start_utc_ms < ?3"
                                                     " ORDER BY e.start_utc_ms, e.log, e.log_index",
    [PLMI_STATEMENT_EXPOSURES_ALL] = EXPOSURE_COLUMNS "WHERE ?1 IS NULL AND e.start_utc_ms >= ?2 AND e.start_utc_ms < ?3"
                                                      " ORDER BY d.name, e.start_utc_ms, e.log, e.log_index",
    [PLMI_STATEMENT_RECORDS] = "SELECT exposure, log, log_index, recorder, card, options, best FROM record WHERE exposure = ?1"
                               " ORDER BY best DESC, log, log_index",
    [PLMI_STATEMENT_DIVERS] = "SELECT d.name, count(e.id), min(e.start_utc_ms), max(e.start_utc_ms) FROM diver d JOIN exposure e ON e.diver = d.id"
                              " GROUP BY d.id ORDER BY d.name",
    [PLMI_STATEMENT_LOGS] = "SELECT sha256, name, size, bytes FROM log ORDER BY sha256",
};

sqlite3_stmt *plmi_ledger_statement(struct plm_ledger *ledger, enum plmi_statement which)
{
    sqlite3_stmt **statement = &ledger->statements[which];
    if (!*statement && sqlite3_prepare_v3(ledger->db, SQL[which], -1, SQLITE_PREPARE_PERSISTENT, statement, NULL) != SQLITE_OK) {
        (void)plmi_ledger_failed(ledger);
        return NULL;
    }
    return *statement;
}

void plmi_ledger_done(sqlite3_stmt *statement)
{
    (void)sqlite3_reset(statement);
    (void)sqlite3_clear_bindings(statement);
}

enum plm_status plmi_ledger_run(struct plm_ledger *ledger, sqlite3_stmt *statement)
{
    enum plm_status status = sqlite3_step(statement) == SQLITE_DONE ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
    plmi_ledger_done(statement);
    return status;
}

void plmi_ledger_bind_text(sqlite3_stmt *statement, int place, const char *text)
{
    if (text)
        (void)sqlite3_bind_text(statement, place, text, -1, SQLITE_TRANSIENT);
    else
        (void)sqlite3_bind_null(statement, place);
}

void plmi_ledger_bind_number(sqlite3_stmt *statement, int place, double value)
{
    if (isnan(value))
        (void)sqlite3_bind_null(statement, place);
    else
        (void)sqlite3_bind_double(statement, place, value);
}

double plmi_ledger_number(sqlite3_stmt *statement, int column)
{
    return sqlite3_column_type(statement, column) == SQLITE_NULL ? (double)NAN : sqlite3_column_double(statement, column);
}

const char *plmi_ledger_text(sqlite3_stmt *statement, int column)
{
    return (const char *)sqlite3_column_text(statement, column);
}
