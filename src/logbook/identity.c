/*
 * Whose dive it is and when it was, as far as that is stated.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/identity.h"

#include <plimsoll/names.h>

/* What is missing, and what to do about it. */
static const char *start_missing(const struct plm_stamp *start)
{
    if (!start->known) {
        return "tells no start; a card (start = 2031-05-06T09:30+11:00) or --start says it";
    }
    if (!start->has_clock) {
        return "tells the date of its start and no time; a card (start = 2031-05-06T09:30+11:00) says it";
    }
    return start->has_zone ? NULL : "tells a start without its time zone; a card (zone = +11:00) or --zone says it";
}

struct plm_dive_span plmi_identity_span(const struct plm_dive *dive, const struct plm_rules *rules)
{
    const struct plm_stamp *start = &plm_dive_info_get(dive)->start;
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    struct plm_dive_span span = {.start_utc_ms = plm_stamp_utc_ms(start),
                                 .offset_min = start->offset_min,
                                 .duration_ms = samples[count - 1].time_ms};
    plm_dive_wet(dive, rules, &span.wet_from_ms, &span.wet_to_ms);
    return span;
}

bool plmi_identity_find(const struct plm_logbook *logbook, const struct plm_dive *dive, const char *stated,
                        const struct plm_rules *rules, enum plm_level level, const char **diver,
                        struct plm_dive_span *span)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    const char *missing = start_missing(&info->start);
    *diver = stated != NULL ? stated : info->diver != NULL && !plm_name_same(info->diver, "") ? info->diver : NULL;
    if (*diver == NULL) {
        missing = "tells no diver; a card (diver = NAME) or --diver says it";
    }
    if (missing != NULL) {
        plmi_logbook_tell(logbook, level, info->file, "dive %d %s; without it the ledger knows nothing of it",
                          info->index, missing);
        return false;
    }
    *span = plmi_identity_span(dive, rules);
    return true;
}
