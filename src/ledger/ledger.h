/*
 * The inside of an open ledger: the database, and statements that are made once.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LEDGER_LEDGER_H
#define PLM_LEDGER_LEDGER_H

#include <sqlite3.h>

#include <plimsoll/ledger.h>

#include "base/report.h"

#define PLMI_LEDGER_VERSION 1
/* "Plim" in the file's header, so that another program's database is not taken for a ledger. */
#define PLMI_LEDGER_MARK 0x506c696d

enum plmi_statement {
    PLMI_STATEMENT_DIVER_PUT, PLMI_STATEMENT_LOG_PUT, PLMI_STATEMENT_LOG_GET, PLMI_STATEMENT_LOG_NAME, PLMI_STATEMENT_HAS, PLMI_STATEMENT_EXPOSURE_PUT,
    PLMI_STATEMENT_EXPOSURE_CHANGE, PLMI_STATEMENT_EXPOSURE_REMOVE, PLMI_STATEMENT_LOGS_UNUSED_REMOVE, PLMI_STATEMENT_DIVERS_UNUSED_REMOVE,
    PLMI_STATEMENT_RECORD_PUT, PLMI_STATEMENT_FIGURES_PUT, PLMI_STATEMENT_EXPOSURES_OF, PLMI_STATEMENT_EXPOSURES_ALL, PLMI_STATEMENT_RECORDS,
    PLMI_STATEMENT_DIVERS, PLMI_STATEMENT_LOGS, PLMI_STATEMENT_COUNT
};

struct plm_ledger {
    sqlite3 *db;
    sqlite3_stmt *statements[PLMI_STATEMENT_COUNT];
    char *path;
    struct plmi_report report;
    bool writing;   /* a transaction is open */
};

/* Makes or migrates the schema; checks mark and version. */
enum plm_status plmi_ledger_schema(struct plm_ledger *ledger, enum plm_ledger_mode mode);

/* A statement ready to be bound; NULL (reported) where it cannot be made. Give it back with plmi_ledger_done. */
sqlite3_stmt *plmi_ledger_statement(struct plm_ledger *ledger, enum plmi_statement which);
/* Runs a statement that gives no rows, and gives it back. */
enum plm_status plmi_ledger_run(struct plm_ledger *ledger, sqlite3_stmt *statement);
void plmi_ledger_done(sqlite3_stmt *statement);
/* Reports what SQLite says of its last failure. Returns: IO, INPUT or MEMORY by what it was. */
enum plm_status plmi_ledger_failed(struct plm_ledger *ledger);
/* Runs SQL text without parameters. */
enum plm_status plmi_ledger_sql(struct plm_ledger *ledger, const char *sql);

/* Text or NULL; a number or NULL for NaN. */
void plmi_ledger_bind_text(sqlite3_stmt *statement, int place, const char *text);
void plmi_ledger_bind_number(sqlite3_stmt *statement, int place, double value);
double plmi_ledger_number(sqlite3_stmt *statement, int column);
const char *plmi_ledger_text(sqlite3_stmt *statement, int column);

#endif
