/*
 * Reports over the exposure ledger: what it holds, a diver's days, what a diver carries at a moment. Written in one
 * piece; the same ledger gives the same bytes. Shows what it is handed; computes no dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_LEDGER_H
#define PLM_REPORT_LEDGER_H

#include <plimsoll/ledger_days.h>
#include <plimsoll/replay.h>
#include <plimsoll/report.h>

#ifdef __cplusplus
extern "C" {
#endif

enum plm_ledger_report { PLM_LEDGER_REPORT_LIST, PLM_LEDGER_REPORT_SHOW, PLM_LEDGER_REPORT_DUE };

/* Whether a format ("text", "json", ...) is there for a report. */
PLM_API bool plm_report_ledger_known(enum plm_ledger_report report, const char *format);

/* Dives by diver and start. */
struct plm_ledger_listed {
    const struct plm_entry *dives;
    size_t dive_count;
};

/* Days and dives of one diver. */
struct plm_ledger_shown {
    const char *diver;
    const struct plm_day *days;
    size_t day_count;
    const struct plm_entry *dives;
    size_t dive_count;
};

/* What a diver carries at a moment, at rest on air since the last dive. */
struct plm_ledger_due {
    const char *diver;
    struct plm_stamp at;
    struct plm_start carried;     /* tissue is set also where nothing is carried                         */
    double surface_bar;           /* [bar] where the diver is: the last dive's place, or as told         */
    const struct plm_entry *past; /* the dives before, oldest first                                      */
    size_t past_count;
};

/*
 * Writes a report.
 *   what  struct plm_ledger_listed, plm_ledger_shown or plm_ledger_due
 * Returns: OK; ARGUMENT (no such format, reported), MEMORY, IO (the sink has reported).
 */
PLM_API enum plm_status plm_report_ledger_list(const struct plm_ledger_listed *what, const char *format,
                                               const struct plm_report_options *options, const struct plm_sink *sink,
                                               const struct plm_diag_sink *diag);
/* The same of a diver's days. */
PLM_API enum plm_status plm_report_ledger_show(const struct plm_ledger_shown *what, const char *format,
                                               const struct plm_report_options *options, const struct plm_sink *sink,
                                               const struct plm_diag_sink *diag);
/* The same of what a diver carries. It is no permission to dive, and says so. */
PLM_API enum plm_status plm_report_ledger_due(const struct plm_ledger_due *what, const char *format,
                                              const struct plm_report_options *options, const struct plm_sink *sink,
                                              const struct plm_diag_sink *diag);

#ifdef __cplusplus
}
#endif

#endif
