/*
 * Walks the rows of a statement and looks whether each is sound. Must not know what the columns mean.
 * SPDX-License-Identifier: MIT
 */
#include "ledger/ledger.h"

enum plm_status plmi_ledger_check_rows(struct plm_ledger *ledger, enum plmi_statement which,
                                       bool (*sound)(struct plm_ledger *, sqlite3_stmt *))
{
    sqlite3_stmt *row = plmi_ledger_statement(ledger, which);
    enum plm_status status = PLM_STATUS_OK;
    int code;
    if (row == NULL) {
        return PLM_STATUS_IO;
    }
    while ((code = sqlite3_step(row)) == SQLITE_ROW) {
        if (!sound(ledger, row)) {
            status = PLM_STATUS_INPUT;
        }
    }
    if (code != SQLITE_DONE) {
        status = plmi_ledger_failed(ledger);
    }
    plmi_ledger_done(row);
    return status;
}
