/*
 * Pages of HTML for people: one file that needs nothing else, no script to be read, no network. Elements, tables, lists
 * and cautions; every text is escaped. Knows nothing of dives.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_HTML_H
#define PLM_REPORT_HTML_HTML_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

/* What a page begins with. */
struct plmi_html_page {
    const char *title; /* of the window and of the head of the page */
    bool script;       /* it holds pictures over time: the script that reads them out comes along */
};

/* Up to the first element of <main>: policy (nothing may be fetched; style and script by their hashes), style, head. */
void plmi_html_page_begin(struct plmi_text *out, const struct plmi_html_page *page);
void plmi_html_page_end(struct plmi_text *out, const struct plmi_html_page *page);

/* <element class="class_name">; class_name "": none. */
void plmi_html_open(struct plmi_text *out, const char *element, const char *class_name);
void plmi_html_close(struct plmi_text *out, const char *element);
/* A whole element with text in it. */
void plmi_html_text(struct plmi_text *out, const char *element, const char *class_name, const char *text);
/* The same; the text is freed, and a lack of memory is handed on. */
void plmi_html_made(struct plmi_text *out, const char *element, const char *class_name, struct plmi_text *text);

/* Tables. A narrow window shows each cell with the head of its column. class_name "n" for numbers. */
struct plmi_html_column {
    const char *head, *class_name;
};
void plmi_html_table_begin(struct plmi_text *out, const char *class_name, const char *caption,
                           const struct plmi_html_column *columns, size_t count);
void plmi_html_table_end(struct plmi_text *out);
void plmi_html_cell_open(struct plmi_text *out, const struct plmi_html_column *column);
void plmi_html_cell(struct plmi_text *out, const struct plmi_html_column *column, const char *text);
/* "-" for NaN. */
void plmi_html_number_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits);
/* The same by plmi_view_least_write. */
void plmi_html_least_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits,
                          bool at_least);
void plmi_html_change_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits);

/* What is shown as label and sentence, between plmi_html_open(out, "dl", ...) and its close. */
void plmi_html_term(struct plmi_text *out, const char *label, const char *text);

/* The cautions, under their heading. */
void plmi_html_cautions(struct plmi_text *out, const char *const *cautions, size_t count);

/* What a policy calls this text: "sha256-" and base64. */
struct plmi_html_hash {
    char text[64];
};
struct plmi_html_hash plmi_html_hash(const char *bytes, size_t count);

#endif
