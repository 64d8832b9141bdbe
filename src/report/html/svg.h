/*
 * Pictures of curves: scales, round steps, and lines made simple without hiding anything. A picture is
 * PLMI_SVG_WIDTH_PX wide by its own measure and is stretched to any width; heights are pixels. For every picture of a
 * report.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_SVG_H
#define PLM_REPORT_HTML_SVG_H

#include <stdbool.h>
#include <stddef.h>

#include "syntax/svg.h"

#define PLMI_SVG_WIDTH_PX 1000
/* Units of a plot's paths in a pixel: what rounding costs is an eighth of a pixel. */
#define PLMI_SVG_PER_PX 4
/*
 * No sample lies further than this from what is drawn [px]: half a pixel in height, a pixel along the axis, on a
 * picture of full width. The greatest and the least value of a curve are kept to the unit.
 */
#define PLMI_SVG_TOLERANCE_PX 0.5
#define PLMI_SVG_COLUMN_PX    1.0

/* Words along the axis of time, at most: as many as a narrow window has room for. */
#define PLMI_SVG_TIME_LABELS 8

/* A linear scale: value `from` lies at at_from, `to` at at_to [percent of the picture]. */
struct plmi_svg_scale {
    double from, to, at_from_pct, at_to_pct;
};
/* [%] NaN for NaN. */
double plmi_svg_scale_pct(const struct plmi_svg_scale *scale, double value);
/* The same, but held between the ends of the scale. */
double plmi_svg_scale_held_pct(const struct plmi_svg_scale *scale, double value);

/* 1, 2 or 5 times a power of ten, so that `span` holds at most `most` of it. span > 0. */
double plmi_svg_step(double span, int most);
/* [s] a round step of time (1, 2, 5, 10, 15, 20, 30 min, 1, 2, 4, 8 h, ...), so that span_s holds at most `most`. */
double plmi_svg_time_step_s(double span_s, int most);

/* A point of a curve [px]. */
struct plmi_svg_dot {
    double x, y;
};
/* Makes a curve of finite dots, x never falling, simple in place by the tolerances above. Returns: how many are left.
 */
size_t plmi_svg_simplify(struct plmi_svg_dot *dots, size_t count);

/* Where curves are drawn: one picture over one axis of time. */
struct plmi_svg_plot {
    struct plmi_text *out;
    struct plmi_svg_scale time; /* of seconds */
    double height_px;
    const double *time_s; /* count times, never falling */
    size_t count;
    struct plmi_svg_dot *dots;     /* room for 2 * count + 4     */
    struct plmi_svg_point *points; /* the same                   */
};

/* One curve of values[count], broken where they are NaN, held between the ends of the scale. step: each value holds to
 * the next time. */
void plmi_svg_curve(const struct plmi_svg_plot *plot, const char *class_name, const double *values,
                    const struct plmi_svg_scale *scale, bool step);
/* The room between a curve and base[count], or base_value where base is NULL; only where both are known. */
void plmi_svg_room(const struct plmi_svg_plot *plot, const char *class_name, const double *values, const double *base,
                   double base_value, const struct plmi_svg_scale *scale);
/* Upright lines across the picture at round times. */
void plmi_svg_time_lines(const struct plmi_svg_plot *plot, double until_s);
/* Their times, at this height. */
void plmi_svg_time_words(const struct plmi_svg_plot *plot, double until_s, double y_pct);

#endif
