/*
 * Decompression owed at the end of the bottom phase, and done since.
 * Must not judge what was done.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/decompression.h>

#include "ascent/breathing.h"
#include "ascent/way.h"
#include "replay/achieved.h"
#include "replay/cost.h"
#include "replay/stops.h"
#include "replay/trace.h"

/* [s] a stop that was not owed is listed when it was dwelt at for this much longer than the way through takes. */
static const double dwelt_s = 60.0;

/* Owed and done by band of the stop grid. */
struct bands {
    struct plmi_stop_grid grid;
    double owed_s[PLM_STOPS_MAX], done_s[PLM_STOPS_MAX];
};

static void owed_find(struct bands *bands, const struct plmi_schedule *schedule)
{
    for (int i = 0; i < schedule->stop_count; i++) {
        int band = plmi_stop_index(&bands->grid, schedule->stops[i].depth_m);
        /* Nothing owed is lost, wherever a rule puts its stops. */
        band = band < 0 ? 0 : band < PLM_STOPS_MAX ? band : PLM_STOPS_MAX - 1;
        bands->owed_s[band] += schedule->stops[i].wait_s;
    }
}

/* Lists what was owed or dwelt at, deepest first, with totals. */
static void stops_list(struct plm_decompression *out, const struct bands *bands, const struct plm_rules *rules)
{
    for (int band = PLM_STOPS_MAX - 1; band >= 0; band--) {
        double way_s = plmi_way_s(rules, plmi_stop_lower_m(&bands->grid, band), plmi_stop_upper_m(&bands->grid, band));
        double owed_s = bands->owed_s[band], done_s = bands->done_s[band];
        if (owed_s > 0.0 || done_s >= dwelt_s + way_s) {
            out->stops[out->stop_count++] = (struct plm_stop){plmi_stop_depth_m(&bands->grid, band), owed_s, done_s};
            out->owed_s += owed_s;
            out->done_s += done_s;
            out->way_s += way_s;
        }
    }
}

/* Depths of the way to the surface that no mix covers. */
static void uncovered_find(struct plm_uncovered *out, const struct plmi_ascent_from *from,
                           const struct plm_rules *rules)
{
    const double least_m = 0.1;
    double bar_per_m = plm_bar_per_m(from->water_kg_m3), gap_from_bar, gap_to_bar;
    double at_bar = from->surface_bar + from->depth_m * bar_per_m;
    double top_bar = from->surface_bar + rules->surface_depth_m * bar_per_m;
    struct plmi_breathing breathing;
    plmi_breathing_find(&breathing, &from->gas, rules);
    while (out->count < PLM_UNCOVERED_MAX &&
           plmi_breathing_gap(&breathing, at_bar, top_bar, &gap_from_bar, &gap_to_bar)) {
        at_bar = gap_to_bar;
        if (gap_from_bar - gap_to_bar >= least_m * bar_per_m) {
            out->depths[out->count].from_m = (gap_from_bar - from->surface_bar) / bar_per_m;
            out->depths[out->count].to_m = (gap_to_bar - from->surface_bar) / bar_per_m;
            out->count++;
        }
    }
}

/* Open circuit from the end of the bottom: as it was breathed, or by leaving the loop there. */
static void open_circuit_find(struct plm_decompression *out, struct plmi_ascent_from *from,
                              const struct plm_zhl16 *model, const struct plm_rules *rules)
{
    out->bailout_tts_s = (double)NAN;
    if (from->gas.mode == PLM_MODE_OPEN) {
        uncovered_find(&out->beyond_limits, from, rules);
        return;
    }
    if (from->gas.carried_count > 0) {
        plmi_ascent_bail_out(from);
        uncovered_find(&out->bailout_gaps, from, rules);
        out->bailout_tts_s = out->bailout_gaps.count > 0 ? (double)NAN : plmi_tts_s(from, model, rules);
        out->bailout = isfinite(out->bailout_tts_s);
    }
}

/* Whether there was a ceiling where the diver could go no higher than to the surface. */
static bool ceiling_at_last_stop(const struct plm_trace *trace, const struct plm_rules *rules)
{
    const struct plm_trace_summary *summary = &trace->summary;
    double lower_m = rules->last_stop_m + rules->stop_step_m / 2.0;
    for (size_t i = summary->bottom_end; i < summary->surfaced; i++) {
        if (trace->points[i].ceiling_m > 0.0 && trace->points[i].depth_m < lower_m &&
            trace->points[i].depth_m > rules->last_stop_m / 2.0) {
            return true;
        }
    }
    return false;
}

