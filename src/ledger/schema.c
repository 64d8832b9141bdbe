/*
 * The schema of the ledger and its migrations: user_version tells how far a file has come.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#include <string.h>

/* Spans are spelled alike in exposures and records. */
#define SPAN                                                                                                           \
    " start_utc_ms INTEGER NOT NULL, offset_min INTEGER NOT NULL CHECK (offset_min BETWEEN -1080 AND 1080),"           \
    " duration_ms INTEGER NOT NULL CHECK (duration_ms >= 0), wet_from_ms INTEGER NOT NULL, wet_to_ms INTEGER NOT NULL" \
    " CHECK (wet_to_ms >= wet_from_ms)"

/* Migration i brings a file from version i to i + 1. Once released, a migration never changes. */
static const char *const MIGRATIONS[PLMI_LEDGER_VERSION] = {
    /* key: plm_name_key of the name, which is plm_name_normal of the first spelling. */
    "CREATE TABLE diver (id INTEGER PRIMARY KEY, key TEXT NOT NULL UNIQUE CHECK (length(key) > 0),"
    "  name TEXT NOT NULL CHECK (length(name) > 0)) STRICT;"
    "CREATE TABLE log (id INTEGER PRIMARY KEY, sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64), name TEXT NOT "
    "NULL,"
    "  size INTEGER NOT NULL CHECK (size >= 0), bytes BLOB NOT NULL) STRICT;"
    "CREATE TABLE rules (id INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE) STRICT;"
    /* AUTOINCREMENT: the number of a dive that was removed is never given to another. */
    "CREATE TABLE exposure (id INTEGER PRIMARY KEY AUTOINCREMENT, diver INTEGER NOT NULL REFERENCES diver (id)," SPAN
    ") STRICT;"
    "CREATE INDEX exposure_by_diver ON exposure (diver, start_utc_ms + wet_from_ms);"
    "CREATE TABLE record (exposure INTEGER NOT NULL REFERENCES exposure (id) ON DELETE CASCADE, log INTEGER NOT NULL "
    "REFERENCES log (id),"
    "  log_index INTEGER NOT NULL CHECK (log_index >= 1), recorder TEXT, card TEXT, rules INTEGER NOT NULL REFERENCES "
    "rules (id),"
    "  told_diver TEXT, told_start TEXT, told_zone TEXT, told_surface_bar REAL, told_altitude_m REAL, told_water_kg_m3 "
    "REAL, told_columns TEXT,"
    "  told_date_order TEXT, told_interval_s REAL, told_zero INTEGER NOT NULL CHECK (told_zero IN (0, 1))," SPAN ","
    "  covered_s REAL NOT NULL, step_s REAL NOT NULL, cells INTEGER NOT NULL, gas INTEGER NOT NULL CHECK (gas IN (0, "
    "1)),"
    "  best INTEGER NOT NULL CHECK (best IN (0, 1)), PRIMARY KEY (log, log_index)) STRICT, WITHOUT ROWID;"
    "CREATE INDEX record_by_exposure ON record (exposure);"
    "CREATE UNIQUE INDEX record_best ON record (exposure) WHERE best = 1;"
    "CREATE TABLE figures (exposure INTEGER PRIMARY KEY REFERENCES exposure (id) ON DELETE CASCADE, program TEXT NOT "
    "NULL,"
    "  rules INTEGER NOT NULL REFERENCES rules (id), worst TEXT, serious INTEGER NOT NULL, caution INTEGER NOT NULL, "
    "note INTEGER NOT NULL,"
    "  otu_run_days INTEGER NOT NULL, start_bar BLOB NOT NULL CHECK (length(start_bar) = 256),"
    "  end_bar BLOB NOT NULL CHECK (length(end_bar) = 256), surface_bar REAL, max_depth_m REAL, mean_depth_m REAL,"
    "  surfacing_gradient_pct REAL, peak_gradient_pct REAL, max_po2_bar REAL, owed_min REAL, done_min REAL, cns_pct "
    "REAL, cns_day_pct REAL,"
    "  otu REAL, esot REAL, surface_interval_s REAL, cns_start_pct REAL, cns_day_before_pct REAL, otu_before REAL, "
    "esot_before REAL,"
    "  otu_run REAL, start_anchor_bar REAL, end_anchor_bar REAL, cns_beyond_min REAL, cns_beyond_before_min REAL) "
    "STRICT;",
};

static enum plm_status pragma_number(struct plm_ledger *ledger, const char *sql, int64_t *value)
{
    sqlite3_stmt *statement = NULL;
    enum plm_status status = PLM_STATUS_OK;
    *value = 0;
    if (sqlite3_prepare_v2(ledger->db, sql, -1, &statement, NULL) == SQLITE_OK &&
        sqlite3_step(statement) == SQLITE_ROW) {
        *value = sqlite3_column_int64(statement, 0);
    } else {
        status = plmi_ledger_failed(ledger);
    }
    (void)sqlite3_finalize(statement);
    return status;
}

static enum plm_status refuse(struct plm_ledger *ledger, const char *text)
{
    plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "%s", text);
    return PLM_STATUS_INPUT;
}

/* A database of ours in memory, made by the migrations up to a version. Returns: SQLite's code. */
static int model_open(sqlite3 **model, int64_t version)
{
    int code =
        sqlite3_open_v2(":memory:", model, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY, NULL);
    for (int64_t i = 0; code == SQLITE_OK && i < version; i++) {
        code = sqlite3_exec(*model, MIGRATIONS[i], NULL, NULL, NULL);
    }
    return code;
}

