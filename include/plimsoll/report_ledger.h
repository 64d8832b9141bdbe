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
    struct plm_start residual;    /* tissue is set also where nothing is carried                         */
    double surface_bar;           /* [bar] where the diver is: the last dive's place, or as given         */
    const struct plm_entry *past; /* the dives before, oldest first                                      */
    size_t past_count;
};

/* Writes the dives; for PLM_REPORT_LEDGER_LIST. Returns: OK; ARGUMENT (another report, reported), MEMORY (reported), IO
 * (the sink has reported). */
PLM_API enum plm_status plm_report_ledger_list(struct plm_report *report, const struct plm_ledger_listed *what);
/* The same of a diver's days; for PLM_REPORT_LEDGER_SHOW. */
PLM_API enum plm_status plm_report_ledger_show(struct plm_report *report, const struct plm_ledger_shown *what);
/* The same of what a diver carries; for PLM_REPORT_LEDGER_DUE. It is no permission to dive, and says so. */
PLM_API enum plm_status plm_report_ledger_due(struct plm_report *report, const struct plm_ledger_due *what);

/*
 * For PLM_REPORT_HANDOVER, behind the last dive added: tells it the diver's dives that a ledger knows of the 72 hours
 * before a moment, by plm_report_earlier: those of 48 hours, and a day more for those that were long.
 *   last_utc_ms  [ms] the start of the last dive
 * Returns: OK; what plm_ledger_entries and plm_report_earlier return, reported.
 */
PLM_API enum plm_status plm_report_ledger_earlier(struct plm_report *report, struct plm_ledger *ledger,
                                                  const char *diver, int64_t last_utc_ms);

#ifdef __cplusplus
}
#endif

#endif
