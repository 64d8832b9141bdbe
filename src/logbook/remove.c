/*
 * Removes a dive, with what follows from it for later ones.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/chain.h"

enum plm_status plm_logbook_remove(struct plm_logbook *logbook, const struct plm_exposure *exposure, size_t *recomputed)
{
    *recomputed = 0;
    enum plm_status status = plm_ledger_begin(logbook->ledger);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_exposure_remove(logbook->ledger, exposure->id);
    }
    if (status == PLM_STATUS_OK) {
        status = plmi_chain_follow(logbook, exposure->diver, plm_span_down_utc_ms(&exposure->span), 0, recomputed);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_commit(logbook->ledger);
    }
    plm_ledger_undo(logbook->ledger);
    return status;
}
