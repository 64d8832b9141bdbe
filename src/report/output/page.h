/*
 * A page of plain text: headings, wrapped paragraphs, labelled rows, cells in columns, and colour where it is wanted.
 * What a text says stays in its place and steers nothing (base/plain.h). Knows nothing of dives.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_OUTPUT_PAGE_H
#define PLM_REPORT_OUTPUT_PAGE_H

#include <stdbool.h>

#include "base/text.h"

#define PLMI_PAGE_COLUMNS 80

struct plmi_page {
    struct plmi_text *out;
    bool colour;
};

enum plmi_page_tone {
    PLMI_PAGE_PLAIN,
    PLMI_PAGE_HEADING,
    PLMI_PAGE_SERIOUS,
    PLMI_PAGE_CAUTION,
    PLMI_PAGE_NOTE,
    PLMI_PAGE_LINE,
    PLMI_PAGE_FILL /* of pictures */
};

/* Columns that a text takes as it is shown: its letters, whatever their bytes. */
int plmi_page_width(const char *text);
/* Starts and ends a stretch in a tone; nothing without colour. */
void plmi_page_tone(struct plmi_page *page, enum plmi_page_tone tone);
/* A blank line, and a heading. */
void plmi_page_heading(struct plmi_page *page, const char *text);
/* A paragraph, wrapped; the cursor stands at column at, further lines start at indent. Ends the line. */
void plmi_page_wrap(struct plmi_page *page, int at, int indent, const char *text);
/* "  label      text", wrapped under the text. */
void plmi_page_row(struct plmi_page *page, const char *label, const char *text);
/* A cell of this width, flush left, or flush right where width is negative. */
void plmi_page_cell(struct plmi_page *page, int width, const char *text);
void plmi_page_line_end(struct plmi_page *page);
/* The same with a text that was put together: it is freed, and a lack of memory is handed on. */
void plmi_page_made_wrap(struct plmi_page *page, int at, int indent, struct plmi_text *text);
void plmi_page_made_row(struct plmi_page *page, const char *label, struct plmi_text *text);
void plmi_page_made_cell(struct plmi_page *page, int width, struct plmi_text *text);

#endif
