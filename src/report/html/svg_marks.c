/*
 * Findings where they happened: the stretch on the curve, and its number beside it. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "report/html/pictures.h"

/* Marks closer than this in both ways would cover each other in a window of 340 px. */
#define APART_PX  22.0
#define APART_PCT 8.0
/* [px] a mark from its place: beside it, and beneath it */
#define ASIDE_PX 15
/* Further right than this a mark stands to the left of its place, so that it covers no words beside the picture. */
#define TURN_PCT   84.0
#define BENEATH_PX 30.0
#define EDGE_PX    14.0
#define FOOT_PX    26.0

static bool mark_fits(const struct plmi_mark *marks, size_t at, double y_px, double height_px)
{
    if (y_px < EDGE_PX || y_px > height_px - FOOT_PX) {
        return false;
    }
    for (size_t i = 0; i < at; i++) {
        if (marks[i].shown && fabs(marks[i].x_pct - marks[at].x_pct) < APART_PCT &&
            fabs(marks[i].y_px - y_px) < APART_PX) {
            return false;
        }
    }
    return true;
}

void plmi_marks_place(struct plmi_mark *marks, size_t count, double height_px)
{
    for (size_t m = 0; m < count; m++) {
        double wanted = fmin(fmax(marks[m].place_y_px + BENEATH_PX, EDGE_PX), height_px - FOOT_PX);
        marks[m].shown = false;
        for (int ring = 0; ring * APART_PX < height_px && !marks[m].shown; ring++) {
            for (int way = 1; way >= -1 && !marks[m].shown; way -= 2) {
                marks[m].y_px = wanted + way * ring * APART_PX;
                marks[m].shown = mark_fits(marks, m, marks[m].y_px, height_px);
            }
        }
    }
}

/* The samples of a finding, at least two. */
static void stretch_find(const struct plmi_curves *curves, const struct plm_finding *finding, size_t *from,
                         size_t *count)
{
    *from = plmi_curves_at(curves, finding->from_s);
    size_t to = plmi_curves_at(curves, finding->to_s);
    if (to <= *from) {
        to = *from + 1;
    }
    if (to >= curves->count) {
        to = curves->count - 1;
    }
    if (*from >= to) {
        *from = to - 1;
    }
    *count = to - *from + 1;
}

void plmi_picture_stretches(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plmi_view *view = pictures->view;
    for (size_t f = view->finding_count; f-- > 0;) {
        char class_name[32];
        size_t from;
        struct plmi_svg_plot plot = pictures->plot;
        if (isnan(view->findings[f].finding->from_s)) {
            continue;
        }
        stretch_find(pictures->curves, view->findings[f].finding, &from, &plot.count);
        plot.time_s += from;
        snprintf(class_name, sizeof class_name, "hit %s", view->findings[f].severity);
        plmi_svg_curve(&plot, class_name, pictures->curves->column[PLMI_CURVES_LEVEL] + from, scale, false);
    }
}

static void mark_draw(struct plmi_pictures *pictures, const struct plmi_mark *mark, size_t number,
                      const struct plmi_view_finding *one)
{
    struct plmi_text *out = pictures->out;
    const int aside_px = mark->x_pct > TURN_PCT ? -ASIDE_PX : ASIDE_PX;
    plmi_svg_line(out, "lead", mark->x_pct, plmi_picture_pct(pictures, mark->place_y_px), mark->x_pct,
                  plmi_picture_pct(pictures, mark->y_px));
    plmi_svg_at_begin(out, "", mark->x_pct, plmi_picture_pct(pictures, mark->y_px));
    plmi_text_printf(out, "<path class=\"lead\" d=\"M0 0h%d\"/>", aside_px);
    plmi_text_printf(out, "<a href=\"#%s-finding-%zu\" aria-label=\"Finding %zu\">", pictures->id, number, number);
    plmi_text_printf(out, "<g class=\"mark %s\" transform=\"translate(%d 0)\">", one->severity, aside_px);
    if (one->finding->severity == PLM_SEVERITY_SERIOUS) {
        plmi_text_puts(out, "<path d=\"M-13-2h26v4h-26z\"/>");
    }
    plmi_text_printf(out, "<circle r=\"9\"/><text>%zu</text></g></a>", number);
    plmi_svg_at_end(out);
}

void plmi_picture_marks(struct plmi_pictures *pictures, const struct plmi_svg_scale *scale)
{
    const struct plmi_view *view = pictures->view;
    struct plmi_mark *marks = view->finding_count > 0 ? calloc(view->finding_count, sizeof *marks) : NULL;
    if (marks == NULL) {
        pictures->out->failed = pictures->out->failed || view->finding_count > 0;
        return;
    }
    for (size_t f = 0; f < view->finding_count; f++) {
        size_t from = plmi_curves_at(pictures->curves, view->findings[f].finding->from_s);
        marks[f].x_pct = plmi_svg_scale_held_pct(&pictures->plot.time, pictures->plot.time_s[from]);
        marks[f].place_y_px = plmi_svg_scale_held_pct(scale, pictures->curves->column[PLMI_CURVES_LEVEL][from]) / 100 *
                              pictures->plot.height_px;
    }
    plmi_marks_place(marks, view->finding_count, pictures->plot.height_px);
    for (size_t f = view->finding_count; f-- > 0;) {
        if (marks[f].shown && !isnan(view->findings[f].finding->from_s)) {
            mark_draw(pictures, &marks[f], f + 1, &view->findings[f]);
        }
    }
    free(marks);
}
