/*
 * Samples into strips of time: the least and greatest depth and the deepest ceiling of each. Must not hide an extreme.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/text/plot_grid.h"

/* Room under the greatest depth, as a factor of its level. */
#define ROOM_BELOW 1.02

static double level(const struct plmi_plot_grid *grid, double depth_m)
{
    return log(plm_ambient_bar(grid->surface_bar, fmax(depth_m, 0), grid->water_kg_m3) / grid->surface_bar);
}

double plmi_plot_grid_share(const struct plmi_plot_grid *grid, double depth_m)
{
    return fmin(level(grid, depth_m) / grid->lowest, 1);
}

static int strip_of(const struct plmi_plot_grid *grid, double time_s)
{
    int count = grid->columns * PLMI_PLOT_ACROSS;
    double share = (time_s - grid->from_s) / (grid->to_s - grid->from_s);
    return (int)fmin(fmax(floor(share * count), 0), count - 1);
}

int plmi_plot_grid_column(const struct plmi_plot_grid *grid, double time_s)
{
    return strip_of(grid, time_s) / PLMI_PLOT_ACROSS;
}

static void strip_take(struct plmi_plot_grid *grid, int strip, double depth_m, double ceiling_m)
{
    struct plmi_plot_strip *one = &grid->strips[strip];
    double depth = plmi_plot_grid_share(grid, depth_m);
    one->least = fmin(one->least, depth);
    one->most = fmax(one->most, depth);
    one->ceiling = fmax(one->ceiling, plmi_plot_grid_share(grid, ceiling_m));
    one->above = one->above || depth_m < ceiling_m;
}

/* The line from one point to the next, strip by strip. */
static void leg_take(struct plmi_plot_grid *grid, const struct plm_point *a, const struct plm_point *b)
{
    double a_s = (double)a->time_ms / 1e3, b_s = (double)b->time_ms / 1e3;
    int first = strip_of(grid, a_s), last = strip_of(grid, b_s);
    double width_s = (grid->to_s - grid->from_s) / (grid->columns * PLMI_PLOT_ACROSS);
    strip_take(grid, first, a->depth_m, a->ceiling_m);
    strip_take(grid, last, b->depth_m, b->ceiling_m);
    for (int strip = first; strip < last; strip++) {
        double share = (grid->from_s + (strip + 1) * width_s - a_s) / (b_s - a_s);
        double depth_m = a->depth_m + share * (b->depth_m - a->depth_m);
        double ceiling_m = a->ceiling_m + share * (b->ceiling_m - a->ceiling_m);
        strip_take(grid, strip, depth_m, ceiling_m);
        strip_take(grid, strip + 1, depth_m, ceiling_m);
    }
}

void plmi_plot_grid_fill(struct plmi_plot_grid *grid, const struct plmi_view *view, int columns, int rows)
{
    size_t count;
    const struct plm_assumed *assumed = plm_trace_assumed(view->debriefed->trace);
    const struct plm_point *points = plm_trace_points(view->debriefed->trace, &count);
    double deepest_m = 1;
    for (size_t i = 0; i < count; i++) {
        deepest_m = fmax(deepest_m, points[i].depth_m);
    }
    grid->columns = columns;
    grid->rows = rows;
    grid->from_s = (double)points[0].time_ms / 1e3;
    grid->to_s = fmax((double)points[count - 1].time_ms / 1e3, grid->from_s + 1);
    grid->surface_bar = assumed->surface_bar;
    grid->water_kg_m3 = assumed->water_kg_m3;
    grid->lowest = ROOM_BELOW * level(grid, deepest_m);
    for (int strip = 0; strip < columns * PLMI_PLOT_ACROSS; strip++) {
        grid->strips[strip] = (struct plmi_plot_strip){(double)INFINITY, -(double)INFINITY, 0, false};
    }
    for (size_t i = 0; i + 1 < count; i++) {
        leg_take(grid, &points[i], &points[i + 1]);
    }
}
