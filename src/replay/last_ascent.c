/*
 * The last way to the surface: how long from some depths, and the fastest step between two samples.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "replay/last_ascent.h"

#include <math.h>

static const double from_depths_m[PLM_LAST_ASCENTS] = {10.0, 6.0, 3.0};

static double seconds(const struct plm_point *point)
{
    return (double)point->time_ms / 1000.0;
}

/* [s] when a depth is passed between a deeper point and the next. */
static double passed_s(const struct plm_point *deeper, double depth_m)
{
    const struct plm_point *next = deeper + 1;
    double share = (deeper->depth_m - depth_m) / (deeper->depth_m - next->depth_m);
    return seconds(deeper) + share * (seconds(next) - seconds(deeper));
}

/* The last point at or deeper than a depth, not after another one; the first point where none is. */
static size_t last_below(const struct plm_point *points, size_t point, double depth_m)
{
    while (point > 0 && points[point].depth_m < depth_m) {
        point--;
    }
    return point;
}

bool plmi_passage_find(struct plmi_passage *out, const struct plm_point *points, size_t surfaced, double from_m,
                       double surface_m)
{
    const struct plm_point *end = &points[surfaced];
    double to_m = fmax(end->depth_m, surface_m);
    size_t begin = last_below(points, surfaced, from_m), arrive = last_below(points, surfaced, to_m);
    if (to_m >= from_m || points[begin].depth_m < from_m) {
        return false;
    }
    *out = (struct plmi_passage){
        .from_m = from_m,
        .to_m = to_m,
        .from_s = passed_s(&points[begin], from_m),
        .to_s = arrive < surfaced ? passed_s(&points[arrive], to_m) : seconds(end),
    };
    return true;
}

double plmi_passage_rate_m_min(const struct plmi_passage *passage)
{
    double minutes = (passage->to_s - passage->from_s) / 60.0;
    return minutes > 0.0 ? (passage->from_m - passage->to_m) / minutes : (double)NAN;
}

/* Between two samples, from the end of the bottom to the surface. */
static void fastest_step_fill(struct plm_trace_summary *summary, const struct plm_point *points)
{
    summary->fastest_step_m_min = summary->fastest_step_at_s = (double)NAN;
    for (size_t i = summary->bottom_end; i < summary->surfaced; i++) {
        double dt_s = seconds(&points[i + 1]) - seconds(&points[i]);
        double rate_m_min = 60.0 * (points[i].depth_m - points[i + 1].depth_m) / dt_s;
        if (dt_s > 0.0 && rate_m_min > 0.0 && !(rate_m_min <= summary->fastest_step_m_min)) {
            summary->fastest_step_m_min = rate_m_min;
            summary->fastest_step_at_s = seconds(&points[i + 1]);
        }
    }
}

void plmi_last_ascent_fill(struct plm_trace_summary *summary, const struct plm_point *points, double surface_m)
{
    for (int i = 0; i < PLM_LAST_ASCENTS; i++) {
        struct plmi_passage passage;
        bool known = !summary->ends_in_water &&
                     plmi_passage_find(&passage, points, summary->surfaced, from_depths_m[i], surface_m);
        summary->last_ascent_from_m[i] = from_depths_m[i];
        summary->last_ascent_s[i] = known ? passage.to_s - passage.from_s : (double)NAN;
    }
    fastest_step_fill(summary, points);
}
