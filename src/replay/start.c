/*
 * From one dive to the next: tissues off-gas on air, the oxygen clocks run down.
 * Must not know of dates: intervals are given.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/limits.h"
#include "replay/start.h"
#include "replay/trace.h"
#include "tissue/oxygen.h"

/* [s] the window in which doses of a day count. */
static const double day_s = 86400.0;
/* [s] after this every compartment is at rest to the last digit: 136 half-times of the slowest. */
static const double rest_enough_s = 60.0 * 86400.0;

/* The day's totals anew from the doses kept. */
static void day_total(struct plm_start *start)
{
    start->otu_day = start->cns_day_pct = start->esot_day = start->cns_beyond_min = 0.0;
    for (size_t i = 0; i < start->recent_count; i++) {
        start->otu_day += start->recent[i].otu;
        start->cns_day_pct += start->recent[i].cns_day_pct;
        start->esot_day += start->recent[i].esot;
        start->cns_beyond_min += start->recent[i].cns_beyond_min;
    }
}

/* A state that tells only totals: one dose that ended when the interval began. */
static void recent_from_totals(struct plm_start *start)
{
    bool any = start->otu_day > 0.0 || start->cns_day_pct > 0.0 || start->esot_day > 0.0;
    if (start->recent_count == 0 && any) {
        double age_s = start->surface_interval_s > 0.0 ? start->surface_interval_s : 0.0;
        start->recent[0] =
            (struct plm_recent_dose){age_s, start->otu_day, start->cns_day_pct, start->esot_day, start->cns_beyond_min};
        start->recent_count = 1;
    }
}

/* Lets dt_s pass: doses that are a day old are dropped. */
static void recent_age(struct plm_start *start, double dt_s)
{
    size_t kept = 0;
    for (size_t i = 0; i < start->recent_count; i++) {
        struct plm_recent_dose dose = start->recent[i];
        dose.age_s += dt_s;
        if (dose.age_s < day_s) {
            start->recent[kept++] = dose;
        }
    }
    start->recent_count = kept;
    /* A day without dives ends a run; which day a dive fell on is not known here. */
    if (!(dt_s < day_s)) {
        start->otu_run_days = 0;
        start->otu_run = 0.0;
    }
}

void plmi_start_recent_add(struct plm_start *start, const struct plm_recent_dose *dose)
{
    struct plm_recent_dose *recent = start->recent;
    if (start->recent_count == PLM_RECENT_DOSES) {
        recent[1].otu += recent[0].otu;
        recent[1].cns_day_pct += recent[0].cns_day_pct;
        recent[1].esot += recent[0].esot;
        recent[1].cns_beyond_min += recent[0].cns_beyond_min;
        memmove(recent, recent + 1, (PLM_RECENT_DOSES - 1) * sizeof *recent);
        start->recent_count--;
    }
    recent[start->recent_count++] = *dose;
}

/* Tissues and CNS through an interval on air at the surface. */
static void off_gas(struct plm_start *start, double interval_s, double surface_bar, const struct plm_rules *rules)
{
    struct plmi_bounds bounds = plmi_bounds_of(rules, surface_bar);
    struct plmi_decay decay;
    plmi_decay_init(&decay, bounds.model);
    struct plm_tissue air = plm_tissue_saturated(surface_bar, rules->water_vapour_bar, rules->air_n2_frac);
    double n2_bar = air.n2_bar[0];
    struct plmi_leg leg = {fmin(interval_s, rest_enough_s), n2_bar, n2_bar, 0.0, 0.0};
    plmi_tissue_step(&start->tissue, &leg, &decay);
    struct plmi_limits limits;
    plmi_limits_find(&limits, &start->tissue, bounds.model);
    start->anchor_bar = plmi_anchor_next_bar(&bounds, &limits, start->anchor_bar, true);
    start->cns_pct = plmi_cns_decay_pct(start->cns_pct, interval_s / 60.0, rules->cns_half_time_min);
}

static struct plm_start rested(void)
{
    struct plm_start start;
    memset(&start, 0, sizeof start);
    start.anchor_bar = start.surface_interval_s = (double)NAN;
    return start;
}

struct plm_start plm_start_after(const struct plm_trace *trace, double interval_s, double surface_bar,
                                 const struct plm_rules *rules)
{
    const struct plm_trace_summary *summary = &trace->summary;
    const struct plm_point *last = &trace->points[trace->count - 1], *surfaced = last;
    while (surfaced > trace->points && surfaced->time_ms > trace->wet_to_ms) {
        surfaced--;
    }
    struct plm_start start = trace->start;
    recent_from_totals(&start);
    recent_age(&start, (double)(trace->wet_to_ms - trace->wet_from_ms) / 1000.0);
    struct plm_recent_dose dose = {0.0, summary->otu, summary->cns_day_pct, summary->esot, summary->cns_beyond_min};
    plmi_start_recent_add(&start, &dose);
    recent_age(&start, interval_s);
    day_total(&start);
    start.residual = true;
    start.tissue = surfaced->tissue;
    start.anchor_bar = surfaced->anchor_bar;
    start.cns_pct = last->cns_pct;
    start.surface_interval_s = interval_s;
    start.from = NULL;
    off_gas(&start, interval_s, surface_bar, rules);
    return start;
}

struct plm_start plm_start_rest(const struct plm_start *start, double interval_s, double surface_bar,
                                const struct plm_rules *rules)
{
    if (start == NULL || !start->residual) {
        struct plm_start rest = rested();
        rest.tissue = plm_tissue_saturated(surface_bar, rules->water_vapour_bar, rules->air_n2_frac);
        return rest;
    }
    struct plm_start rest = *start;
    recent_from_totals(&rest);
    recent_age(&rest, interval_s);
    day_total(&rest);
    rest.surface_interval_s = start->surface_interval_s + interval_s;
    off_gas(&rest, interval_s, surface_bar, rules);
    return rest;
}
