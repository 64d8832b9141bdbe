/*
 * What a diver carries at a moment, out of the dives that the ledger holds. Picks values; the physics is
 * plm_start_from_past.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>

#include <plimsoll/ledger_days.h>

#include "logbook/work.h"

static struct plm_past_dive past_of(const struct plm_entry *entry, int64_t at_utc_ms)
{
    const struct plm_dive_span *span = &entry->exposure.span;
    const struct plm_figures *figures = &entry->figures;
    return (struct plm_past_dive){.ended_s = (double)(at_utc_ms - plm_span_up_utc_ms(span)) / 1000,
                                  .surface_bar = figures->surface_bar,
                                  .end = figures->end,
                                  .anchor_bar = figures->end_anchor_bar,
                                  .cns_pct = figures->cns_pct,
                                  .otu = figures->otu,
                                  .cns_day_pct = figures->cns_day_pct,
                                  .esot = figures->esot,
                                  .cns_beyond_min = figures->cns_beyond_min,
                                  .day = plm_day_of(plm_span_down_utc_ms(span), span->offset_min),
                                  .otu_run = figures->otu_run,
                                  .otu_run_days = figures->otu_run_days};
}

enum plm_status plm_logbook_start(struct plm_logbook *logbook, const char *diver, int64_t at_utc_ms, int offset_min,
                                  const struct plm_rules *rules, struct plm_start *start)
{
    struct plm_entries *entries = NULL;
    size_t count = 0, past_count = 0;
    enum plm_status status = plm_ledger_entries_recent(&entries, logbook->ledger, diver, at_utc_ms);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    const struct plm_entry *list = plm_entries_get(entries, &count);
    struct plm_past_dive *past = calloc(count + 1, sizeof *past);
    double last_pct = 0; /* the surfacing gradient of the last dive */
    for (size_t i = 0; past != NULL && i < count; i++) {
        if (list[i].has_figures && plm_span_up_utc_ms(&list[i].exposure.span) <= at_utc_ms) {
            past[past_count++] = past_of(&list[i], at_utc_ms);
            last_pct = list[i].figures.surfacing_gradient_pct;
        }
    }
    if (past != NULL) {
        *start = plm_start_from_past(past, past_count, plm_day_of(at_utc_ms, offset_min), rules);
        bool in_water = past_count > 0 && isnan(last_pct);
        start->from = in_water ? "the ledger, whose last dive ends in the water" : "the ledger";
    } else {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "no memory for the dives before");
        status = PLM_STATUS_MEMORY;
    }
    free(past);
    plm_entries_free(entries);
    return status;
}
