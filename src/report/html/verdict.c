/*
 * How the log was read, on the page: format, facts and columns, each with its evidence. Must not read anything itself.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/debrief.h"
#include "report/view/verdict.h"

static const struct plmi_html_column columns[] = {{"", ""}, {"found", ""}, {"evidence", ""}};

static void row_write(void *to, const char *label, const char *found, const char *evidence)
{
    struct plmi_text *out = to;
    plmi_text_puts(out, "<tr>");
    plmi_html_cell(out, &columns[0], label);
    plmi_html_cell(out, &columns[1], found);
    plmi_html_cell(out, &columns[2], evidence);
    plmi_text_puts(out, "</tr>\n");
}

void plmi_html_verdict(struct plmi_text *out, const struct plm_verdict *verdict)
{
    static const struct plmi_verdict_words words = {"format", "column", ""};
    plmi_html_open(out, "section", "read");
    plmi_html_text(out, "h2", "", "How the log was read");
    plmi_html_table_begin(out, "", "What was understood, and by what", columns, sizeof columns / sizeof columns[0]);
    plmi_verdict_rows(verdict, &words, row_write, out, out);
    plmi_html_table_end(out);
    plmi_html_close(out, "section");
}
