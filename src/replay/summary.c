/*
 * Whole-dive figures of a trace.
 * Must not judge: limits here only tell how long something lay above them.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/bottom.h"
#include "replay/last_ascent.h"
#include "replay/summary.h"
#include "tissue/oxygen.h"
#include "tissue/oxygen_limits.h"
#include "tissue/tissue.h"

static const double po2_band_bar[PLM_PO2_BANDS] = {1.0, 1.2, 1.3, 1.4, 1.5, 1.6};

void plmi_summary_init(struct plm_trace_summary *summary, double time_s, const struct plmi_moment *moment)
{
    memset(summary, 0, sizeof *summary);
    summary->max_po2_bar = summary->min_po2_bar = moment->inspired.o2_bar;
    summary->max_po2_at_s = summary->min_po2_at_s = time_s;
    summary->max_density_g_l = moment->density_g_l;
    summary->max_density_at_s = time_s;
}

static void extremes_add(struct plm_trace_summary *summary, double time_s, const struct plmi_moment *moment)
{
    if (moment->inspired.o2_bar > summary->max_po2_bar) {
        summary->max_po2_bar = moment->inspired.o2_bar;
        summary->max_po2_at_s = time_s;
    }
    if (moment->inspired.o2_bar < summary->min_po2_bar) {
        summary->min_po2_bar = moment->inspired.o2_bar;
        summary->min_po2_at_s = time_s;
    }
    if (moment->density_g_l > summary->max_density_g_l) {
        summary->max_density_g_l = moment->density_g_l;
        summary->max_density_at_s = time_s;
    }
}

void plmi_summary_piece(struct plm_trace_summary *summary, double time_s, const struct plmi_piece *piece,
                        const struct plm_rules *rules)
{
    double dt_min = piece->dt_s / 60.0;
    double start_bar = piece->start.inspired.o2_bar, end_bar = piece->end.inspired.o2_bar;
    extremes_add(summary, time_s, &piece->start);
    extremes_add(summary, time_s + piece->dt_s, &piece->end);
    for (int i = 0; i < PLM_PO2_BANDS && fmax(start_bar, end_bar) > po2_band_bar[i]; i++) {
        summary->po2_band_min[i] += plmi_minutes_above(start_bar, end_bar, dt_min, po2_band_bar[i]);
    }
    double beyond_bar = plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS - 1] + rules->cns_beyond_bar;
    if (fmax(start_bar, end_bar) > beyond_bar) {
        summary->cns_beyond_min += plmi_minutes_above(start_bar, end_bar, dt_min, beyond_bar);
    }
    double start_g_l = piece->start.density_g_l, end_g_l = piece->end.density_g_l;
    double densest_g_l = fmax(start_g_l, end_g_l);
    if (densest_g_l > rules->density_note_g_l) {
        summary->density_note_min += plmi_minutes_above(start_g_l, end_g_l, dt_min, rules->density_note_g_l);
    }
    if (densest_g_l > rules->density_caution_g_l) {
        summary->density_caution_min += plmi_minutes_above(start_g_l, end_g_l, dt_min, rules->density_caution_g_l);
    }
}

static double seconds(const struct plm_point *point)
{
    return (double)point->time_ms / 1000.0;
}

/* The largest and smallest of what stands in the points. */
static void points_add(struct plm_trace_summary *summary, const struct plm_point *points, size_t count)
{
    summary->peak_gradient_pct = -(double)INFINITY;
    summary->max_depth_m = -1.0;
    summary->min_clearance_m = summary->min_clearance_at_s = (double)NAN;
    for (size_t i = 0; i < count; i++) {
        const struct plm_point *point = &points[i];
        if (point->depth_m > summary->max_depth_m) {
            summary->max_depth_m = point->depth_m;
            summary->max_depth_at_s = seconds(point);
        }
        if (point->gradient_pct > summary->peak_gradient_pct) {
            summary->peak_gradient_pct = point->gradient_pct;
            summary->peak_at_s = seconds(point);
            summary->peak_depth_m = point->depth_m;
            summary->peak_leading = point->leading;
        }
        if (point->ceiling_m > 0.0 && !(point->clearance_m >= summary->min_clearance_m)) {
            summary->min_clearance_m = point->clearance_m;
            summary->min_clearance_at_s = seconds(point);
        }
        summary->deepest_ceiling_m = fmax(summary->deepest_ceiling_m, point->ceiling_m);
        summary->max_end_m = fmax(summary->max_end_m, point->end_m);
    }
}

/* Where the dive leaves the surface, the bottom and the water. */
static void phases_find(struct plm_trace_summary *summary, const struct plm_point *points, size_t count,
                        const struct plmi_summary_course *course, const struct plm_rules *rules)
{
    struct plmi_bottom bottom = plmi_bottom_find(points, count, course->planned_max_m, rules);
    size_t first = bottom.first;
    while (first > 0 && points[first].depth_m >= rules->surface_depth_m) {
        first--;
    }
    summary->descent_start = first;
    summary->bottom_end = bottom.end;
    size_t surfaced = course->wet.to > bottom.end ? course->wet.to : bottom.end + 1;
    summary->surfaced = surfaced == count ? count - 1 : surfaced;
    summary->reaches_surface = course->wet.surfaced;
}

/* Between leaving and reaching the surface, weighted by time. */
static double mean_depth_m(const struct plm_point *points, size_t first, size_t last)
{
    double area = 0.0;
    for (size_t i = first; i < last; i++) {
        double dt_s = (double)(points[i + 1].time_ms - points[i].time_ms) / 1000.0;
        area += 0.5 * (points[i].depth_m + points[i + 1].depth_m) * dt_s;
    }
    double span_s = (double)(points[last].time_ms - points[first].time_ms) / 1000.0;
    return span_s > 0.0 ? area / span_s : points[first].depth_m;
}

/* The gradient on reaching the surface, at surface pressure: where in the swell the head is counts for nothing. */
static void surfacing_find(struct plm_trace_summary *summary, const struct plm_point *points,
                           const struct plm_rules *rules, double surface_bar)
{
    int leading;
    summary->surfacing_gradient_pct = (double)NAN;
    if (summary->ends_in_water) {
        return;
    }
    const struct plm_point *surfaced = &points[summary->surfaced];
    plmi_gradient_pct(&surfaced->tissue, plm_zhl16_get(rules->model), surface_bar, &leading);
    summary->surfacing_gradient_pct = surfaced->surfacing_gradient_pct;
    summary->surfacing_leading = leading + 1;
}

void plmi_summary_finish(struct plm_trace *trace, const struct plm_rules *rules,
                         const struct plmi_summary_course *course)
{
    struct plm_trace_summary *summary = &trace->summary;
    summary->ends_in_water = course->ends_in_water;
    const struct plm_point *points = trace->points, *last = &points[trace->count - 1];
    summary->duration_s = (double)(last->time_ms - points[0].time_ms) / 1000.0;
    points_add(summary, points, trace->count);
    phases_find(summary, points, trace->count, course, rules);
    summary->mean_depth_m = mean_depth_m(points, summary->descent_start, summary->surfaced);
    plmi_last_ascent_fill(summary, points, rules->surface_depth_m);
    surfacing_find(summary, points, rules, trace->assumed.surface_bar);
    summary->cns_pct = last->cns_pct;
    summary->cns_day_pct = last->cns_day_pct;
    summary->otu = last->otu;
    summary->esot = last->esot;
}
