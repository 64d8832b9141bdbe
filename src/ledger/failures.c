/*
 * What went wrong with the ledger, in words and as a status. Must not try anything again.
 * SPDX-License-Identifier: MIT
 */
#include <errno.h>

#include "ledger/ledger.h"

/* What SQLite's primary result codes mean to the caller and to a person. */
static const struct {
    int code;
    enum plm_status status;
    const char *text;
} FAILURES[] = {
    {SQLITE_NOMEM, PLM_STATUS_MEMORY, "no memory"},
    {SQLITE_BUSY, PLM_STATUS_IO, "another program holds it; try again"},
    {SQLITE_LOCKED, PLM_STATUS_IO, "another program holds it; try again"},
    {SQLITE_READONLY, PLM_STATUS_IO, "it cannot be written to; nothing was changed"},
    {SQLITE_FULL, PLM_STATUS_IO, "no space is left; what was being added is not in it, what was there before is"},
    {SQLITE_IOERR, PLM_STATUS_IO, "reading or writing failed; what was being added is not in it"},
    {SQLITE_CANTOPEN, PLM_STATUS_IO, "it cannot be opened"},
    {SQLITE_PERM, PLM_STATUS_IO, "it may not be opened"},
    {SQLITE_NOTADB, PLM_STATUS_INPUT, "it is not a ledger"},
    {SQLITE_CORRUPT, PLM_STATUS_INPUT,
     "it is damaged; keep a copy and restore it from a backup, or add the logs to a new one"},
    {SQLITE_CONSTRAINT, PLM_STATUS_INPUT, "its contents contradict each other"},
};

enum plm_status plmi_ledger_failed(struct plm_ledger *ledger)
{
    int code = ledger->db != NULL ? sqlite3_errcode(ledger->db) & 0xff : SQLITE_NOMEM;
    /* Where SQLite makes room ahead, as for its shared index, a full disk comes as a failed write. */
    if (code == SQLITE_IOERR &&
        (sqlite3_system_errno(ledger->db) == ENOSPC || sqlite3_system_errno(ledger->db) == EDQUOT)) {
        code = SQLITE_FULL;
    }
    for (size_t i = 0; i < sizeof FAILURES / sizeof FAILURES[0]; i++) {
        if (FAILURES[i].code == code) {
            plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "the ledger: %s", FAILURES[i].text);
            return FAILURES[i].status;
        }
    }
    plmi_diags_add(&ledger->diags, PLM_LEVEL_ERROR, PLM_DIAG_LEDGER, 0, 0, "the ledger cannot be used: %s",
                   ledger->db != NULL ? sqlite3_errmsg(ledger->db) : "no memory");
    return PLM_STATUS_INPUT;
}

enum plm_status plmi_ledger_no_memory(struct plm_ledger *ledger)
{
    return plmi_diags_no_memory(&ledger->diags, 0, "for what the ledger holds");
}
