/*
 * The audit as one page of HTML: every dive in a row with a small picture, worst first, linking to a page each.
 * Must not hold a figure that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "report/team/audit_view.h"
#include "report/html/html.h"
#include "report/html/svg.h"
#include "report/view/view.h"
#include "report/output/whole.h"

#define PICTURE_HEIGHT_PX 44
#define PLOT_WIDTH        (10 * (PLM_PICTURE - 1))
#define PLOT_HEIGHT       400

static const struct plmi_html_column COLUMNS[] = {
    {"Dive", ""},    {"Profile", "small"},    {"Deepest, m", "n"}, {"Runtime", "n"},          {"Surfacing, %", "n"},
    {"CNS, %", "n"}, {"OTU of the day", "n"}, {"Records", "n"},    {"What was exceeded", ""},
};
enum { DIVE, PROFILE, DEEPEST, RUNTIME, SURFACING, CNS, OTU, RECORDS, EXCEEDED, COLUMN_COUNT };

static void run_write(struct plmi_text *out, const char *class_name, const double *values, double deepest_m,
                      bool closed)
{
    struct plmi_svg_point points[PLM_PICTURE + 2];
    size_t count = 0;
    if (closed) {
        points[count++] = (struct plmi_svg_point){0, 0};
    }
    for (int i = 0; i < PLM_PICTURE; i++) {
        points[count++] = (struct plmi_svg_point){10 * i, (int)lround(values[i] / deepest_m * PLOT_HEIGHT)};
    }
    if (closed) {
        points[count++] = (struct plmi_svg_point){PLOT_WIDTH, 0};
    }
    plmi_svg_path_begin(out, class_name);
    plmi_svg_path_run(out, points, count, closed);
    plmi_svg_path_end(out);
}

/* Depth and ceiling over the whole runtime; all pictures of a page to one depth, so that they can be compared. */
static void picture_write(struct plmi_text *out, const struct plm_audit_row *row, double deepest_m)
{
    struct plmi_text desc;
    plmi_text_init(&desc);
    plmi_text_puts(&desc, "Depth and ceiling over the dive, to ");
    plmi_view_number_write(&desc, row->max_depth_m, 1, "m");
    const struct plmi_svg_name name = {row->diver != NULL ? row->diver : "Dive", desc.bytes != NULL ? desc.bytes : ""};
    plmi_svg_begin(out, "small-profile", PICTURE_HEIGHT_PX, &name);
    plmi_svg_plot_begin(out, PLOT_WIDTH, PLOT_HEIGHT);
    run_write(out, "water", row->picture_depth_m, deepest_m, true);
    run_write(out, "over", row->picture_ceiling_m, deepest_m, true);
    run_write(out, "depth", row->picture_depth_m, deepest_m, false);
    plmi_svg_plot_end(out);
    plmi_svg_end(out);
    plmi_text_free(&desc);
}

static void link_open(struct plmi_text *out, const struct plmi_audit_view *view, const struct plm_audit_row *row)
{
    char page[96] = "";
    if (view->page == NULL) {
        return;
    }
    view->page(row, page, sizeof page);
    plmi_text_printf(out, "<a href=\"%s\">", page);
}

static void dive_cell(struct plmi_text *out, const struct plmi_audit_view *view, const struct plm_audit_row *row)
{
    struct plmi_text when;
    plmi_html_cell_open(out, &COLUMNS[DIVE]);
    link_open(out, view, row);
    plmi_html_text(out, "b", "", row->diver != NULL ? row->diver : "(not told)");
    plmi_text_puts(out, view->page != NULL ? "</a>" : "");
    plmi_text_init(&when);
    plmi_audit_start_write(&when, row);
    plmi_html_made(out, "div", "when", &when);
    plmi_text_init(&when);
    plmi_text_puts(&when, "GF ");
    plmi_audit_factors_write(&when, row);
    plmi_html_made(out, "div", "when", &when);
    plmi_html_close(out, "td");
}

static void exceeded_cell(struct plmi_text *out, const struct plm_audit_row *row)
{
    struct plmi_text counts, worst;
    plmi_html_cell_open(out, &COLUMNS[EXCEEDED]);
    plmi_text_init(&counts);
    plmi_view_counts_write(&counts, row->serious, row->caution, row->note);
    plmi_html_made(out, "div", row->serious ? "flagged serious" : row->caution ? "flagged caution" : "", &counts);
    plmi_text_init(&worst);
    plmi_audit_worst_write(&worst, row);
    if (worst.count > 0) {
        plmi_html_made(out, "div", "when", &worst);
    }
    plmi_text_free(&worst);
    plmi_html_close(out, "td");
}

