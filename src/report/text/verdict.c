/*
 * How the log was read, in the text report: what was found out about it and why, and a table's columns one by one.
 * Must not judge the log.
 * SPDX-License-Identifier: MIT
 */
#include "report/text/text.h"

static void row_write(struct plmi_page *page, const char *label, const char *found, const char *evidence)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_puts(&text, found);
    if (evidence != NULL && evidence[0] != '\0') {
        plmi_text_printf(&text, " (%s)", evidence);
    }
    plmi_page_row(page, label, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static void column_write(struct plmi_page *page, const struct plm_verdict_column *column)
{
    struct plmi_text label, found;
    plmi_text_init(&label);
    plmi_text_init(&found);
    plmi_text_printf(&label, "column %zu", column->index);
    plmi_text_printf(&found, "%s%s%s%s%s", column->header, column->header[0] != '\0' ? ": " : "", column->meaning,
                     column->unit[0] != '\0' ? " in " : "", column->unit);
    row_write(page, label.bytes != NULL ? label.bytes : "", found.bytes != NULL ? found.bytes : "", column->evidence);
    page->out->failed = page->out->failed || label.failed || found.failed;
    plmi_text_free(&label);
    plmi_text_free(&found);
}

void plmi_text_report_verdict(struct plmi_page *page, const struct plm_verdict *verdict)
{
    plmi_page_heading(page, "HOW THE LOG WAS READ");
    row_write(page, "Format", verdict->format, verdict->summary);
    for (size_t i = 0; i < verdict->fact_count; i++) {
        row_write(page, verdict->facts[i].what, verdict->facts[i].found, verdict->facts[i].evidence);
    }
    for (size_t i = 0; i < verdict->column_count; i++) {
        column_write(page, &verdict->columns[i]);
    }
}
