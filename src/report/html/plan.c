/*
 * The plan on the page: the verdict, then planned, done and the difference row by row. Must not compare.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "report/html/debrief.h"
#include "syntax/markup.h"

static const struct plmi_html_column columns[] = {
    {"", "what"}, {"planned", "n"}, {"done", "n"}, {"difference", "n"}, {"", "unit"}};

enum { WHAT, PLANNED, DONE, DIFFERENCE, UNIT, COLUMNS };

/* Words take the room of all numbers. */
static void words_write(struct plmi_text *out, const struct plmi_view_plan_row *row)
{
    const char *planned = row->planned_words != NULL ? row->planned_words : "-";
    const char *done = row->done_words != NULL ? row->done_words : "-";
    plmi_text_puts(out, "<td colspan=\"4\" class=\"words\">");
    plmi_markup_text(out, done);
    if (strcmp(planned, done) == 0) {
        plmi_text_puts(out, ", as planned");
    } else {
        plmi_text_puts(out, "; planned: ");
        plmi_markup_text(out, planned);
    }
    plmi_text_puts(out, "</td>");
}

static void row_write(struct plmi_text *out, const struct plmi_view_plan_row *row)
{
    plmi_text_puts(out, "<tr>");
    plmi_html_cell(out, &columns[WHAT], row->what);
    if (row->planned_words != NULL || row->done_words != NULL) {
        words_write(out, row);
    } else {
        plmi_html_number_cell(out, &columns[PLANNED], row->planned, row->digits);
        plmi_html_number_cell(out, &columns[DONE], row->done, row->digits);
        plmi_html_change_cell(out, &columns[DIFFERENCE], row->difference, row->digits);
        plmi_html_cell(out, &columns[UNIT], row->unit);
    }
    plmi_text_puts(out, "</tr>\n");
}

void plmi_html_plan(struct plmi_text *out, const struct plmi_view *view)
{
    if (view->plan_verdict == NULL) {
        return;
    }
    plmi_html_open(out, "section", "plan");
    plmi_html_text(out, "h2", "", "Against the plan");
    plmi_html_text(out, "p", "", view->plan_verdict);
    if (view->plan_assumed[0] != '\0') {
        plmi_html_text(out, "p", "", view->plan_assumed);
    }
    if (view->plan_row_count > 0) {
        plmi_html_open(out, "div", "folded");
        plmi_html_table_begin(out, "planned", "Planned and done", columns, COLUMNS);
        for (size_t i = 0; i < view->plan_row_count; i++) {
            row_write(out, &view->plan_rows[i]);
        }
        plmi_html_table_end(out);
        plmi_html_close(out, "div");
    }
    plmi_html_close(out, "section");
}
