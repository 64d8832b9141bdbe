/*
 * The figures of a debriefed dive, and whether two sets of figures are the same to the last bit.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/figures.h"

#include <math.h>
#include <string.h>

#include <plimsoll/logbook.h>
#include <plimsoll/version.h>

static void count_findings(struct plm_figures *figures, const struct plm_findings *findings)
{
    size_t count;
    const struct plm_finding *list = plm_findings_get(findings, &count);
    for (size_t i = 0; i < count; i++) {
        size_t *const counts[] = {&figures->note, &figures->caution, &figures->serious};
        (*counts[list[i].severity])++;
    }
    figures->worst = count > 0 ? list[0].text : NULL;
}

struct plm_figures plm_logbook_compute(const struct plm_debriefed *debriefed, const char *rules)
{
    const struct plm_trace_summary *summary = plm_trace_summary_get(debriefed->trace);
    const struct plm_assumed *assumed = plm_trace_assumed(debriefed->trace);
    const struct plm_start *start = &debriefed->start;
    const struct plm_start end = plm_start_after(debriefed->trace, 0, assumed->surface_bar, debriefed->replay.rules);
    size_t count;
    struct plm_figures figures = {.program = plm_version_get(),
                                  .rules = rules,
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
                                  .cns_beyond_min = summary->cns_beyond_min,
                                  .surface_interval_s = start->residual ? start->surface_interval_s : (double)NAN,
                                  .cns_start_pct = start->cns_pct,
                                  .cns_day_before_pct = start->cns_day_pct,
                                  .otu_before = start->otu_day,
                                  .esot_before = start->esot_day,
                                  .cns_beyond_before_min = start->cns_beyond_min,
                                  .otu_run = start->otu_run,
                                  .otu_run_days = start->otu_run_days,
                                  .start_anchor_bar = start->residual ? start->anchor_bar : (double)NAN,
                                  .end_anchor_bar = end.anchor_bar,
                                  .start = plm_trace_points(debriefed->trace, &count)[0].tissue,
                                  .end = end.tissue};
    if (start->residual) {
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

bool plmi_figures_start_same(const struct plm_figures *figures, const struct plm_start *start)
{
    if (!start->residual) {
        return isnan(figures->surface_interval_s);
    }
    return same(figures->surface_interval_s, start->surface_interval_s) &&
           same(figures->cns_start_pct, start->cns_pct) && same(figures->cns_day_before_pct, start->cns_day_pct) &&
           same(figures->otu_before, start->otu_day) && same(figures->esot_before, start->esot_day) &&
           same(figures->cns_beyond_before_min, start->cns_beyond_min) && same(figures->otu_run, start->otu_run) &&
           figures->otu_run_days == start->otu_run_days && same(figures->start_anchor_bar, start->anchor_bar) &&
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

const char *plmi_figures_differ(const struct plm_figures *a, const struct plm_figures *b, double *value_a,
                                double *value_b)
{
/* clang-format off */
#define FIGURE(name) {#name, (double)a->name, (double)b->name}
    /* clang-format on */
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
                FIGURE(cns_beyond_before_min),
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
                FIGURE(cns_beyond_min),
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
