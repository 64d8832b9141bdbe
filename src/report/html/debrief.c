/*
 * The debrief as one HTML file: an article a dive, and where there are several an index of them. Must not hold a figure
 * that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include "report/html/debrief.h"
#include "report/view/writer.h"

static const struct plmi_html_page page = {.title = "Plimsoll: what the dive did", .script = true};

static void html_begin(struct plm_report *report)
{
    plmi_html_page_begin(&report->out, &page);
}

/* The row of the index; kept until the last dive is written. */
static void index_add(struct plm_report *report, const struct plmi_view *view, const char *id)
{
    static const char *const keys[] = {"start", "diver", "site"};
    struct plmi_text *out = &report->index;
    plmi_text_printf(out, "<li><a href=\"#%s\">", id);
    plmi_html_sentence(out, "span", "", view, "{file}, dive {index}");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (plmi_view_find(view, keys[i])->text != NULL) {
            plmi_html_text(out, "span", "", plmi_view_find(view, keys[i])->text);
        }
    }
    plmi_html_sentence(out, "span", "", view, "{max_depth_m}, {duration_s}");
    plmi_html_text(out, "b", "", view->headline);
    plmi_text_puts(out, "</a></li>\n");
}

static void html_add(struct plm_report *report, const struct plmi_view *view)
{
    struct plmi_text *out = &report->out;
    char id[32];
    snprintf(id, sizeof id, "dive-%zu", report->dives + 1);
    plmi_text_printf(out, "<article id=\"%s\">\n", id);
    plmi_html_answer(out, view);
    plmi_html_findings(out, view, id);
    plmi_html_timeline(out, view, id);
    plmi_html_open(out, "div", "rest");
    plmi_html_stops(out, view);
    plmi_html_cells(out, view);
    plmi_html_plan(out, view);
    plmi_html_figures(out, view);
    plmi_html_assumed(out, view);
    if (report->options.verbose && view->debriefed->verdict != NULL) {
        plmi_html_verdict(out, view->debriefed->verdict);
    }
    plmi_html_cautions(out, view->cautions, view->caution_count);
    plmi_html_close(out, "div");
    plmi_html_close(out, "article");
    index_add(report, view, id);
}

static void html_end(struct plm_report *report)
{
    struct plmi_text *out = &report->out;
    out->failed = out->failed || report->index.failed;
    if (report->dives > 1 && !out->failed) {
        plmi_text_puts(out, "<nav aria-label=\"Dives\">\n<ol>\n");
        plmi_text_add(out, report->index.bytes, report->index.count);
        plmi_text_puts(out, "</ol>\n</nav>\n");
    }
    plmi_html_page_end(out, &page);
}

const struct plmi_writer plmi_writer_html = {
    .begin = html_begin,
    .add_view = html_add,
    .end = html_end,
};
