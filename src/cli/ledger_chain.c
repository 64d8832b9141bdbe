/*
 * Exposures computed from what is stored, one by one in the order in which they go under water: the same figures
 * whatever the order in which they came.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"

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
static enum plm_status prepare(struct plmi_cli_ledger *ledger, const struct plm_exposure *exposure,
                               struct plm_records **records, const struct plm_record **best, struct plm_start *start)
{
    struct plm_rules rules;
    enum plm_status status = plm_ledger_records(records, ledger->file, exposure->id);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    *best = best_of(*records);
    if (*best == NULL) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "no record stands for dive %lld", (long long)exposure->id);
        return PLM_STATUS_INPUT;
    }
    status = plmi_cli_reader_rules(ledger, (*best)->rules, &rules);
    return status == PLM_STATUS_OK ? plmi_cli_ledger_start(ledger, exposure->diver, &exposure->span, &rules, start)
                                   : status;
}

static enum plm_status compute_from(struct plmi_cli_ledger *ledger, const struct plm_record *best,
                                    const struct plm_start *start, struct plm_figures *figures,
                                    struct plm_debriefed **debriefed)
{
    enum plm_status status = plmi_cli_reader_debrief(ledger, best, start, debriefed);
    if (status == PLM_STATUS_OK) {
        *figures = plmi_cli_figures_of(*debriefed, best);
    }
    return status;
}

enum plm_status plmi_cli_ledger_compute(struct plmi_cli_ledger *ledger, const struct plm_exposure *exposure,
                                        struct plm_figures *figures, struct plm_debriefed **debriefed,
                                        struct plm_records **records)
{
    const struct plm_record *best;
    struct plm_start start;
    *debriefed = NULL;
    *records = NULL;
    enum plm_status status = prepare(ledger, exposure, records, &best, &start);
    return status == PLM_STATUS_OK ? compute_from(ledger, best, &start, figures, debriefed) : status;
}

/* One link: computed where its start is another than it was, or where it must be. */
static enum plm_status link_compute(struct plmi_cli_ledger *ledger, const struct plm_entry *entry, bool must,
                                    bool *done)
{
    struct plm_records *records = NULL;
    struct plm_debriefed *debriefed = NULL;
    const struct plm_record *best;
    struct plm_start start;
    struct plm_figures figures;
    enum plm_status status = prepare(ledger, &entry->exposure, &records, &best, &start);
    *done = status == PLM_STATUS_OK &&
            (must || !entry->has_figures || !plmi_cli_figures_start_same(&entry->figures, &start));
    if (*done) {
        ledger->reader.tell = must;
        status = compute_from(ledger, best, &start, &figures, &debriefed);
    }
    if (*done && status == PLM_STATUS_OK) {
        status = plm_ledger_figures_put(ledger->file, entry->exposure.id, &figures);
    }
    plm_debriefed_free(debriefed);
    plm_records_free(records);
    return status;
}

enum plm_status plmi_cli_ledger_chain(struct plmi_cli_ledger *ledger, const char *diver, int64_t from_utc_ms,
                                      int64_t changed, long *recomputed)
{
    bool seen = changed == 0, goes_on = true;
    enum plm_status status = PLM_STATUS_OK;
    int64_t last = 0;
    *recomputed = 0;
    while (status == PLM_STATUS_OK && goes_on) {
        struct plm_entries *entries = NULL;
        size_t count = 0;
        status = plm_ledger_entry_behind(&entries, ledger->file, diver, from_utc_ms, last);
        const struct plm_entry *entry = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
        goes_on = count > 0;
        if (goes_on) {
            bool must = entry->exposure.id == changed, done = false;
            from_utc_ms = plm_span_down_utc_ms(&entry->exposure.span);
            last = entry->exposure.id;
            status = link_compute(ledger, entry, must, &done);
            seen = seen || must;
            /* Who starts as before ends as before, and so do all behind. */
            goes_on = done || !seen;
            *recomputed += done && !must;
        }
        plm_entries_free(entries);
    }
    return status;
}
