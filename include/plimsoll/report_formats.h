/*
 * The report on formats: those that are read, or what was understood of logs. For PLM_REPORT_FORMATS.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_FORMATS_H
#define PLM_REPORT_FORMATS_H

#include <plimsoll/report.h>
#include <plimsoll/verdict.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Writes the formats that are known. Returns: OK; ARGUMENT (another report, reported), MEMORY (reported), IO (the sink
 * has reported). */
PLM_API enum plm_status plm_report_formats_known(struct plm_report *report);
/* Writes what was understood of a log. name: as a person knows it. Returns: as above. */
PLM_API enum plm_status plm_report_formats_log(struct plm_report *report, const char *name,
                                               const struct plm_verdict *verdict);
/* Writes the line of a dive of the last log. Returns: as above. */
PLM_API enum plm_status plm_report_formats_dive(struct plm_report *report, const struct plm_dive *dive);

#ifdef __cplusplus
}
#endif

#endif
