/*
 * Finds the stored dive that a record is of: in the water at the same time, with a profile that is the same diver's.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/same_dive.h"

#include <plimsoll/alignment.h>

/* Whether a dive was recorded beside a stored one by the same diver, as its best record shows it. */
static enum plm_status same_dive(struct plm_logbook *logbook, const struct plm_entry *entry,
                                 const struct plm_dive *dive, bool *same)
{
    struct plm_records *records = NULL;
    struct plm_dive *stored = NULL;
    struct plm_alignment alignment = {.same_dive = false};
    size_t count = 0;
    enum plm_status status = plm_ledger_records(&records, logbook->ledger, entry->exposure.id);
    const struct plm_record *list = status == PLM_STATUS_OK ? plm_records_get(records, &count) : NULL;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count && !alignment.same_dive; i++) {
        status = plm_logbook_dive(logbook, &list[i], &stored);
        if (status == PLM_STATUS_OK) {
            status = plm_alignment_find(&alignment, stored, dive, logbook->sink);
        }
        plm_dive_free(stored);
        stored = NULL;
    }
    *same = alignment.same_dive;
    plm_records_free(records);
    return status;
}

enum plm_status plmi_same_dive_find(struct plm_logbook *logbook, const struct plm_dive *dive,
                                    const struct plm_exposure *wanted, int64_t *exposure, int64_t *down_utc_ms,
                                    struct plm_logbook_addition *addition)
{
    const struct plm_dive_span *span = &wanted->span;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    char name[256];
    *exposure = 0;
    enum plm_status status =
        plm_ledger_entries_wet(&entries, logbook->ledger, wanted->diver, span->start_utc_ms + span->wet_from_ms,
                               span->start_utc_ms + span->wet_to_ms);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i++) {
        bool same = false;
        status = same_dive(logbook, &list[i], dive, &same);
        if (status != PLM_STATUS_OK) {
            break;
        }
        if (same && *exposure == 0) {
            *exposure = list[i].exposure.id;
            *down_utc_ms = plm_span_down_utc_ms(&list[i].exposure.span);
            (void)plm_exposure_name(&list[i].exposure, addition->other, sizeof addition->other);
            continue;
        }
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, plm_dive_info_get(dive)->file,
                          "%s is under water at one time in %s, and in %s, with profiles that differ: they cannot "
                          "both be of one person; it is not added",
                          wanted->diver, addition->name, plm_exposure_name(&list[i].exposure, name, sizeof name));
        status = PLM_STATUS_INPUT;
    }
    plm_entries_free(entries);
    return status;
}
