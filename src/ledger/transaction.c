/*
 * Transactions, and SQL without parameters: waits while another program writes.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

#define WAIT_STEP_MS 20
#define WAIT_TOLD_MS 2000
#define WAIT_MOST_MS 600000

int plmi_ledger_wait(void *context, int turns)
{
    struct plm_ledger *ledger = context;
    int waited_ms = turns * WAIT_STEP_MS;
    if (waited_ms >= WAIT_MOST_MS) {
        return 0;
    }
    if (waited_ms >= WAIT_TOLD_MS && !ledger->wait_stated) {
        ledger->wait_stated = true;
        plmi_diags_add(&ledger->diags, PLM_LEVEL_NOTE, PLM_DIAG_LEDGER, 0, 0, "another program writes to it; waiting");
    }
    (void)sqlite3_sleep(WAIT_STEP_MS);
    return 1;
}

enum plm_status plmi_ledger_sql(struct plm_ledger *ledger, const char *sql)
{
    int code = sqlite3_exec(ledger->db, sql, NULL, NULL, NULL);
    /* Where waiting could come to a deadlock SQLite does not wait, as when a new file gets its journal; outside a
     * transaction it cannot. */
    for (int turns = 0;
         (code & 0xff) == SQLITE_BUSY && sqlite3_get_autocommit(ledger->db) && plmi_ledger_wait(ledger, turns);
         turns++) {
        code = sqlite3_exec(ledger->db, sql, NULL, NULL, NULL);
    }
    return code == SQLITE_OK ? PLM_STATUS_OK : plmi_ledger_failed(ledger);
}

enum plm_status plm_ledger_begin(struct plm_ledger *ledger)
{
    enum plm_status status = plmi_ledger_sql(ledger, "BEGIN IMMEDIATE");
    ledger->writing = status == PLM_STATUS_OK;
    return status;
}

enum plm_status plm_ledger_commit(struct plm_ledger *ledger)
{
    enum plm_status status = plmi_ledger_sql(ledger, "COMMIT");
    if (status == PLM_STATUS_OK) {
        ledger->writing = false;
    }
    return status;
}

void plm_ledger_undo(struct plm_ledger *ledger)
{
    if (ledger->writing && !sqlite3_get_autocommit(ledger->db)) {
        (void)sqlite3_exec(ledger->db, "ROLLBACK", NULL, NULL, NULL);
    }
    ledger->writing = false;
}