static void row_write(struct plmi_text *out, const struct plmi_audit_view *view, size_t i)
{
    const struct plm_audit_row *row = &view->rows[i];
    struct plmi_text runtime;
    plmi_text_puts(out, "<tr>");
    dive_cell(out, view, row);
    plmi_html_cell_open(out, &COLUMNS[PROFILE]);
    picture_write(out, row, fmax(1.0, view->whole.deepest_m));
    plmi_html_close(out, "td");
    plmi_html_number_cell(out, &COLUMNS[DEEPEST], row->max_depth_m, 1);
    plmi_text_init(&runtime);
    plmi_view_duration_write(&runtime, row->duration_s);
    plmi_html_cell(out, &COLUMNS[RUNTIME], runtime.bytes != NULL ? runtime.bytes : "");
    plmi_text_free(&runtime);
    plmi_html_number_cell(out, &COLUMNS[SURFACING], row->surfacing_gradient_pct, 0);
    plmi_html_least_cell(out, &COLUMNS[CNS], row->cns_pct, 0, row->cns_beyond_min > 0);
    plmi_html_number_cell(out, &COLUMNS[OTU], row->otu_of_day, 0);
    plmi_html_number_cell(out, &COLUMNS[RECORDS], (double)plmi_audit_other_records(view, i) + 1, 0);
    exceeded_cell(out, row);
    plmi_text_puts(out, "</tr>\n");
}

static void dives_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    plmi_html_table_begin(
        out, "overview",
        "Every dive, worst first. Costs are minutes of decompression and points of surfacing gradient.", COLUMNS,
        COLUMN_COUNT);
    bool least = false;
    for (size_t i = 0; i < view->row_count; i++) {
        if (view->rows[i].other_record < 0) {
            row_write(out, view, i);
            least = least || view->rows[i].cns_beyond_min > 0;
        }
    }
    plmi_html_table_end(out);
    if (least) {
        plmi_html_text(out, "p", "aside", plmi_view_least);
    }
}

static void disagreements_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    bool any = false;
    for (size_t i = 0; i < view->row_count; i++) {
        const struct plm_audit_row *row = &view->rows[i];
        struct plmi_text text;
        if (row->disagreement.text == NULL) {
            continue;
        }
        plmi_text_puts(out, any ? "" : "<section>\n<h2>Recorders that tell different stories</h2>\n<dl>\n");
        any = true;
        plmi_text_init(&text);
        plmi_audit_start_write(&text, row);
        plmi_text_printf(&text, ": %s", row->disagreement.text);
        if (row->disagreements > 1) {
            plmi_text_printf(&text, "; %zu more", row->disagreements - 1);
        }
        plmi_html_term(out, row->diver != NULL ? row->diver : "(not told)", text.bytes != NULL ? text.bytes : "");
        out->failed = out->failed || text.failed;
        plmi_text_free(&text);
    }
    plmi_text_puts(out, any ? "</dl>\n</section>\n" : "");
}

static void doubts_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    bool any = false;
    for (size_t i = 0; i < view->row_count; i++) {
        struct plmi_text text;
        if (isnan(view->rows[i].clock_offset_s)) {
            continue;
        }
        if (!any) {
            plmi_text_puts(out, "<section>\n<h2>Doubtful clocks</h2>\n<dl>\n");
        }
        any = true;
        plmi_text_init(&text);
        plmi_audit_doubt_write(&text, &view->rows[i]);
        plmi_html_term(out, view->rows[i].diver != NULL ? view->rows[i].diver : "(not told)",
                       text.bytes != NULL ? text.bytes : "");
        plmi_text_free(&text);
    }
    plmi_text_puts(out, any ? "</dl>\n</section>\n" : "");
}

static void troubles_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    if (view->trouble_count == 0) {
        return;
    }
    plmi_text_puts(out, "<section>\n<h2>Files with trouble</h2>\n<dl>\n");
    for (size_t i = 0; i < view->trouble_count; i++) {
        plmi_html_term(out, view->troubles[i].partly ? "used in part" : "not used", view->troubles[i].text);
    }
    plmi_text_puts(out, "</dl>\n</section>\n");
}

static void days_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    plmi_text_puts(out, "<section>\n<h2>Day by day</h2>\n<dl>\n");
    for (size_t i = 0; i < view->day_count; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        plmi_audit_day_write(&text, &view->days[i]);
        plmi_html_term(out, view->days[i].date[0] ? view->days[i].date : "no date",
                       text.bytes != NULL ? text.bytes : "");
        plmi_text_free(&text);
    }
    plmi_text_puts(out, "</dl>\n</section>\n");
}

static void html_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    static const struct plmi_html_page page = {.title = "Plimsoll: the team's dives", .script = false};
    struct plmi_text text;
    plmi_html_page_begin(out, &page);
    plmi_text_puts(out, "<article>\n");
    plmi_text_init(&text);
    plmi_audit_headline_write(&text, view);
    plmi_html_made(out, "h1", "", &text);
    plmi_text_init(&text);
    plmi_audit_files_write(&text, view);
    plmi_html_made(out, "p", "aside", &text);
    plmi_text_init(&text);
    plmi_audit_judged_write(&text, view);
    plmi_html_made(out, "p", "aside", &text);
    dives_write(out, view);
    disagreements_write(out, view);
    doubts_write(out, view);
    troubles_write(out, view);
    days_write(out, view);
    plmi_html_cautions(out, plmi_standing_cautions, plmi_standing_caution_count);
    plmi_text_puts(out, "</article>\n");
    plmi_html_page_end(out, &page);
}

void plmi_audit_html(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    plmi_audit_view_write(out, what, options, html_write);
}
