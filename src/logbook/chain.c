/*
 * Exposures computed from what is stored, one by one in the order in which they go under water: the same figures
 * whatever the order in which they came.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/chain.h"

#include "logbook/figures.h"
#include "logbook/stored.h"

static const struct plm_record *best_of(const struct plm_records *records)
{
    size_t count;
    const struct plm_record *list = plm_records_get(records, &count);
    for (size_t i = 0; i < count; i++) {
        if (list[i].best) {
            return &list[i];
        }
    }
    return NULL;
}

/* The best record and the start state of an exposure. */
static enum plm_status prepare(struct plm_logbook *logbook, const struct plm_exposure *exposure,
                               struct plm_records **records, const struct plm_record **best, struct plm_start *start)
{
    struct plm_rules rules;
    enum plm_status status = plm_ledger_records(records, logbook->ledger, exposure->id);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    *best = best_of(*records);
    if (*best == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "no record stands for dive %lld", (long long)exposure->id);
        return PLM_STATUS_INPUT;
    }
    status = plmi_kept_rules_read(&logbook->rules, (*best)->rules, &rules, NULL, logbook->sink);
    return status == PLM_STATUS_OK ? plm_logbook_start(logbook, exposure->diver, plm_span_down_utc_ms(&exposure->span),
                                                       exposure->span.offset_min, &rules, start)
                                   : status;
}

static enum plm_status compute_from(struct plm_logbook *logbook, const struct plm_record *best,
                                    const struct plm_start *start, struct plm_figures *figures,
                                    struct plm_debriefed **debriefed)
{
    enum plm_status status = plmi_stored_debrief(logbook, best, start, debriefed);
    if (status == PLM_STATUS_OK) {
        *figures = plm_logbook_compute(*debriefed, best->rules);
    }
    return status;
}

enum plm_status plmi_chain_compute(struct plm_logbook *logbook, const struct plm_exposure *exposure,
                                   struct plm_figures *figures, struct plm_debriefed **debriefed,
                                   struct plm_records **records)
{
    const struct plm_record *best;
    struct plm_start start;
    *debriefed = NULL;
    *records = NULL;
    enum plm_status status = prepare(logbook, exposure, records, &best, &start);
    return status == PLM_STATUS_OK ? compute_from(logbook, best, &start, figures, debriefed) : status;
}

/* One link: computed where its start is another than it was, or where it must be. */
static enum plm_status link_compute(struct plm_logbook *logbook, const struct plm_entry *entry, bool must, bool *done)
{
    struct plm_records *records = NULL;
    struct plm_debriefed *debriefed = NULL;
    const struct plm_record *best;
    struct plm_start start;
    struct plm_figures figures;
    enum plm_status status = prepare(logbook, &entry->exposure, &records, &best, &start);
    *done =
        status == PLM_STATUS_OK && (must || !entry->has_figures || !plmi_figures_start_same(&entry->figures, &start));
    if (*done) {
        logbook->stored.tell = must;
        status = compute_from(logbook, best, &start, &figures, &debriefed);
    }
    if (*done && status == PLM_STATUS_OK) {
        status = plm_ledger_figures_put(logbook->ledger, entry->exposure.id, &figures);
    }
    plm_debriefed_free(debriefed);
    plm_records_free(records);
    return status;
}

enum plm_status plmi_chain_follow(struct plm_logbook *logbook, const char *diver, int64_t from_utc_ms, int64_t changed,
                                  size_t *recomputed)
{
    bool seen = changed == 0, goes_on = true;
    enum plm_status status = PLM_STATUS_OK;
    int64_t last = 0;
    *recomputed = 0;
    while (status == PLM_STATUS_OK && goes_on) {
        struct plm_entries *entries = NULL;
        size_t count = 0;
        status = plm_ledger_entry_behind(&entries, logbook->ledger, diver, from_utc_ms, last);
        const struct plm_entry *entry = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
        goes_on = count > 0;
        if (goes_on) {
            bool must = entry->exposure.id == changed, done = false;
            from_utc_ms = plm_span_down_utc_ms(&entry->exposure.span);
            last = entry->exposure.id;
            status = link_compute(logbook, entry, must, &done);
            seen = seen || must;
            /* Who starts as before ends as before, and so do all behind. */
            goes_on = done || !seen;
            *recomputed += done && !must;
        }
        plm_entries_free(entries);
    }
    return status;
}
