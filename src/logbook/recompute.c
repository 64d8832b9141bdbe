/*
 * Computes what a ledger keeps once more, and tells what comes out otherwise. Must not change anything unless asked to.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/chain.h"
#include "logbook/figures.h"
#include "logbook/identity.h"

/* One run over the ledger. */
struct run {
    struct plm_logbook *logbook;
    bool renew;
    plm_logbook_differ *differ;
    void *context;
    struct plm_logbook_recomputed *counts;
};

static bool spans_same(const struct plm_dive_span *a, const struct plm_dive_span *b)
{
    return a->start_utc_ms == b->start_utc_ms && a->offset_min == b->offset_min && a->duration_ms == b->duration_ms &&
           a->wet_from_ms == b->wet_from_ms && a->wet_to_ms == b->wet_to_ms;
}

/* Whether a dive, read again, is at the place in its log and at the time that are stored of it; what is not is
 * reported. */
static bool dive_same(const struct plm_logbook *logbook, const struct plm_entry *entry,
                      const struct plm_debriefed *debriefed, const struct plm_records *records)
{
    const struct plm_dive_span *kept = &entry->exposure.span;
    const struct plm_dive_info *info = plm_dive_info_get(debriefed->dive);
    const struct plm_dive_span read = plmi_identity_span(debriefed->dive, debriefed->replay.rules);
    size_t count;
    const struct plm_record *record = plm_records_get(records, &count);
    char name[256];
    while (!record->best) {
        record++;
    }
    if (info->index == record->log_index && info->start.known && info->start.has_clock && info->start.has_zone &&
        spans_same(kept, &read) && spans_same(&record->span, &read)) {
        return true;
    }
    plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL,
                      "%s, %s: its log tells another start, length or time in the water than is stored of it; "
                      "remove the dive and add its log again",
                      entry->exposure.diver, plm_exposure_name(&entry->exposure, name, sizeof name));
    return false;
}

/* Counts and tells a difference. Returns: false where there is none. */
static bool tell_differ(struct run *run, const struct plm_entry *entry, const struct plm_figures *computed)
{
    struct plm_logbook_difference difference = {.entry = entry, .figure = "all figures"};
    if (entry->has_figures) {
        difference.figure = plmi_figures_differ(&entry->figures, computed, &difference.stored, &difference.computed);
    }
    if (difference.figure == NULL) {
        return false;
    }
    run->counts->differ++;
    if (run->differ != NULL) {
        run->differ(run->context, &difference);
    }
    return true;
}

static enum plm_status recompute_one(struct run *run, const struct plm_entry *entry)
{
    struct plm_logbook *logbook = run->logbook;
    struct plm_figures figures;
    struct plm_debriefed *debriefed = NULL;
    struct plm_records *records = NULL;
    logbook->stored.tell = false;
    enum plm_status status = plmi_chain_compute(logbook, &entry->exposure, &figures, &debriefed, &records);
    if (status == PLM_STATUS_OK && !dive_same(logbook, entry, debriefed, records)) {
        status = PLM_STATUS_INPUT;
    }
    if (status == PLM_STATUS_OK && tell_differ(run, entry, &figures) && run->renew) {
        status = plm_ledger_figures_put(logbook->ledger, entry->exposure.id, &figures);
    }
    plm_debriefed_free(debriefed);
    plm_records_free(records);
    return status;
}

/* Every dive, by diver and start: what comes before a dive is put right before it. */
static enum plm_status recompute(struct run *run)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    enum plm_status worst = plm_ledger_entries(&entries, run->logbook->ledger, NULL, INT64_MIN, INT64_MAX);
    const struct plm_entry *list = worst == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    for (size_t i = 0; i < count; i++) {
        enum plm_status status = recompute_one(run, &list[i]);
        worst = status != PLM_STATUS_OK ? status : worst;
        run->counts->dives++;
    }
    plm_entries_free(entries);
    return worst;
}

enum plm_status plm_logbook_recompute(struct plm_logbook *logbook, bool renew, plm_logbook_differ *differ,
                                      void *context, struct plm_logbook_recomputed *out)
{
    struct run run = {logbook, renew, differ, context, out};
    *out = (struct plm_logbook_recomputed){.dives = 0};
    if (!renew) {
        return recompute(&run);
    }
    enum plm_status status = plm_ledger_begin(logbook->ledger);
    if (status == PLM_STATUS_OK) {
        status = recompute(&run);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_commit(logbook->ledger);
    }
    plm_ledger_undo(logbook->ledger);
    return status;
}
