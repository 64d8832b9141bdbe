/*
 * Sorting the minutes of an ascent by stop depth.
 * Must not know what is owed.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/stops.h"

struct plmi_stop_grid plmi_stop_grid_of(const struct plm_rules *rules)
{
    return (struct plmi_stop_grid){rules->last_stop_m, rules->stop_step_m};
}

double plmi_stop_depth_m(const struct plmi_stop_grid *grid, int index)
{
    /* Below the last stop the grid is that of whole steps: 4.5 m last and 3 m steps give 4.5, 6, 9 ... */
    if (index == 0) {
        return grid->last_m;
    }
    return grid->step_m * (floor(grid->last_m / grid->step_m + 1e-9) + index);
}

double plmi_stop_upper_m(const struct plmi_stop_grid *grid, int index)
{
    double above_m = index > 0 ? plmi_stop_depth_m(grid, index - 1) : 0.0;
    return 0.5 * (above_m + plmi_stop_depth_m(grid, index));
}

double plmi_stop_lower_m(const struct plmi_stop_grid *grid, int index)
{
    return plmi_stop_upper_m(grid, index + 1);
}

int plmi_stop_index(const struct plmi_stop_grid *grid, double depth_m)
{
    double steps = (depth_m - grid->last_m) / grid->step_m;
    int index = steps > 0.0 ? (int)fmin(steps, 1e6) : 0;
    while (depth_m >= plmi_stop_lower_m(grid, index)) {
        index++;
    }
    while (index >= 0 && depth_m < plmi_stop_upper_m(grid, index)) {
        index--;
    }
    return index;
}

/* Seconds of a straight leg between depths a and b that lie within low <= depth < high. */
static double within_s(double a_m, double b_m, double dt_s, double low_m, double high_m)
{
    if (a_m == b_m) {
        return a_m >= low_m && a_m < high_m ? dt_s : 0.0;
    }
    double from_m = fmax(fmin(a_m, b_m), low_m), to_m = fmin(fmax(a_m, b_m), high_m);
    return to_m > from_m ? dt_s * (to_m - from_m) / fabs(b_m - a_m) : 0.0;
}

void plmi_stop_seconds(double *seconds, int bands, const struct plmi_stop_grid *grid, const struct plm_point *points,
                       size_t first, size_t last)
{
    for (size_t i = first; i < last; i++) {
        double a_m = points[i].depth_m, b_m = points[i + 1].depth_m;
        double dt_s = (double)(points[i + 1].time_ms - points[i].time_ms) / 1000.0;
        int from = plmi_stop_index(grid, fmin(a_m, b_m)), to = plmi_stop_index(grid, fmax(a_m, b_m));
        for (int band = from < 0 ? 0 : from; band <= to && band < bands; band++) {
            seconds[band] += within_s(a_m, b_m, dt_s, plmi_stop_upper_m(grid, band), plmi_stop_lower_m(grid, band));
        }
    }
}
