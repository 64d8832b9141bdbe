/*
 * How the log was read, in the text report: what was found out about it and why, and a table's columns one by one.
 * Must not judge the log.
 * SPDX-License-Identifier: MIT
 */
#include "report/text/text.h"
#include "report/view/verdict.h"

static void row_write(void *to, const char *label, const char *found, const char *evidence)
{
    struct plmi_page *page = to;
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_puts(&text, found);
    if (evidence[0] != '\0') {
        plmi_text_printf(&text, " (%s)", evidence);
    }
    plmi_page_made_row(page, label, &text);
}

void plmi_text_report_verdict(struct plmi_page *page, const struct plm_verdict *verdict)
{
    static const struct plmi_verdict_words words = {"Format", "column", ""};
    plmi_page_heading(page, "HOW THE LOG WAS READ");
    plmi_verdict_rows(verdict, &words, row_write, page, page->out);
}
