/*
 * How the log was read, on the page: format, facts and columns, each with its evidence. Must not read anything itself.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/debrief.h"

static const struct plmi_html_column columns[] = {{"", ""}, {"found", ""}, {"evidence", ""}};

static void row_write(struct plmi_text *out, const char *what, const char *found, const char *evidence)
{
    plmi_text_puts(out, "<tr>");
    plmi_html_cell(out, &columns[0], what);
    plmi_html_cell(out, &columns[1], found);
    plmi_html_cell(out, &columns[2], evidence != NULL ? evidence : "");
    plmi_text_puts(out, "</tr>\n");
}

static void column_write(struct plmi_text *out, const struct plm_verdict_column *column)
{
    struct plmi_text label, found;
    plmi_text_init(&label);
    plmi_text_init(&found);
    plmi_text_printf(&label, "column %zu", column->index);
    plmi_text_printf(&found, "%s%s%s%s%s", column->header, column->header[0] != '\0' ? ": " : "", column->meaning,
                     column->unit[0] != '\0' ? " in " : "", column->unit);
    row_write(out, label.bytes != NULL ? label.bytes : "", found.bytes != NULL ? found.bytes : "", column->evidence);
    out->failed = out->failed || label.failed || found.failed;
    plmi_text_free(&label);
    plmi_text_free(&found);
}

void plmi_html_verdict(struct plmi_text *out, const struct plm_verdict *verdict)
{
    plmi_html_open(out, "section", "read");
    plmi_html_text(out, "h2", "", "How the log was read");
    plmi_html_table_begin(out, "", "What was understood, and by what", columns, sizeof columns / sizeof columns[0]);
    row_write(out, "format", verdict->format, verdict->summary);
    for (size_t i = 0; i < verdict->fact_count; i++) {
        row_write(out, verdict->facts[i].what, verdict->facts[i].found, verdict->facts[i].evidence);
    }
    for (size_t i = 0; i < verdict->column_count; i++) {
        column_write(out, &verdict->columns[i]);
    }
    plmi_html_table_end(out);
    plmi_html_close(out, "section");
}
