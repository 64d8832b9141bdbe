/*
 * The audit for a person: the answer in a line, one line a dive, worst first, then days, clocks, files. 80 columns.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/utf8.h"
#include "report/team/audit_view.h"
#include "report/view/view.h"
#include "report/view/cells.h"
#include "report/output/whole.h"

#define DIVER_COLUMNS 11

/* A name cut to its column, between letters. */
static void name_cell(struct plmi_page *page, int width, const char *name)
{
    char cut[64];
    size_t n = 0;
    for (int letters = 0; name[n] && n + 4 < sizeof cut && letters < width - 1; letters++) {
        size_t length = plmi_utf8_length(name + n, strlen(name + n));
        n += length ? length : 1;
    }
    memcpy(cut, name, n);
    cut[n] = '\0';
    plmi_page_cell(page, width, cut);
}

static void start_cells(struct plmi_page *page, const struct plm_audit_row *row)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_audit_start_write(&text, row);
    bool dated = text.bytes != NULL && text.count > 5;
    plmi_page_cell(page, 14, dated ? text.bytes + 5 : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static void count_cell(struct plmi_page *page, size_t count, enum plmi_page_tone tone)
{
    if (count == 0) {
        plmi_page_cell(page, -4, "-");
        return;
    }
    plmi_page_tone(page, tone);
    plmi_view_number_cell(page, 4, (double)count, 0);
    plmi_page_tone(page, PLMI_PAGE_PLAIN);
}

static void duration_cell(struct plmi_page *page, double seconds)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_duration_write(&text, seconds);
    plmi_page_made_cell(page, -9, &text);
}

static void row_write(struct plmi_page *page, const struct plmi_audit_view *view, size_t i)
{
    const struct plm_audit_row *row = &view->rows[i];
    struct plmi_text worst;
    plmi_text_puts(page->out, "  ");
    start_cells(page, row);
    name_cell(page, DIVER_COLUMNS, row->diver != NULL ? row->diver : "(not told)");
    plmi_view_number_cell(page, 6, row->max_depth_m, 1);
    duration_cell(page, row->duration_s);
    plmi_view_number_cell(page, 7, row->surfacing_gradient_pct, 0);
    plmi_view_least_cell(page, 6, row->cns_pct, 0, row->cns_beyond_min > 0);
    plmi_view_number_cell(page, 6, row->otu_of_day, 0);
    count_cell(page, row->serious, PLMI_PAGE_SERIOUS);
    count_cell(page, row->caution, PLMI_PAGE_CAUTION);
    count_cell(page, row->note, PLMI_PAGE_NOTE);
    plmi_view_number_cell(page, 5, (double)plmi_audit_other_records(view, i) + 1, 0);
    plmi_page_line_end(page);
    plmi_text_init(&worst);
    if (!view->factors_alike) {
        plmi_text_puts(&worst, "GF ");
        plmi_audit_factors_write(&worst, row);
    }
    if (row->serious + row->caution > 0) {
        plmi_text_puts(&worst, worst.count > 0 ? "; " : "");
        plmi_audit_worst_write(&worst, row);
    }
    if (worst.count == 0) {
        plmi_text_free(&worst);
        return;
    }
    plmi_text_puts(page->out, "                ");
    plmi_page_made_wrap(page, 16, 18, &worst);
}

static void rows_write(struct plmi_page *page, const struct plmi_audit_view *view)
{
    plmi_page_heading(page, "EVERY DIVE, WORST FIRST");
    plmi_text_puts(page->out, "  Costs are minutes of decompression and points of surfacing gradient.\n");
    plmi_text_puts(page->out, "  day   start   diver      deepest  runtime   surf.   CNS   OTU  se- cau- no-  re-\n");
    plmi_text_puts(page->out, "                                m     h:m:s       %     %   day  rio tio  te  cord\n");
    bool least = false;
    for (size_t i = 0; i < view->row_count; i++) {
        if (view->rows[i].other_record < 0) {
            row_write(page, view, i);
            least = least || view->rows[i].cns_beyond_min > 0;
        }
    }
    if (least) {
        plmi_text_puts(page->out, "  ");
        plmi_page_wrap(page, 2, 2, plmi_view_least);
    }
}

static void days_write(struct plmi_page *page, const struct plmi_audit_view *view)
{
    struct plmi_text text;
    if (view->day_count < 2) {
        return;
    }
    plmi_text_init(&text);
    plmi_page_heading(page, "DAY BY DAY");
    for (size_t i = 0; i < view->day_count; i++) {
        plmi_audit_day_write(&text, &view->days[i]);
        plmi_page_made_row(page, view->days[i].date[0] ? view->days[i].date : "no date", &text);
    }
}

static void disagreements_write(struct plmi_page *page, const struct plmi_audit_view *view)
{
    bool any = false;
    for (size_t i = 0; i < view->row_count; i++) {
        const struct plm_audit_row *row = &view->rows[i];
        struct plmi_text text;
        if (row->disagreement.text == NULL) {
            continue;
        }
        if (!any) {
            plmi_page_heading(page, "RECORDERS THAT TELL DIFFERENT STORIES (plimsoll reconcile tells all)");
        }
        any = true;
        plmi_text_init(&text);
        plmi_audit_disagreement_write(&text, row);
        plmi_page_made_row(page, row->diver != NULL ? row->diver : "(not told)", &text);
    }
}

static void doubts_write(struct plmi_page *page, const struct plmi_audit_view *view)
{
    struct plmi_text text;
    bool any = false;
    plmi_text_init(&text);
    for (size_t i = 0; i < view->row_count; i++) {
        if (isnan(view->rows[i].clock_offset_s)) {
            continue;
        }
        if (!any) {
            plmi_page_heading(page, "DOUBTFUL CLOCKS");
        }
        any = true;
        plmi_audit_doubt_write(&text, &view->rows[i]);
        plmi_page_made_row(page, view->rows[i].diver != NULL ? view->rows[i].diver : "(not told)", &text);
    }
}

static void troubles_write(struct plmi_page *page, const struct plmi_audit_view *view)
{
    if (view->trouble_count > 0) {
        plmi_page_heading(page, "FILES WITH TROUBLE");
    }
    for (size_t i = 0; i < view->trouble_count; i++) {
        plmi_text_puts(page->out, view->troubles[i].partly ? "  used in part: " : "  not used: ");
        plmi_page_wrap(page, view->troubles[i].partly ? 16 : 12, 4, view->troubles[i].text);
    }
}

static void text_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    struct plmi_page page = {.out = out, .colour = view->options->colour};
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_audit_headline_write(&text, view);
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_page_made_wrap(&page, 0, 2, &text);
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    plmi_audit_files_write(&text, view);
    plmi_page_made_wrap(&page, 0, 2, &text);
    plmi_audit_judged_write(&text, view);
    plmi_page_made_wrap(&page, 0, 2, &text);
    rows_write(&page, view);
    disagreements_write(&page, view);
    doubts_write(&page, view);
    troubles_write(&page, view);
    days_write(&page, view);
    plmi_whole_cautions(&page, plmi_standing_cautions, plmi_standing_caution_count);
}

void plmi_audit_text(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    plmi_audit_view_write(out, what, options, text_write);
}
