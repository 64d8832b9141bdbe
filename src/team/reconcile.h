/*
 * The inside of a reconciliation: records, pairs, verdict.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_RECONCILE_H
#define PLM_TEAM_RECONCILE_H

#include "team/differences.h"

#define PLMI_RECORDS_MAX 16

struct plm_reconciliation {
    size_t count, pair_count, best;
    const struct plm_debriefed *records[PLMI_RECORDS_MAX]; /* borrowed */
    struct plm_reconciled_pair pairs[PLMI_RECORDS_MAX];
    const char *verdict; /* in the arena */
    struct plmi_arena arena;
};

/* Chooses the more complete record and writes the verdict. Returns: false without memory. */
bool plmi_reconcile_verdict(struct plm_reconciliation *reconciliation);

#endif
