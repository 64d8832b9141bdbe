/*
 * Between the ledger and the library: a start state out of stored dives, figures out of a debriefed one.
 * Computes nothing; picks values.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/ledger_days.h>
#include <plimsoll/past.h>
#include <plimsoll/version.h>

#include "cli/ledger.h"

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
                                  .day = plm_day_of(plm_span_down_utc_ms(span), span->offset_min),
                                  .otu_run = figures->otu_run,
                                  .otu_run_days = figures->otu_run_days};
}

enum plm_status plmi_cli_ledger_start(struct plmi_cli_ledger *ledger, const char *diver,
                                      const struct plm_dive_span *span, const struct plm_rules *rules,
                                      struct plm_start *start)
{
    struct plm_entries *entries = NULL;
    size_t count = 0, past_count = 0;
    const int64_t down_utc_ms = plm_span_down_utc_ms(span);
    enum plm_status status = plm_ledger_entries_recent(&entries, ledger->file, diver, down_utc_ms);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    const struct plm_entry *list = plm_entries_get(entries, &count);
    struct plm_past_dive *past = calloc(count + 1, sizeof *past);
    double last_pct = 0; /* the surfacing gradient of the last dive */
    for (size_t i = 0; past != NULL && i < count; i++) {
        if (list[i].has_figures && plm_span_up_utc_ms(&list[i].exposure.span) <= down_utc_ms) {
            past[past_count++] = past_of(&list[i], down_utc_ms);
            last_pct = list[i].figures.surfacing_gradient_pct;
        }
    }
    if (past != NULL) {
        *start = plm_start_from_past(past, past_count, plm_day_of(down_utc_ms, span->offset_min), rules);
        bool in_water = past_count > 0 && isnan(last_pct);
        start->from = in_water ? "the ledger, whose last dive ends in the water" : "the ledger";
    } else {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "no memory for the dives before");
        status = PLM_STATUS_MEMORY;
    }
    free(past);
    plm_entries_free(entries);
    return status;
}

static void count_findings(struct plm_figures *figures, const struct plm_findings *findings)
{
    size_t count;
    const struct plm_finding *list = plm_findings_get(findings, &count);
    for (size_t i = 0; i < count; i++) {
        int *const counts[] = {&figures->note, &figures->caution, &figures->serious};
        (*counts[list[i].severity])++;
    }
    figures->worst = count > 0 ? list[0].text : NULL;
}

struct plm_figures plmi_cli_figures_of(const struct plm_debriefed *debriefed, const struct plm_record *record)
{
    const struct plm_trace_summary *summary = plm_trace_summary_get(debriefed->trace);
    const struct plm_assumed *assumed = plm_trace_assumed(debriefed->trace);
    const struct plm_start *start = &debriefed->start;
    const struct plm_start end = plm_start_after(debriefed->trace, 0, assumed->surface_bar, debriefed->replay.rules);
    size_t count;
    struct plm_figures figures = {.program = plm_version_get(),
                                  .rules = record->rules,
                                  .surface_bar = assumed->surface_bar,
                                  .max_depth_m = summary->max_depth_m,
                                  .mean_depth_m = summary->mean_depth_m,
                                  .surfacing_gradient_pct = summary->surfacing_gradient_pct,
                                  .peak_gradient_pct = summary->peak_gradient_pct,
                                  .max_po2_bar = summary->max_po2_bar,
                                  .owed_min = debriefed->decompression->owed_s / 60,
                                  .done_min = debriefed->decompression->done_s / 60,
                                  .cns_pct = summary->cns_pct,
                                  .cns_day_pct = summary->cns_day_pct,
                                  .otu = summary->otu,
                                  .esot = summary->esot,
                                  .surface_interval_s = start->carried ? start->surface_interval_s : (double)NAN,
                                  .cns_start_pct = start->cns_pct,
                                  .cns_day_before_pct = start->cns_day_pct,
                                  .otu_before = start->otu_day,
                                  .esot_before = start->esot_day,
                                  .otu_run = start->otu_run,
                                  .otu_run_days = start->otu_run_days,
                                  .start_anchor_bar = start->carried ? start->anchor_bar : (double)NAN,
                                  .end_anchor_bar = end.anchor_bar,
                                  .start = plm_trace_points(debriefed->trace, &count)[0].tissue,
                                  .end = end.tissue};
    if (start->carried) {
        figures.start = start->tissue;
    }
    count_findings(&figures, debriefed->findings);
    return figures;
}

/* To the last bit, NaN like NaN. */
static bool same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

bool plmi_cli_figures_start_same(const struct plm_figures *figures, const struct plm_start *start)
{
    if (!start->carried) {
        return isnan(figures->surface_interval_s);
    }
    return same(figures->surface_interval_s, start->surface_interval_s) &&
           same(figures->cns_start_pct, start->cns_pct) && same(figures->cns_day_before_pct, start->cns_day_pct) &&
           same(figures->otu_before, start->otu_day) && same(figures->esot_before, start->esot_day) &&
           same(figures->otu_run, start->otu_run) && figures->otu_run_days == start->otu_run_days &&
           same(figures->start_anchor_bar, start->anchor_bar) &&
           memcmp(&figures->start, &start->tissue, sizeof start->tissue) == 0;
}

/* The first compartment whose tensions differ. */
static const char *tissue_differ(const struct plm_tissue *a, const struct plm_tissue *b, const char *name,
                                 double *value_a, double *value_b)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        bool n2 = same(a->n2_bar[i], b->n2_bar[i]);
        if (n2 && same(a->he_bar[i], b->he_bar[i])) {
            continue;
        }
        *value_a = n2 ? a->he_bar[i] : a->n2_bar[i];
        *value_b = n2 ? b->he_bar[i] : b->n2_bar[i];
        return name;
    }
    return NULL;
}

const char *plmi_cli_figures_differ(const struct plm_figures *a, const struct plm_figures *b, double *value_a,
                                    double *value_b)
{
#define FIGURE(name)            \
    {                           \
#name, a->name, b->name \
    }
    const struct {
        const char *name;
        double a, b;
    } rows[] = {FIGURE(surface_bar),
                FIGURE(max_depth_m),
                FIGURE(mean_depth_m),
                FIGURE(surface_interval_s),
                FIGURE(cns_start_pct),
                FIGURE(cns_day_before_pct),
                FIGURE(otu_before),
                FIGURE(esot_before),
                FIGURE(otu_run),
                FIGURE(otu_run_days),
                FIGURE(start_anchor_bar),
                FIGURE(surfacing_gradient_pct),
                FIGURE(peak_gradient_pct),
                FIGURE(max_po2_bar),
                FIGURE(owed_min),
                FIGURE(done_min),
                FIGURE(cns_pct),
                FIGURE(cns_day_pct),
                FIGURE(otu),
                FIGURE(esot),
                FIGURE(end_anchor_bar),
                FIGURE(serious),
                FIGURE(caution),
                FIGURE(note)};
#undef FIGURE
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (!same(rows[i].a, rows[i].b)) {
            *value_a = rows[i].a;
            *value_b = rows[i].b;
            return rows[i].name;
        }
    }
    *value_a = *value_b = (double)NAN;
    if ((a->worst == NULL) != (b->worst == NULL) || (a->worst != NULL && strcmp(a->worst, b->worst) != 0)) {
        return "the first finding";
    }
    const char *tissue = tissue_differ(&a->start, &b->start, "tissue at the start", value_a, value_b);
    return tissue != NULL ? tissue : tissue_differ(&a->end, &b->end, "tissue at the end", value_a, value_b);
}
