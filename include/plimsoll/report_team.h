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

/* Whether a format ("text", "json", ...) is there for a reconciliation. */
PLM_API bool plm_report_reconciliation_known(const char *format);
/* The same for an audit. */
PLM_API bool plm_report_audit_known(const char *format);

/*
 * Writes a reconciliation.
 *   records  [count] as they were reconciled
 * Returns: OK; ARGUMENT (no such format, reported), MEMORY, IO (the sink has reported).
 */
PLM_API enum plm_status plm_report_reconciliation(const struct plm_reconciliation *reconciliation,
                                                  const struct plm_debriefed *const *records, size_t count,
                                                  const char *format, const struct plm_report_options *options,
                                                  const struct plm_sink *sink, const struct plm_diag_sink *diag);

/*
 * Writes an audit.
 *   page  the page of a row beside an overview, as its link names it, into buffer; NULL: rows have no pages
 * Returns: as above.
 */
PLM_API enum plm_status plm_report_audit(const struct plm_audit *audit, const char *format,
                                         const struct plm_report_options *options,
                                         void (*page)(const struct plm_audit_row *row, char *buffer, size_t size),
                                         const struct plm_sink *sink, const struct plm_diag_sink *diag);

#ifdef __cplusplus
}
#endif

#endif
