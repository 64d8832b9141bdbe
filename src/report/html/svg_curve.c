/*
 * Curves, the room between two, and the axis of time, drawn into a plot. Must not know what a curve means.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "report/html/svg.h"

static double x_px(const struct plmi_svg_plot *plot, double time_s)
{
    return plmi_svg_scale_pct(&plot->time, time_s) / 100 * PLMI_SVG_WIDTH_PX;
}

static double y_px(const struct plmi_svg_plot *plot, const struct plmi_svg_scale *scale, double value)
{
    return plmi_svg_scale_held_pct(scale, value) / 100 * plot->height_px;
}

static size_t point_add(struct plmi_svg_point *points, size_t count, const struct plmi_svg_dot *dot)
{
    const struct plmi_svg_point point = {(int)lround(dot->x * PLMI_SVG_PER_PX), (int)lround(dot->y * PLMI_SVG_PER_PX)};
    if (count > 0 && points[count - 1].x == point.x && points[count - 1].y == point.y) {
        return count;
    }
    points[count] = point;
    return count + 1;
}

/* The dots of values from..to, made simple, as points behind `count` of them. */
static size_t run_points(const struct plmi_svg_plot *plot, size_t count, const double *values, size_t from, size_t to,
                         const struct plmi_svg_scale *scale, bool step)
{
    size_t dots = 0;
    for (size_t i = from; i < to; i++) {
        double x = x_px(plot, plot->time_s[i]), y = y_px(plot, scale, values[i]);
        if (step && dots > 0) {
            plot->dots[dots] = (struct plmi_svg_dot){x, plot->dots[dots - 1].y}, dots++;
        }
        plot->dots[dots++] = (struct plmi_svg_dot){x, y};
    }
    if (step && to < plot->count) {
        plot->dots[dots] = (struct plmi_svg_dot){x_px(plot, plot->time_s[to]), plot->dots[dots - 1].y}, dots++;
    }
    dots = plmi_svg_simplify(plot->dots, dots);
    for (size_t i = 0; i < dots; i++) {
        count = point_add(plot->points, count, &plot->dots[i]);
    }
    return count;
}

/* The next stretch without NaN at or behind *from. Returns: its end, or *from where there is none. */
static size_t run_find(const double *values, const double *base, size_t *from, size_t count)
{
    while (*from < count && (isnan(values[*from]) || (base != NULL && isnan(base[*from])))) {
        (*from)++;
    }
    size_t to = *from;
    while (to < count && !isnan(values[to]) && (base == NULL || !isnan(base[to]))) {
        to++;
    }
    return to;
}

void plmi_svg_curve(const struct plmi_svg_plot *plot, const char *class_name, const double *values,
                    const struct plmi_svg_scale *scale, bool step)
{
    plmi_svg_path_begin(plot->out, class_name);
    for (size_t from = 0, to; (to = run_find(values, NULL, &from, plot->count)) > from; from = to) {
        plmi_svg_path_run(plot->out, plot->points, run_points(plot, 0, values, from, to, scale, step), false);
    }
    plmi_svg_path_end(plot->out);
}

static void points_turn(struct plmi_svg_point *points, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        struct plmi_svg_point kept = points[i];
        points[i] = points[count - 1 - i];
        points[count - 1 - i] = kept;
    }
}

void plmi_svg_room(const struct plmi_svg_plot *plot, const char *class_name, const double *values, const double *base,
                   double base_value, const struct plmi_svg_scale *scale)
{
    plmi_svg_path_begin(plot->out, class_name);
    for (size_t from = 0, to; (to = run_find(values, base, &from, plot->count)) > from; from = to) {
        size_t there = run_points(plot, 0, values, from, to, scale, false), count = there;
        if (base != NULL) {
            count = run_points(plot, there, base, from, to, scale, false);
            points_turn(plot->points + there, count - there);
        } else {
            const double y = y_px(plot, scale, base_value);
            count = point_add(plot->points, count, &(struct plmi_svg_dot){x_px(plot, plot->time_s[to - 1]), y});
            count = point_add(plot->points, count, &(struct plmi_svg_dot){x_px(plot, plot->time_s[from]), y});
        }
        plmi_svg_path_run(plot->out, plot->points, count, true);
    }
    plmi_svg_path_end(plot->out);
}

void plmi_svg_time_lines(const struct plmi_svg_plot *plot, double until_s)
{
    const double step_s = plmi_svg_time_step_s(until_s, PLMI_SVG_TIME_LABELS);
    for (double time_s = 0; time_s <= until_s; time_s += step_s) {
        double x_pct = plmi_svg_scale_pct(&plot->time, time_s);
        plmi_svg_line(plot->out, "grid", x_pct, 0, x_pct, 100);
    }
}

void plmi_svg_time_words(const struct plmi_svg_plot *plot, double until_s, double y_pct)
{
    const double step_s = plmi_svg_time_step_s(until_s, PLMI_SVG_TIME_LABELS);
    for (double time_s = 0; time_s <= until_s; time_s += step_s) {
        char words[32];
        int minutes = (int)(time_s / 60 + 0.5);
        snprintf(words, sizeof words, "%d:%02d", minutes / 60, minutes % 60);
        plmi_svg_text(plot->out, time_s > 0 ? "time" : "time first", plmi_svg_scale_pct(&plot->time, time_s), y_pct,
                      words);
    }
}