/* The first point from which on there is no ceiling until the diver surfaces; surfaced itself where there is one. */
static size_t cleared_at(const struct plm_trace *trace, bool *any)
{
    size_t at = trace->summary.surfaced;
    while (at > 0 && !(trace->points[at - 1].ceiling_m > 0.0)) {
        at--;
    }
    *any = at > 0;
    return at;
}

/* Whether the ceiling had cleared when the diver surfaced: the state decides, and not what was done at which stop. */
static void leaving_find(struct plm_decompression *out, const struct plm_dive *dive, const struct plm_trace *trace,
                         const struct plm_rules *rules)
{
    const double least_s = 1.0;
    const struct plm_trace_summary *summary = &trace->summary;
    const struct plm_point *surfaced = &trace->points[summary->surfaced];
    struct plmi_ascent_from from;
    struct plmi_schedule schedule;
    plmi_ascent_carried(&from.gas, dive);
    plmi_ascent_from_point(&from, &trace->assumed, surfaced);
    plmi_ascent_keep_below(&from, surfaced, rules);
    plmi_schedule_find(&schedule, &from, plm_zhl16_get(rules->model), rules);
    double owed_s = schedule.status == PLM_STATUS_OK ? schedule.stop_total_s : (double)INFINITY;
    out->left_owing_s = surfaced->ceiling_m > 0.0 && owed_s >= least_s ? owed_s : 0.0;
    bool any;
    const struct plm_point *cleared = &trace->points[cleared_at(trace, &any)];
    bool known = any && !(out->left_owing_s > 0.0) && !summary->ends_in_water;
    out->cleared_s = known ? (double)(surfaced->time_ms - cleared->time_ms) / 1000.0 : (double)NAN;
    out->required = out->owed_s > 0.0 || out->left_owing_s > 0.0 || ceiling_at_last_stop(trace, rules);
}

enum plm_status plm_decompression_find(struct plm_decompression *out, const struct plm_dive *dive,
                                       const struct plm_trace *trace, const struct plm_replay_options *options,
                                       const struct plm_diag_sink *sink)
{
    (void)sink;
    const struct plm_rules *rules = options->rules;
    const struct plm_trace_summary *summary = &trace->summary;
    const struct plm_zhl16 *model = plm_zhl16_get(rules->model);
    const struct plm_point *end = &trace->points[summary->bottom_end];
    const struct plm_point *surfaced = &trace->points[summary->surfaced];
    struct plmi_ascent_from from;
    struct plmi_schedule schedule;
    struct bands bands = {.grid = plmi_stop_grid_of(rules)};
    memset(out, 0, sizeof *out);
    plmi_ascent_carried(&from.gas, dive);
    plmi_ascent_from_point(&from, &trace->assumed, end);
    plmi_schedule_find(&schedule, &from, model, rules);
    owed_find(&bands, &schedule);
    plmi_stop_seconds(bands.done_s, PLM_STOPS_MAX, &bands.grid, trace->points, summary->bottom_end, summary->surfaced);
    stops_list(out, &bands, rules);
    leaving_find(out, dive, trace, rules);
    out->bottom_end_s = (double)end->time_ms / 1000.0;
    out->bottom_end_depth_m = end->depth_m;
    out->tts_s = schedule.status == PLM_STATUS_OK ? schedule.tts_s : (double)INFINITY;
    out->ascent_s = summary->ends_in_water ? (double)NAN : (double)(surfaced->time_ms - end->time_ms) / 1000.0;
    out->deco_cost_min_per_min = plmi_minute_cost_min(&from, model, rules, end->po2_bar);
    open_circuit_find(out, &from, model, rules);
    out->achieved_gf_high_pct = summary->surfacing_gradient_pct;
    out->achieved_gf_low_pct = isnan(out->achieved_gf_high_pct)
                                   ? (double)NAN
                                   : plmi_achieved_gf_low_pct(trace, out->achieved_gf_high_pct, rules);
    return PLM_STATUS_OK;
}
