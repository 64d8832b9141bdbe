/*
 * Pictures as SVG, written only: elements placed in percent of the picture, and paths in whole units of a plot that is
 * stretched over it, so that a picture fits any width. No meaning. Looks belong to the style sheet, by class.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_SVG_H
#define PLM_SYNTAX_SVG_H

#include "base/text.h"

/* A point of the plot, in its units. */
struct plmi_svg_point {
    int x, y;
};

/* What a graphic is called and what it shows; log text is escaped. */
struct plmi_svg_name {
    const char *title, *desc;
};

/* <svg role="img"> of this height with title and description, as wide as there is room. */
void plmi_svg_begin(struct plmi_text *out, const char *class_name, int height_px, const struct plmi_svg_name *name);
void plmi_svg_end(struct plmi_text *out);

/* A plot of width x height units, stretched over the picture. Only paths belong into it. */
void plmi_svg_plot_begin(struct plmi_text *out, int width, int height);
void plmi_svg_plot_end(struct plmi_text *out);
/* One path of straight lines through points[count]; a path may have several runs. A lone point is a dot where
 * lines have round ends. closed: joined to its start. */
void plmi_svg_path_begin(struct plmi_text *out, const char *class_name);
void plmi_svg_path_run(struct plmi_text *out, const struct plmi_svg_point *points, size_t count, bool closed);
void plmi_svg_path_end(struct plmi_text *out);

/* Outside a plot, in percent of the picture. */
void plmi_svg_line(struct plmi_text *out, const char *class_name, double x1_pct, double y1_pct, double x2_pct,
                   double y2_pct);
void plmi_svg_rect(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, double width_pct,
                   double height_pct);
void plmi_svg_text(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, const char *text);
/* What follows is in pixels from this point, and may reach over it. */
void plmi_svg_at_begin(struct plmi_text *out, const char *class_name, double x_pct, double y_pct);
void plmi_svg_at_end(struct plmi_text *out);
/* What follows is in percent of this part, and is cut off at its edges. */
void plmi_svg_part_begin(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, double width_pct,
                         double height_pct);
void plmi_svg_part_end(struct plmi_text *out);

#endif
