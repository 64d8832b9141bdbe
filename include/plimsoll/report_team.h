/*
 * Reports about several records at once: a reconciliation, an audit. Written in one piece; like inputs give like bytes.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEAM_H
#define PLM_REPORT_TEAM_H

#include <plimsoll/audit.h>
#include <plimsoll/reconcile.h>
#include <plimsoll/report.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Records as they were reconciled. */
struct plm_report_reconciled {
    const struct plm_reconciliation *reconciliation;
    const struct plm_debriefed *const *records; /* [count] */
    size_t count;
};

/* An audit. */
struct plm_report_audited {
    const struct plm_audit *audit;
    /* the page of a row beside an overview, as its link names it, into buffer; NULL: rows have no pages */
    void (*page)(const struct plm_audit_row *row, char *buffer, size_t size);
};

/* Writes a reconciliation; for PLM_REPORT_RECONCILIATION. Returns: OK; ARGUMENT (another report, reported), MEMORY
 * (reported), IO (the sink has reported). */
PLM_API enum plm_status plm_report_reconciliation(struct plm_report *report, const struct plm_report_reconciled *what);
/* The same of an audit; for PLM_REPORT_AUDIT. */
PLM_API enum plm_status plm_report_audit(struct plm_report *report, const struct plm_report_audited *what);

#ifdef __cplusplus
}
#endif

#endif
