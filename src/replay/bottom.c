/*
 * Finding where the bottom is left.
 * Must not look at decompression.
 * SPDX-License-Identifier: MIT
 */
#include "replay/bottom.h"

#include <math.h>

/* [m/min] an ascent faster than this leaves the bottom. Convention */
static const double leaving_m_min = 2.0;

static double greatest_m(const struct plm_point *points, size_t count)
{
    double most_m = points[0].depth_m;
    for (size_t i = 1; i < count; i++) {
        most_m = fmax(most_m, points[i].depth_m);
    }
    return most_m;
}

/* Between a point and the next. */
static double step_m_min(const struct plm_point *points, size_t i)
{
    double dt_s = (double)(points[i + 1].time_ms - points[i].time_ms) / 1000.0;
    return dt_s > 0.0 ? (points[i].depth_m - points[i + 1].depth_m) / dt_s * 60.0 : 0.0;
}

/* Back from the last point at the depth of the bottom, which the ascent has passed, to where it sets in: the fitted
 * rate shows it half a window early. */
static size_t sets_in(const struct plm_point *points, size_t first, size_t last)
{
    size_t end = last;
    while (end > first && points[end].rate_m_min > leaving_m_min) {
        end--;
    }
    while (end < last && step_m_min(points, end) <= leaving_m_min) {
        end++;
    }
    return end;
}

struct plmi_bottom plmi_bottom_find(const struct plm_point *points, size_t count, double planned_max_m,
                                    const struct plm_rules *rules)
{
    double most_m = greatest_m(points, count);
    double bottom_m = rules->bottom_frac * (planned_max_m > 0.0 ? fmin(most_m, planned_max_m) : most_m);
    struct plmi_bottom bottom = {0, count - 1};
    while (points[bottom.first].depth_m < bottom_m) {
        bottom.first++;
    }
    while (points[bottom.end].depth_m < bottom_m) {
        bottom.end--;
    }
    if (bottom.end + 1 < count && points[bottom.end + 1].rate_m_min > leaving_m_min) {
        bottom.end = sets_in(points, bottom.first, bottom.end);
    }
    return bottom;
}
