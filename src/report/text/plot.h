/*
 * A dive as a picture of letters: depth as a line, the ceiling as filled room above it, findings by their numbers under
 * the axis. Depth is drawn by equal factors of pressure, so that the last metres have the room that they need.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_TEXT_PLOT_H
#define PLM_REPORT_TEXT_PLOT_H

#include "report/output/page.h"
#include "report/text/plot_grid.h"

struct plmi_plot_options {
    int columns; /* of the whole picture, 40..PLMI_PLOT_COLUMNS_MAX           */
    int rows;    /* of depth, 4..PLMI_PLOT_ROWS_MAX; axis and marks come to it */
    bool ascii;  /* no letters beyond ASCII                                   */
    bool legend; /* marks of findings, and a line that says what is what      */
};

/* Lines of the picture; ends the last one. */
void plmi_plot_write(struct plmi_page *page, const struct plmi_view *view, const struct plmi_plot_options *options);

#endif
