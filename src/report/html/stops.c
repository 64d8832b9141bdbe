/*
 * Decompression owed and done: sentences, then a row a stop with both as bars. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/debrief.h"

static const struct plmi_html_column columns[] = {
    {"stop m", "n"}, {"owed and done", "graph"}, {"owed min", "n"}, {"done min", "n"}, {"done less owed", "n"}};

enum { DEPTH, BARS, OWED, DONE, DIFFERENCE, COLUMNS };

/* [px] of the bars of a stop */
#define BARS_PX 15

static double longest_find(const struct plmi_view *view)
{
    double longest = 0;
    for (size_t i = 0; i < view->stop_count; i++) {
        longest = fmax(longest,
                       fmax(isfinite(view->stops[i].owed_min) ? view->stops[i].owed_min : 0, view->stops[i].done_min));
    }
    return longest > 0 ? longest : 1;
}

/* Done over owed; what is lacking stands out. */
static void bars_write(struct plmi_text *out, const struct plmi_view_stop *stop, double longest_min)
{
    const struct plmi_svg_scale scale = {0, longest_min, 0, 100};
    double owed_pct = plmi_svg_scale_held_pct(&scale, isfinite(stop->owed_min) ? stop->owed_min : longest_min);
    double done_pct = plmi_svg_scale_held_pct(&scale, stop->done_min);
    struct plmi_text desc;
    plmi_text_init(&desc);
    plmi_view_number_write(&desc, stop->owed_min, 1, "min");
    plmi_text_puts(&desc, " owed, ");
    plmi_view_number_write(&desc, stop->done_min, 1, "min");
    plmi_text_puts(&desc, " done");
    plmi_svg_begin(out, "bars", BARS_PX,
                   &(struct plmi_svg_name){"Owed and done", desc.bytes != NULL ? desc.bytes : ""});
    plmi_svg_rect(out, "done", 0, 27, done_pct, 46);
    if (done_pct < owed_pct) {
        plmi_svg_rect(out, "lacking", done_pct, 27, owed_pct - done_pct, 46);
    }
    plmi_svg_line(out, "owed", owed_pct, 0, owed_pct, 100);
    plmi_svg_end(out);
    out->failed = out->failed || desc.failed;
    plmi_text_free(&desc);
}

static void numbers_write(struct plmi_text *out, double owed_min, double done_min, double difference_min)
{
    plmi_html_number_cell(out, &columns[OWED], owed_min, 1);
    plmi_html_number_cell(out, &columns[DONE], done_min, 1);
    plmi_html_change_cell(out, &columns[DIFFERENCE], difference_min, 1);
    plmi_text_puts(out, "</tr>\n");
}

static void table_write(struct plmi_text *out, const struct plmi_view *view)
{
    const double longest_min = longest_find(view);
    plmi_html_table_begin(
        out, "stops",
        "Stops compared with the schedule from the end of the bottom, deepest first: the bar is what was done, the "
        "upright line what was required",
        columns, COLUMNS);
    for (size_t i = 0; i < view->stop_count; i++) {
        const struct plmi_view_stop *stop = &view->stops[i];
        plmi_text_puts(out, "<tr>");
        plmi_html_number_cell(out, &columns[DEPTH], stop->depth_m, 1);
        plmi_html_cell_open(out, &columns[BARS]);
        bars_write(out, stop, longest_min);
        plmi_html_close(out, "td");
        numbers_write(out, stop->owed_min, stop->done_min, stop->difference_min);
    }
    plmi_text_puts(out, "<tr class=\"all\">");
    plmi_html_cell(out, &columns[DEPTH], "all");
    plmi_html_cell(out, &columns[BARS], "");
    numbers_write(out, plmi_view_find(view, "owed_min")->value, plmi_view_find(view, "done_min")->value,
                  plmi_view_find(view, "difference_min")->value);
    plmi_html_table_end(out);
}

void plmi_html_stops(struct plmi_text *out, const struct plmi_view *view)
{
    if (!view->decompression_known) {
        return;
    }
    plmi_html_open(out, "section", "decompression");
    plmi_html_text(out, "h2", "", "Decompression owed and done");
    plmi_html_open(out, "dl", "");
    plmi_html_sentences(out, view, PLMI_SENTENCES_DECOMPRESSION);
    plmi_html_close(out, "dl");
    if (view->stop_count > 0) {
        table_write(out, view);
    }
    plmi_html_close(out, "section");
}
