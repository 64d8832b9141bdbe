/*
 * The inside of an open ledger: the database, and statements that are made once.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LEDGER_LEDGER_H
#define PLM_LEDGER_LEDGER_H

#include <sqlite3.h>

#include <plimsoll/ledger.h>

#include "base/arena.h"
#include "base/diags.h"
#include "base/fold.h"
#include "base/text.h"

#define PLMI_LEDGER_VERSION 1
/* "Plim" in the file's header, so that another program's database is not taken for a ledger. */
#define PLMI_LEDGER_MARK 0x506c696d

/* Keys of the table of statements. */
enum plmi_statement {
#define PLMI_STATEMENT(name, sql) PLMI_STATEMENT_##name,
#include "ledger/statements.def"
#undef PLMI_STATEMENT
    PLMI_STATEMENT_COUNT
};

struct plm_ledger {
    sqlite3 *db;
    sqlite3_stmt *statements[PLMI_STATEMENT_COUNT];
    char *path;
    struct plmi_fold fold; /* of what diags tells */
    struct plmi_diags diags;
    int64_t log_max_bytes; /* of a log as it was read */
    bool writing;          /* a transaction is open                 */
    bool wait_stated;      /* another program was waited for        */
    char *diver_key;       /* of the last diver that was bound; NULL */
    char *stated_name;     /* last spelling that was reported on; NULL  */
};

/*
 * The ledger's path as a name that SQLite takes for a plain file.
 *   file [out] to be freed in any case
 * Returns: OK; IO (reported): there can be no ledger of that name.
 */
enum plm_status plmi_ledger_path(struct plm_ledger *ledger, struct plmi_text *file);

/* Makes or migrates the schema; checks mark and version. */
enum plm_status plmi_ledger_schema(struct plm_ledger *ledger, enum plm_ledger_mode mode);

/* A statement ready to be bound; NULL (reported) where it cannot be made. Give it back with plmi_ledger_done. */
sqlite3_stmt *plmi_ledger_statement(struct plm_ledger *ledger, enum plmi_statement which);
/* Runs a statement that gives no rows, and gives it back. */
enum plm_status plmi_ledger_run(struct plm_ledger *ledger, sqlite3_stmt *statement);
void plmi_ledger_done(sqlite3_stmt *statement);
/* Reports what SQLite says of its last failure. Returns: IO, INPUT or MEMORY by what it was. */
enum plm_status plmi_ledger_failed(struct plm_ledger *ledger);
enum plm_status plmi_ledger_no_memory(struct plm_ledger *ledger);
/* Another program writes: sleeps a moment; tells of it once. context: the ledger. Returns: 0 to give up. */
int plmi_ledger_wait(void *context, int turns);
/* Runs SQL text without parameters. */
enum plm_status plmi_ledger_sql(struct plm_ledger *ledger, const char *sql);

/* Text or NULL, borrowed until plmi_ledger_done, so that binding cannot fail; a number or NULL for NaN. */
void plmi_ledger_bind_text(sqlite3_stmt *statement, int place, const char *text);
void plmi_ledger_bind_number(sqlite3_stmt *statement, int place, double value);
/* The key of a diver's name, good until the next is bound. Returns: OK, MEMORY reported. */
enum plm_status plmi_ledger_bind_diver(struct plm_ledger *ledger, sqlite3_stmt *statement, int place,
                                       const char *diver);
double plmi_ledger_number(sqlite3_stmt *statement, int column);
/* A copy in the arena; NULL for NULL. failed is set where memory runs out. */
const char *plmi_ledger_text(sqlite3_stmt *statement, int column, struct plmi_arena *arena, bool *failed);

/* Makes a diver where there is none of this name; tells of one who is spelled nearly so. Returns: OK; INPUT for no
 * name; reported. */
enum plm_status plmi_ledger_diver_put(struct plm_ledger *ledger, const char *diver);

/* Tensions as 256 bytes: doubles by IEEE 754, low byte first, nitrogen before helium. */
#define PLMI_TISSUE_BYTES (2 * PLM_COMPARTMENTS * 8)
void plmi_tissue_pack(unsigned char bytes[PLMI_TISSUE_BYTES], const struct plm_tissue *tissue);
void plmi_tissue_unpack(struct plm_tissue *tissue, const unsigned char bytes[PLMI_TISSUE_BYTES]);

/* Every diver's name against its key and its normal form; goes on after one that does not fit. */
enum plm_status plmi_ledger_check_divers(struct plm_ledger *ledger);
/* Whether each row of a statement is sound, by what reports what is not; goes on after one that is not. */
enum plm_status plmi_ledger_check_rows(struct plm_ledger *ledger, enum plmi_statement which,
                                       bool (*sound)(struct plm_ledger *, sqlite3_stmt *));
/* Every field of every exposure with its figures, and of every record. */
enum plm_status plmi_ledger_check_entries(struct plm_ledger *ledger);
enum plm_status plmi_ledger_check_records(struct plm_ledger *ledger);
/* Every log against its hash; goes on after a damaged one. */
enum plm_status plmi_ledger_check_logs(struct plm_ledger *ledger);

#endif
