/*
 * The plan in the text report: the verdict, then planned, done and the difference row by row. Must not compare.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/text.h"

static void value_cell(struct plmi_page *page, int width, const char *words, double value, int digits, bool change)
{
    struct plmi_text text;
    plmi_text_init(&text);
    if (words != NULL)
        plmi_text_puts(&text, words);
    else if (change && !isnan(value))
        plmi_view_change_write(&text, value, digits);
    else if (!isnan(value))
        plmi_view_number_write(&text, value, digits, "");
    plmi_page_cell(page, width, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static void row_write(struct plmi_page *page, const struct plmi_view_plan_row *row)
{
    plmi_page_cell(page, 2, "");
    plmi_page_cell(page, 38, row->what);
    value_cell(page, -11, row->planned_words, row->planned, row->digits, false);
    value_cell(page, -11, row->done_words, row->done, row->digits, false);
    value_cell(page, -12, NULL, row->difference, row->digits, true);
    plmi_page_cell(page, 1, "");
    plmi_page_cell(page, 5, row->unit);
    plmi_page_line_end(page);
}

void plmi_text_report_plan(struct plmi_page *page, const struct plmi_view *view)
{
    if (view->plan_verdict == NULL)
        return;
    plmi_page_heading(page, "AGAINST THE PLAN");
    plmi_page_cell(page, 2, "");
    plmi_page_wrap(page, 2, 2, view->plan_verdict);
    if (view->plan_assumed[0] != '\0') {
        plmi_page_cell(page, 2, "");
        plmi_page_wrap(page, 2, 2, view->plan_assumed);
    }
    plmi_page_cell(page, 40, "");
    plmi_page_cell(page, -11, "planned");
    plmi_page_cell(page, -11, "done");
    plmi_page_cell(page, -12, "difference");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->plan_row_count; i++)
        row_write(page, &view->plan_rows[i]);
}
