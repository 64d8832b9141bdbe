/*
 * The handover as HTML that prints on one page of A4: the same facts as the text, a picture, room to write by hand.
 * Must not hold a figure that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include "report/handover/handover.h"
#include "report/html/debrief.h"
#include "report/output/whole.h"
#include "syntax/markup.h"

static const struct plmi_html_page page = {
    .title = "For the diving doctor or the emergency service: facts of a dive, no diagnosis", .script = false};

static void fact_words(struct plmi_text *out, const struct plmi_view *view, const char *label,
                       void (*words)(struct plmi_text *, const struct plmi_view *))
{
    struct plmi_text text;
    plmi_text_init(&text);
    words(&text, view);
    plmi_html_term(out, label, text.bytes != NULL ? text.bytes : "-");
    out->failed = out->failed || text.failed;
    plmi_text_free(&text);
}

static void fact_item(struct plmi_text *out, const struct plmi_view *view, const char *label, const char *key)
{
    const char *text = plmi_view_find(view, key)->text;
    plmi_html_term(out, label, text != NULL ? text : "not recorded");
}

static void who_write(struct plmi_text *out, const struct plm_report_options *options, const struct plmi_view *view)
{
    plmi_text_puts(out, "<h1>");
    plmi_text_puts(out, "Diver ");
    plmi_markup_text(out, plmi_handover_diver(options, view));
    plmi_text_puts(out, "</h1>\n");
    plmi_html_open(out, "dl", "");
    fact_words(out, view, "Dived", plmi_handover_when);
    fact_item(out, view, "Where", "site");
    fact_item(out, view, "Recorder", "recorder");
    fact_words(out, view, "Log", plmi_handover_log);
    fact_words(out, view, "Stands on", plmi_handover_basis);
    plmi_html_close(out, "dl");
}

/* The profile with its ceiling and the mixes beneath; without the plan and the marks of findings, which are not shown
 * here. */
static void picture_write(struct plmi_text *out, const struct plmi_view *whole)
{
    struct plmi_view view = *whole;
    view.finding_count = 0;
    struct plmi_curves *curves = plmi_curves_new(&view);
    struct plmi_pictures pictures;
    if (curves == NULL) {
        out->failed = true;
        return;
    }
    curves->plan_count = 0;
    plmi_text_puts(out,
                   "<figure><figcaption><b>Depth, m</b><span class=\"key\"><i class=\"line\"></i>diver</span><span "
                   "class=\"key\"><i class=\"ceiling\"></i>"
                   "ceiling</span><span class=\"key\"><i class=\"above\"></i>above the ceiling</span></figcaption>\n");
    if (plmi_pictures_init(&pictures, out, &view, curves, "handover")) {
        plmi_picture_depth(&pictures);
        plmi_picture_mixes(&pictures);
    } else {
        out->failed = true;
    }
    plmi_html_close(out, "figure");
    plmi_pictures_free(&pictures);
    plmi_curves_free(curves);
}

static void mixes_write(struct plmi_text *out, const struct plmi_view *view)
{
    static const struct plmi_html_column columns[] = {{"mix", ""},   {"mode", ""},          {"O2 %", "n"},
                                                      {"He %", "n"}, {"minutes", "n"},      {"from m", "n"},
                                                      {"to m", "n"}, {"set point bar", "n"}};
    plmi_html_table_begin(out, "breathed", "Breathed", columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < view->mix_count && i < PLMI_HANDOVER_MIXES_MAX; i++) {
        const struct plmi_view_mix *mix = &view->mixes[i];
        plmi_text_puts(out, "<tr>");
        plmi_html_cell(out, &columns[0], mix->name);
        plmi_html_cell(out, &columns[1], mix->mode);
        plmi_html_number_cell(out, &columns[2], 100 * mix->o2_frac, 1);
        plmi_html_number_cell(out, &columns[3], 100 * mix->he_frac, 1);
        plmi_html_number_cell(out, &columns[4], mix->minutes, 1);
        plmi_html_number_cell(out, &columns[5], mix->least_depth_m, 1);
        plmi_html_number_cell(out, &columns[6], mix->most_depth_m, 1);
        plmi_html_number_cell(out, &columns[7], mix->setpoint_high_bar, 2);
        plmi_text_puts(out, "</tr>\n");
    }
    plmi_html_table_end(out);
    if (view->mix_count > PLMI_HANDOVER_MIXES_MAX) {
        plmi_text_printf(out, "<p class=\"aside\">and %zu more</p>\n", view->mix_count - PLMI_HANDOVER_MIXES_MAX);
    }
}

static void depths_write(struct plmi_text *out, const struct plmi_view *view)
{
    static const struct plmi_html_column columns[] = {{"deeper than m", "n"}, {"minutes", "n"}};
    plmi_html_table_begin(out, "deeper", "Time at depth", columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < view->depth_count; i++) {
        plmi_text_puts(out, "<tr>");
        plmi_html_number_cell(out, &columns[0], view->depths[i].deeper_m, 0);
        plmi_html_number_cell(out, &columns[1], view->depths[i].minutes, 1);
        plmi_text_puts(out, "</tr>\n");
    }
    plmi_html_table_end(out);
}

