/*
 * Phases of a dive, and time spent by depth.
 * Must not compare dives.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/phases.h"

#include <math.h>

struct plmi_review_phases plmi_review_phases_of(const struct plm_review_scene *scene)
{
    const struct plm_trace_summary *summary = scene->summary;
    return (struct plmi_review_phases){.start_s = plmi_review_time_s(scene, summary->descent_start),
                                       .left = summary->bottom_end,
                                       .left_s = plmi_review_time_s(scene, summary->bottom_end),
                                       .left_depth_m = scene->points[summary->bottom_end].depth_m,
                                       .surfaced_s = plmi_review_time_s(scene, summary->surfaced)};
}

/* [s] share of one interval between two depths. */
static double inside_s(double dt_s, double a_m, double b_m, double upper_m, double lower_m)
{
    double shallow_m = fmin(a_m, b_m), deep_m = fmax(a_m, b_m);
    if (deep_m - shallow_m < 1e-9) {
        return shallow_m >= upper_m && shallow_m < lower_m ? dt_s : 0;
    }
    double common_m = fmin(deep_m, lower_m) - fmax(shallow_m, upper_m);
    return common_m > 0 ? dt_s * common_m / (deep_m - shallow_m) : 0;
}

double plmi_review_dwell_s(const struct plm_review_scene *scene, double from_s, double to_s, double upper_m,
                           double lower_m)
{
    double sum_s = 0;
    for (size_t i = 1; i < scene->count; i++) {
        double a_m = scene->points[i - 1].depth_m, b_m = scene->points[i].depth_m;
        if ((a_m < upper_m && b_m < upper_m) || (a_m >= lower_m && b_m >= lower_m)) {
            continue;
        }
        double start_s = plmi_review_time_s(scene, i - 1), end_s = plmi_review_time_s(scene, i);
        if (start_s >= from_s && end_s <= to_s) {
            sum_s += inside_s(end_s - start_s, a_m, b_m, upper_m, lower_m);
        }
    }
    return sum_s;
}

double plmi_review_last_at_s(const struct plm_review_scene *scene, double depth_m)
{
    size_t i = scene->count - 1;
    while (i > 0 && scene->points[i].depth_m < depth_m) {
        i--;
    }
    if (scene->points[i].depth_m < depth_m) {
        return NAN;
    }
    if (i + 1 == scene->count) {
        return plmi_review_time_s(scene, i);
    }
    double here_m = scene->points[i].depth_m, next_m = scene->points[i + 1].depth_m;
    double share = here_m > next_m ? (here_m - depth_m) / (here_m - next_m) : 0;
    return plmi_review_time_s(scene, i) + share * (plmi_review_time_s(scene, i + 1) - plmi_review_time_s(scene, i));
}

size_t plmi_review_point_at(const struct plm_review_scene *scene, double time_s)
{
    size_t low = 0, high = scene->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (plmi_review_time_s(scene, middle) <= time_s) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low > 0 ? low - 1 : 0;
}
