/*
 * The plan in the text report: the verdict, then planned, done and the difference row by row. Must not compare.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/text/text.h"

static void value_cell(struct plmi_page *page, int width, double value, int digits, bool change)
{
    struct plmi_text text;
    plmi_text_init(&text);
    if (change && !isnan(value)) {
        plmi_view_change_write(&text, value, digits);
    } else if (!change) {
        plmi_view_number_write(&text, value, digits, "");
    }
    plmi_page_made_cell(page, width, &text);
}

/* Words have no columns: they differ in length. */
static void words_row_write(struct plmi_page *page, const struct plmi_view_plan_row *row)
{
    const char *planned = row->planned_words != NULL ? row->planned_words : "-";
    const char *done = row->done_words != NULL ? row->done_words : "-";
    struct plmi_text text;
    plmi_text_init(&text);
    if (strcmp(planned, done) == 0) {
        plmi_text_printf(&text, "%s, as planned", done);
    } else {
        plmi_text_printf(&text, "%s; planned: %s", done, planned);
    }
    plmi_page_made_row(page, row->what, &text);
}

static void row_write(struct plmi_page *page, const struct plmi_view_plan_row *row)
{
    if (row->planned_words != NULL || row->done_words != NULL) {
        words_row_write(page, row);
        return;
    }
    plmi_page_cell(page, 2, "");
    plmi_page_cell(page, 41, row->what);
    value_cell(page, -9, row->planned, row->digits, false);
    value_cell(page, -9, row->done, row->digits, false);
    value_cell(page, -11, row->difference, row->digits, true);
    plmi_page_cell(page, 1, "");
    plmi_page_cell(page, 5, row->unit);
    plmi_page_line_end(page);
}

void plmi_text_report_plan(struct plmi_page *page, const struct plmi_view *view)
{
    if (view->plan_verdict == NULL) {
        return;
    }
    plmi_page_heading(page, "AGAINST THE PLAN");
    plmi_page_cell(page, 2, "");
    plmi_page_wrap(page, 2, 2, view->plan_verdict);
    if (view->plan_assumed[0] != '\0') {
        plmi_page_cell(page, 2, "");
        plmi_page_wrap(page, 2, 2, view->plan_assumed);
    }
    plmi_page_cell(page, 43, "");
    plmi_page_cell(page, -9, "planned");
    plmi_page_cell(page, -9, "done");
    plmi_page_cell(page, -11, "difference");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->plan_row_count; i++) {
        row_write(page, &view->plan_rows[i]);
    }
}
