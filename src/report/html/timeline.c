/*
 * The pictures of a dive one under the other over one axis of time, each with what its lines are, and the bar that the
 * cursor reads into. Must not draw.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/debrief.h"
#include "syntax/markup.h"

/* What a line or a room of a picture is; shown where this column is known, or as below. */
struct key {
    const char *class_name, *words;
    int column;
};
enum { ALWAYS = PLMI_CURVES_COLUMNS, WITH_PLAN };

#define KEYS_MOST 5

struct picture {
    const char *title;
    struct key keys[KEYS_MOST]; /* up to a NULL */
    const char *aside;          /* how it is to be read; "" plain */
    int needs;
    void (*draw)(struct plmi_pictures *pictures);
    void (*draw_below)(struct plmi_pictures *pictures); /* NULL: nothing */
};

static const struct picture table[] = {
    {"Depth, m",
     {{"line", "diver", ALWAYS},
      {"ceiling", "ceiling", PLMI_CURVES_CEILING},
      {"water", "water between", PLMI_CURVES_CEILING},
      {"plan", "plan", WITH_PLAN}},
     "drawn by pressure, so that steep means the same at every depth",
     ALWAYS,
     plmi_picture_depth,
     plmi_picture_mixes},
    {"Water between diver and ceiling, m",
     {{"above", "above the ceiling", PLMI_CURVES_CLEARANCE}},
     "up to 6 m",
     PLMI_CURVES_CLEARANCE,
     plmi_picture_clearance,
     NULL},
    {"Loading of the compartments",
     {{"leads", "leading", ALWAYS}},
     "gradient over ambient pressure, fast compartments above; half-time in min at the right",
     ALWAYS,
     plmi_picture_loading,
     NULL},
    {"Oxygen, bar",
     {{"taken", "breathed", ALWAYS},
      {"setpoint", "set point", PLMI_CURVES_SETPOINT},
      {"cell", "cells", PLMI_CURVES_CELL},
      {"limit", "limits", ALWAYS}},
     "",
     ALWAYS,
     plmi_picture_oxygen,
     NULL},
    {"Ascent, m/min",
     {{"line", "rate", ALWAYS}, {"limit", "limit", ALWAYS}, {"above", "faster", ALWAYS}},
     "descent below zero",
     ALWAYS,
     plmi_picture_rate,
     NULL},
};

static bool shown(const struct plmi_curves *curves, int column)
{
    if (column == WITH_PLAN) {
        return curves->plan_count > 0;
    }
    return column == ALWAYS || curves->known[column];
}

static void caption_write(struct plmi_text *out, const struct plmi_curves *curves, const struct picture *picture)
{
    plmi_html_open(out, "figcaption", "");
    plmi_html_text(out, "b", "", picture->title);
    for (size_t k = 0; k < KEYS_MOST && picture->keys[k].words != NULL; k++) {
        if (!shown(curves, picture->keys[k].column)) {
            continue;
        }
        plmi_text_printf(out, "<span class=\"key\"><i class=\"%s\"></i>%s</span>", picture->keys[k].class_name,
                         picture->keys[k].words);
    }
    if (picture->aside[0] != '\0') {
        plmi_html_text(out, "span", "aside", picture->aside);
    }
    plmi_html_close(out, "figcaption");
}

static void picture_write(struct plmi_pictures *pictures, const struct picture *picture)
{
    struct plmi_text *out = pictures->out;
    if (!shown(pictures->curves, picture->needs)) {
        return;
    }
    plmi_html_open(out, "figure", "");
    caption_write(out, pictures->curves, picture);
    plmi_html_open(out, "div", "plot");
    picture->draw(pictures);
    if (picture->draw_below != NULL) {
        picture->draw_below(pictures);
    }
    plmi_html_close(out, "div");
    plmi_html_close(out, "figure");
}

static void bar_write(struct plmi_text *out, const struct plmi_curves *curves)
{
    plmi_text_puts(out, "<div class=\"reading waiting\" hidden><span class=\"at\"><b class=\"now\">0:00</b></span>\n");
    plmi_html_cursor_values(out, curves);
    plmi_html_text(out, "span", "hint",
                   "Point at a picture, or focus this bar: arrow keys, with Shift a minute, Home, End.");
    plmi_html_close(out, "div");
    plmi_text_puts(out, "<p class=\"spoken\" aria-live=\"polite\"></p>\n");
}

static void pictures_write(struct plmi_pictures *pictures)
{
    struct plmi_text *out = pictures->out;
    plmi_text_printf(out, "<section class=\"pictures\" id=\"%s-pictures\" data-until=\"%ld\" data-share=\"0.%02d\"",
                     pictures->id, (long)(pictures->until_s + 0.5), (int)PLMI_PICTURES_SHARE_PCT);
    plmi_html_cursor_steps(out, pictures->curves);
    plmi_text_puts(out, ">\n");
    plmi_html_text(out, "h2", "", pictures->view->finding_count > 0 ? "Where it happened" : "The dive over time");
    bar_write(out, pictures->curves);
    for (size_t p = 0; p < sizeof table / sizeof table[0]; p++) {
        picture_write(pictures, &table[p]);
    }
    plmi_html_text(out, "p", "aside",
                   "Lines are made simple: no sample lies further from them than half a pixel in height and one pixel "
                   "along the axis, "
                   "on a picture 1000 pixels wide.");
    plmi_html_close(out, "section");
}

void plmi_html_timeline(struct plmi_text *out, const struct plmi_view *view, const char *id)
{
    struct plmi_curves *curves = plmi_curves_new(view);
    struct plmi_pictures pictures;
    if (curves == NULL) {
        out->failed = true;
        return;
    }
    if (plmi_pictures_init(&pictures, out, view, curves, id)) {
        pictures_write(&pictures);
    } else {
        out->failed = true;
    }
    plmi_pictures_free(&pictures);
    plmi_curves_free(curves);
}