/* Whether two rows of text are alike; a NULL is like a NULL. */
static bool rows_alike(sqlite3_stmt *a, sqlite3_stmt *b)
{
    bool alike = true;
    for (int i = 0; alike && i < sqlite3_column_count(a); i++) {
        const char *x = (const char *)sqlite3_column_text(a, i), *y = (const char *)sqlite3_column_text(b, i);
        alike = x != NULL && y != NULL ? strcmp(x, y) == 0 : x == y;
    }
    return alike;
}

/*
 * Whether the file has our tables and indices to the letter, and nothing else: triggers and views would run what a
 * stranger wrote.
 * Returns: SQLite's code; *ours is set where it is SQLITE_DONE.
 */
static int compare(sqlite3 *file, sqlite3 *model, bool *ours)
{
    static const char sql[] = "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name, tbl_name, sql";
    sqlite3_stmt *a = NULL, *b = NULL;
    int code = sqlite3_prepare_v2(file, sql, -1, &a, NULL), other = SQLITE_ROW;
    if (code == SQLITE_OK) {
        code = sqlite3_prepare_v2(model, sql, -1, &b, NULL);
    }
    *ours = true;
    while (code == SQLITE_OK || code == SQLITE_ROW) {
        code = sqlite3_step(a);
        other = sqlite3_step(b);
        *ours = *ours && code == other && (code != SQLITE_ROW || rows_alike(a, b));
        if (other != SQLITE_ROW) {
            code = code == SQLITE_ROW ? SQLITE_DONE : code;
        }
    }
    (void)sqlite3_finalize(a);
    (void)sqlite3_finalize(b);
    return code;
}

static enum plm_status look_at_tables(struct plm_ledger *ledger, int64_t version)
{
    sqlite3 *model = NULL;
    bool ours = false;
    int code = model_open(&model, version);
    if (code == SQLITE_OK) {
        code = compare(ledger->db, model, &ours);
    }
    (void)sqlite3_close(model);
    if ((code & 0xff) == SQLITE_NOMEM) {
        return plmi_ledger_no_memory(ledger);
    }
    if (code != SQLITE_DONE) {
        return plmi_ledger_failed(ledger);
    }
    return ours ? PLM_STATUS_OK
                : refuse(ledger,
                         "its tables are not those of a ledger: a stranger may have put something in; left as it is");
}

/* What the file is: version 0 without tables is a new file. */
static enum plm_status look(struct plm_ledger *ledger, int64_t *version)
{
    int64_t mark = 0, tables = 0;
    enum plm_status status = pragma_number(ledger, "PRAGMA application_id", &mark);
    if (status == PLM_STATUS_OK) {
        status = pragma_number(ledger, "PRAGMA user_version", version);
    }
    if (status == PLM_STATUS_OK) {
        status = pragma_number(ledger, "SELECT count(*) FROM sqlite_schema", &tables);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (mark != PLMI_LEDGER_MARK && (mark != 0 || tables > 0 || *version != 0)) {
        return refuse(ledger, "this is a database, but not a ledger; left as it is");
    }
    if (*version > PLMI_LEDGER_VERSION) {
        return refuse(ledger, "this ledger was written by a newer version of Plimsoll; left as it is");
    }
    if (mark == PLMI_LEDGER_MARK && *version < 1) {
        return refuse(ledger, "this ledger tells no version; left as it is");
    }
    return look_at_tables(ledger, *version);
}

/* All steps in one transaction; another process may have taken them meanwhile, so the version is asked again inside. */
static enum plm_status migrate(struct plm_ledger *ledger)
{
    int64_t version = 0;
    enum plm_status status = plm_ledger_begin(ledger);
    if (status == PLM_STATUS_OK) {
        status = look(ledger, &version);
    }
    for (int64_t i = version; status == PLM_STATUS_OK && i < PLMI_LEDGER_VERSION; i++) {
        char sql[96];
        status = plmi_ledger_sql(ledger, MIGRATIONS[i]);
        (void)sqlite3_snprintf((int)sizeof sql, sql, "PRAGMA application_id = %d; PRAGMA user_version = %d",
                               PLMI_LEDGER_MARK, (int)(i + 1));
        if (status == PLM_STATUS_OK) {
            status = plmi_ledger_sql(ledger, sql);
        }
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_commit(ledger);
    }
    plm_ledger_undo(ledger);
    return status;
}

enum plm_status plmi_ledger_schema(struct plm_ledger *ledger, enum plm_ledger_mode mode)
{
    int64_t version = 0;
    /* One look at one moment: another process may be making it. */
    enum plm_status status = plmi_ledger_sql(ledger, "BEGIN");
    if (status == PLM_STATUS_OK) {
        status = look(ledger, &version);
    }
    (void)sqlite3_exec(ledger->db, "ROLLBACK", NULL, NULL, NULL);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    if (version == 0 && mode != PLM_LEDGER_MAKE) {
        return refuse(ledger, "there is no ledger in it yet");
    }
    if (mode == PLM_LEDGER_READ) {
        return version == PLMI_LEDGER_VERSION
                   ? PLM_STATUS_OK
                   : refuse(ledger, "this ledger is of an older version; whatever changes it brings it on");
    }
    status = plmi_ledger_sql(ledger, "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;");
    if (status == PLM_STATUS_OK && version < PLMI_LEDGER_VERSION) {
        status = migrate(ledger);
    }
    return status;
}
