/*
 * The pictures of one dive over one axis of time, and what they share. For the files of this room alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_PICTURES_H
#define PLM_REPORT_HTML_PICTURES_H

#include "report/html/curves.h"
#include "report/html/svg.h"

/* Share of the width that the dive takes; the rest is for the words beside it. */
#define PLMI_PICTURES_SHARE_PCT 93.0
#define PLMI_PICTURES_WORDS_PCT 93.8

struct plmi_pictures {
    struct plmi_text *out;
    const struct plmi_view *view;
    const struct plmi_curves *curves;
    const char *id;            /* of the dive on its page: marks of its findings link there */
    double until_s;            /* end of the record, at least a minute                   */
    struct plmi_svg_plot plot; /* its height is the picture's                            */
    double *values;            /* room for a value a sample                              */
};

/* Returns: false without memory. _free in any case. */
bool plmi_pictures_init(struct plmi_pictures *pictures, struct plmi_text *out, const struct plmi_view *view,
                        const struct plmi_curves *curves, const char *id);
void plmi_pictures_free(struct plmi_pictures *pictures);

/* Begins a picture of this height with its upright lines; ends it, with the times beneath where wanted. desc is freed.
 */
void plmi_picture_begin(struct plmi_pictures *pictures, const char *name, double height_px, const char *title,
                        struct plmi_text *desc);
void plmi_picture_end(struct plmi_pictures *pictures, bool times);
/* What follows are curves; then no more. */
void plmi_picture_plot(struct plmi_pictures *pictures);
void plmi_picture_plot_end(struct plmi_pictures *pictures);
/* A level line across, with its value in words at the end. */
void plmi_picture_level(struct plmi_pictures *pictures, const char *class_name, double y_pct, const char *words);
/* A height in pixels as percent of the picture. */
double plmi_picture_pct(const struct plmi_pictures *pictures, double y_px);
/* One curve of the dive. */
void plmi_picture_curve(struct plmi_pictures *pictures, const char *class_name, enum plmi_curves_column column,
                        const struct plmi_svg_scale *scale, bool step);

/* What of values lies beyond a limit (above it for way 1, below it for -1), from the limit to the curve. limit NULL:
 * limit_value. */
void plmi_picture_beyond(struct plmi_pictures *pictures, const double *values, const double *limit, double limit_value,
                         int way, const struct plmi_svg_scale *scale);

/* The pictures. */
void plmi_picture_depth(struct plmi_pictures *pictures);
void plmi_picture_mixes(struct plmi_pictures *pictures);
void plmi_picture_clearance(struct plmi_pictures *pictures);
void plmi_picture_loading(struct plmi_pictures *pictures);
void plmi_picture_oxygen(struct plmi_pictures *pictures);
void plmi_picture_rate(struct plmi_pictures *pictures);

/* Where a numbered mark stands beside its place on a curve. */
struct plmi_mark {
    double x_pct, place_y_px, y_px;
    bool shown;
};
/* Gives each mark a place near its own, first come first served, so that none covers another even in a narrow window.
 */
void plmi_marks_place(struct plmi_mark *marks, size_t count, double height_px);
/* The findings on the picture of depth: stretches on the curve, numbers beside it. */
void plmi_picture_stretches(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale);
void plmi_picture_marks(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale);

#endif