static void dive_write(struct plmi_text *out, const struct plm_report_options *options, const struct plmi_view *view)
{
    plmi_html_page_begin(out, &page);
    plmi_text_puts(out, "<article class=\"handover\">\n");
    who_write(out, options, view);
    picture_write(out, view);
    plmi_html_open(out, "div", "beside");
    plmi_html_open(out, "div", "");
    mixes_write(out, view);
    plmi_html_open(out, "dl", "");
    fact_words(out, view, "Decompression", plmi_handover_decompression);
    fact_words(out, view, "Ceiling", plmi_handover_ceiling);
    fact_words(out, view, "Ascent", plmi_handover_ascent);
    fact_words(out, view, "Oxygen", plmi_handover_oxygen);
    fact_words(out, view, "Tissues", plmi_handover_tissues);
    fact_words(out, view, "Gas", plmi_handover_gas);
    plmi_html_close(out, "dl");
    plmi_html_close(out, "div");
    depths_write(out, view);
    plmi_html_close(out, "div");
}

static void earlier_row(struct plmi_text *out, const struct plmi_html_column *columns,
                        const struct plmi_handover_row *row)
{
    struct plmi_text began;
    plmi_text_init(&began);
    plmi_handover_began(&began, &row->dive->start);
    plmi_text_puts(out, "<tr>");
    plmi_html_cell(out, &columns[0], began.bytes != NULL ? began.bytes : "-");
    plmi_html_cell_open(out, &columns[1]);
    plmi_view_duration_write(out, row->dive->surfaced_s);
    plmi_text_puts(out, "</td>");
    plmi_html_number_cell(out, &columns[2], row->dive->max_depth_m, 1);
    plmi_html_number_cell(out, &columns[3], row->hours_before, 1);
    plmi_html_number_cell(out, &columns[4], row->dive->surfacing_gradient_pct, 1);
    plmi_html_least_cell(out, &columns[5], row->dive->cns_pct, 1, row->dive->cns_at_least);
    plmi_text_puts(out, "</tr>\n");
    out->failed = out->failed || began.failed;
    plmi_text_free(&began);
}

/* Returns: how many dives are shown. */
static size_t earlier_write(struct plmi_text *out, const struct plmi_handover *handover)
{
    static const struct plmi_html_column columns[] = {{"began", ""},     {"lasted", "n"},     {"to m", "n"},
                                                      {"h before", "n"}, {"gradient %", "n"}, {"CNS %", "n"}};
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more, count = plmi_handover_earlier(handover, rows, &more);
    const struct {
        size_t count;
        const char *what;
    } others[] = {{more, "more, earlier, within the 48 hours"},
                  {plmi_handover_same_dive(handover), "more record of this same dive"},
                  {plmi_handover_untimed(handover), "more without a time of day"}};
    if (count > 0) {
        plmi_html_table_begin(out, "earlier", "Dives of the 48 hours before", columns,
                              sizeof columns / sizeof columns[0]);
        bool least = false;
        for (size_t i = 0; i < count; i++) {
            earlier_row(out, columns, &rows[i]);
            least = least || rows[i].dive->cns_at_least;
        }
        plmi_html_table_end(out);
        if (least) {
            plmi_html_text(out, "p", "aside", plmi_view_least);
        }
        if (!handover->carried) {
            plmi_html_text(out, "p", "aside", plmi_handover_not_carried);
        }
    } else {
        plmi_text_printf(out, "<p>The 48 hours before: %s.</p>\n", plmi_handover_none(handover));
    }
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (others[i].count > 0) {
            plmi_text_printf(out, "<p class=\"aside\">%zu %s</p>\n", others[i].count, others[i].what);
        }
    }
    return count;
}

/* spare: lines for which the page has room, beyond the least. */
static void blanks_write(struct plmi_text *out, int spare)
{
    for (size_t i = 0; i < plmi_handover_blank_count; i++) {
        int more = spare < 0 ? 0 : spare < plmi_handover_blanks[i].more ? spare : plmi_handover_blanks[i].more;
        spare -= more;
        plmi_html_open(out, "section", "blank");
        plmi_html_text(out, "h2", "", plmi_handover_blanks[i].label);
        for (int line = 0; line < plmi_handover_blanks[i].lines + more; line++) {
            plmi_text_puts(out, "<hr>\n");
        }
        plmi_html_close(out, "section");
    }
}

static void rest_write(struct plmi_text *out, const struct plm_report_options *options,
                       const struct plmi_handover *handover)
{
    (void)options;
    const size_t line_bytes = 90; /* of what figures stand on, in a printed line */
    /* Three rows of a table are as high as two lines to write on; a line of text takes no more than one. */
    size_t rows = earlier_write(out, handover) + handover->mix_count;
    int lines = (int)((handover->basis_bytes + line_bytes - 1) / line_bytes);
    blanks_write(out, 5 - ((int)rows > 2 ? ((int)rows - 2) * 2 / 3 : 0) - lines);
    plmi_html_open(out, "div", "feet");
    plmi_html_open(out, "section", "cautions");
    plmi_html_text(out, "h2", "", "First aid");
    plmi_html_open(out, "ul", "");
    for (size_t i = 0; i < plmi_handover_aid_count; i++) {
        plmi_html_text(out, "li", "", plmi_handover_aid[i]);
    }
    plmi_html_close(out, "ul");
    plmi_html_close(out, "section");
    plmi_html_cautions(out, plmi_standing_cautions, plmi_standing_caution_count);
    plmi_html_close(out, "div");
    plmi_html_close(out, "article");
    plmi_html_page_end(out, &page);
}

const struct plmi_handover_form plmi_handover_html = {dive_write, rest_write};
