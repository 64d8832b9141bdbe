/*
 * A diver's dives before the last one, from a ledger to a handover. Must not choose among them: the handover does.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/report_ledger.h>

/* Dives of this long before the last one are asked of a ledger [ms]: two days, and a day for those that were long. */
#define BACK_MS INT64_C(259200000)

static struct plm_report_exposure exposure_of(const struct plm_entry *entry)
{
    const struct plm_dive_span *span = &entry->exposure.span;
    const struct plm_figures *figures = &entry->figures;
    return (struct plm_report_exposure){
        .start = plm_stamp_of(span->start_utc_ms, span->offset_min),
        .duration_s = (double)span->wet_to_ms / 1e3,
        .max_depth_m = entry->has_figures ? figures->max_depth_m : (double)NAN,
        .surfacing_gradient_pct = entry->has_figures ? figures->surfacing_gradient_pct : (double)NAN,
        .cns_pct = entry->has_figures ? figures->cns_pct : (double)NAN,
        .cns_at_least = entry->has_figures && figures->cns_beyond_before_min + figures->cns_beyond_min > 0,
    };
}

static enum plm_status entries_tell(struct plm_report *report, const struct plm_entries *entries)
{
    size_t count = 0;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    enum plm_status status = plm_report_earlier(report, NULL, 0); /* that it was asked for */
    for (size_t i = 0; i < count && status == PLM_STATUS_OK; i++) {
        const struct plm_report_exposure one = exposure_of(&list[i]);
        status = plm_report_earlier(report, &one, 1);
    }
    return status;
}

enum plm_status plm_report_ledger_earlier(struct plm_report *report, struct plm_ledger *ledger, const char *diver,
                                          int64_t last_utc_ms)
{
    struct plm_entries *entries = NULL;
    enum plm_status status = plm_ledger_entries(&entries, ledger, diver, last_utc_ms - BACK_MS, last_utc_ms + 1);
    if (status == PLM_STATUS_OK) {
        status = entries_tell(report, entries);
    }
    plm_entries_free(entries);
    return status;
}
