/*
 * Begins and ends work on a ledger.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "base/diags.h"
#include "logbook/stored.h"

enum plm_status plm_logbook_open(struct plm_logbook **out, struct plm_ledger *ledger, const struct plm_diag_sink *sink)
{
    struct plm_logbook *logbook = calloc(1, sizeof *logbook);
    *out = logbook;
    if (logbook == NULL) {
        const struct plmi_diags diags = {sink, NULL};
        return plmi_diags_no_memory(&diags, 0, "to work on the ledger");
    }
    logbook->ledger = ledger;
    logbook->sink = sink;
    plmi_stored_init(logbook);
    return PLM_STATUS_OK;
}

void plm_logbook_free(struct plm_logbook *logbook)
{
    if (logbook == NULL) {
        return;
    }
    plmi_stored_close(&logbook->stored);
    plmi_kept_rules_free(&logbook->rules);
    free(logbook);
}
