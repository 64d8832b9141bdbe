/*
 * The view's course of the dive: when it was over, how long how deep, how fast upwards. Must not judge a rate.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/clock.h"
#include "report/view/build.h"
#include "tissue/oxygen.h"

static const double depths_m[] = {0, 6, 10, 20, 30, 40, 60, 80, 100, 120, 150, 200};

static void depths_add(struct plmi_view *view, const struct plm_trace *trace)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    double deepest_m = plm_trace_summary_get(trace)->max_depth_m;
    _Static_assert(sizeof depths_m / sizeof depths_m[0] <= PLMI_VIEW_DEPTHS_MAX, "room for all depths");
    for (size_t k = 0; k < sizeof depths_m / sizeof depths_m[0] && depths_m[k] < deepest_m; k++) {
        struct plmi_view_depth *one = &view->depths[view->depth_count++];
        one->deeper_m = depths_m[k];
        for (size_t i = 1; i < count; i++) {
            double dt_min = (double)(points[i].time_ms - points[i - 1].time_ms) / 60e3;
            if (dt_min > 0) {
                one->minutes += plmi_minutes_above(points[i - 1].depth_m, points[i].depth_m, dt_min, depths_m[k]);
            }
        }
    }
}

/* The fastest fitted rate of ascent deeper than from_m and down to to_m. */
static struct plmi_view_climb climb_find(const struct plm_trace *trace, double from_m, double to_m)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    struct plmi_view_climb climb = {from_m, to_m, (double)NAN, (double)NAN, (double)NAN};
    for (size_t i = 0; i < count; i++) {
        const struct plm_point *point = &points[i];
        if (point->depth_m <= from_m || point->depth_m > to_m || !(point->rate_m_min > 0) ||
            point->rate_m_min <= climb.rate_m_min) {
            continue;
        }
        climb.rate_m_min = point->rate_m_min;
        climb.at_s = (double)point->time_ms / 1e3;
        climb.depth_m = point->depth_m;
    }
    return climb;
}

static void surfaced_add(struct plmi_view *view, const struct plmi_view_from *from)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(from->debriefed->trace, &count);
    struct plm_stamp stamp = from->info->start;
    struct plmi_text clock;
    view->surfaced_s = (double)points[from->summary->surfaced].time_ms / 1e3;
    view->surfaced = from->summary->reaches_surface;
    stamp.local_ms += points[from->summary->surfaced].time_ms;
    if (!stamp.known || !stamp.has_clock) {
        return;
    }
    plmi_text_init(&clock);
    plmi_clock_write(&clock, &stamp);
    view->surfaced_clock = plmi_view_keep_text(view, &clock);
}

void plmi_view_add_course(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_trace *trace = from->debriefed->trace;
    double band_m = from->rules->ascent_shallow_band_m;
    surfaced_add(view, from);
    depths_add(view, trace);
    view->climbs[PLMI_VIEW_CLIMB_DEEP] = climb_find(trace, band_m, (double)INFINITY);
    view->climbs[PLMI_VIEW_CLIMB_SHALLOW] = climb_find(trace, -1, band_m);
}
