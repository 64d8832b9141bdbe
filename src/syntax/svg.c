/*
 * Pictures as SVG. Must not know what they show, and lets no text in unescaped.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/svg.h"

#include "base/number.h"
#include "syntax/markup.h"

/* Digits behind the point of a percentage: a hundredth of 1000 pixels is 0.1 pixel. */
#define PERCENT_DIGITS 2

static void percent(struct plmi_text *out, const char *name, double value)
{
    plmi_text_printf(out, " %s=\"", name);
    plmi_number_fixed(out, value, PERCENT_DIGITS);
    plmi_text_puts(out, "%\"");
}

static void begin(struct plmi_text *out, const char *element, const char *class_name)
{
    plmi_text_printf(out, "<%s", element);
    if (class_name[0] != '\0') {
        plmi_markup_attribute(out, "class", class_name);
    }
}

static void named(struct plmi_text *out, const char *element, const char *text)
{
    plmi_text_printf(out, "<%s>", element);
    plmi_markup_text(out, text);
    plmi_text_printf(out, "</%s>", element);
}

void plmi_svg_begin(struct plmi_text *out, const char *class_name, int height_px, const struct plmi_svg_name *name)
{
    begin(out, "svg", class_name);
    plmi_text_printf(out, " xmlns=\"http://www.w3.org/2000/svg\" width=\"100%%\" height=\"%d\" role=\"img\">",
                     height_px);
    named(out, "title", name->title);
    named(out, "desc", name->desc);
}

void plmi_svg_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</svg>\n");
}

void plmi_svg_plot_begin(struct plmi_text *out, int width, int height)
{
    plmi_text_printf(out, "<svg width=\"100%%\" height=\"100%%\" viewBox=\"0 0 %d %d\" preserveAspectRatio=\"none\">\n",
                     width, height);
}

void plmi_svg_plot_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</svg>\n");
}

void plmi_svg_path_begin(struct plmi_text *out, const char *class_name)
{
    begin(out, "path", class_name);
    plmi_text_puts(out, " d=\"");
}

/* A pair of whole numbers, as short as paths allow. */
static void pair(struct plmi_text *out, bool separate, int x, int y)
{
    plmi_text_printf(out, "%s%d%s%d", separate && x >= 0 ? " " : "", x, y >= 0 ? " " : "", y);
}

void plmi_svg_path_run(struct plmi_text *out, const struct plmi_svg_point *points, size_t count, bool closed)
{
    if (count == 0) {
        return;
    }
    plmi_text_add(out, "M", 1);
    pair(out, false, points[0].x, points[0].y);
    for (size_t i = 1; i < count; i++) {
        if (i == 1) {
            plmi_text_add(out, "l", 1);
        }
        pair(out, i > 1, points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
    }
    if (count == 1) {
        plmi_text_puts(out, "l0 0");
    }
    if (closed) {
        plmi_text_add(out, "z", 1);
    }
}

void plmi_svg_path_end(struct plmi_text *out)
{
    plmi_text_puts(out, "\"/>\n");
}

void plmi_svg_line(struct plmi_text *out, const char *class_name, double x1_pct, double y1_pct, double x2_pct,
                   double y2_pct)
{
    begin(out, "line", class_name);
    percent(out, "x1", x1_pct);
    percent(out, "y1", y1_pct);
    percent(out, "x2", x2_pct);
    percent(out, "y2", y2_pct);
    plmi_text_puts(out, "/>\n");
}

void plmi_svg_rect(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, double width_pct,
                   double height_pct)
{
    begin(out, "rect", class_name);
    percent(out, "x", x_pct);
    percent(out, "y", y_pct);
    percent(out, "width", width_pct > 0 ? width_pct : 0);
    percent(out, "height", height_pct > 0 ? height_pct : 0);
    plmi_text_puts(out, "/>\n");
}

void plmi_svg_text(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, const char *text)
{
    begin(out, "text", class_name);
    percent(out, "x", x_pct);
    percent(out, "y", y_pct);
    plmi_text_puts(out, ">");
    plmi_markup_text(out, text);
    plmi_text_puts(out, "</text>\n");
}

void plmi_svg_at_begin(struct plmi_text *out, const char *class_name, double x_pct, double y_pct)
{
    begin(out, "svg", class_name);
    percent(out, "x", x_pct);
    percent(out, "y", y_pct);
    plmi_text_puts(out, " overflow=\"visible\">");
}

void plmi_svg_at_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</svg>\n");
}

void plmi_svg_part_begin(struct plmi_text *out, const char *class_name, double x_pct, double y_pct, double width_pct,
                         double height_pct)
{
    begin(out, "svg", class_name);
    percent(out, "x", x_pct);
    percent(out, "y", y_pct);
    percent(out, "width", width_pct);
    percent(out, "height", height_pct);
    plmi_text_puts(out, ">");
}

void plmi_svg_part_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</svg>\n");
}
