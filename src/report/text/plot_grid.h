/*
 * What stands in each cell of a picture of letters. For plot.c and plot_grid.c alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEXT_PLOT_GRID_H
#define PLM_REPORT_TEXT_PLOT_GRID_H

#include "report/view/view.h"

#define PLMI_PLOT_COLUMNS_MAX 100
#define PLMI_PLOT_ROWS_MAX    16

/* Parts of a cell, across and down, that a line can pass through. */
#define PLMI_PLOT_ACROSS 2
#define PLMI_PLOT_DOWN   4
#define PLMI_PLOT_STRIPS (PLMI_PLOT_COLUMNS_MAX * PLMI_PLOT_ACROSS)

/* One strip of time: from the least to the greatest depth met in it, as shares of the height; none: least above most.
 */
struct plmi_plot_strip {
    double least, most, ceiling;
    bool above;
};

struct plmi_plot_grid {
    double from_s, to_s;                     /* runtime over the whole width */
    double surface_bar, water_kg_m3, lowest; /* lowest: level of the lowest edge */
    int columns, rows;                       /* of cells */
    struct plmi_plot_strip strips[PLMI_PLOT_STRIPS];
};

/* Columns without what stands left of the axis. */
void plmi_plot_grid_fill(struct plmi_plot_grid *grid, const struct plmi_view *view, int columns, int rows);
/* Share of the height, 0 the surface, at which a depth lies. */
double plmi_plot_grid_share(const struct plmi_plot_grid *grid, double depth_m);
/* Column of a runtime, held within the picture. */
int plmi_plot_grid_column(const struct plmi_plot_grid *grid, double time_s);

#endif
