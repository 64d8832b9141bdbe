/*
 * Elements, tables and lists of a page. Must not let a text in unescaped.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/html.h"
#include "report/view/view.h"
#include "syntax/markup.h"

void plmi_html_open(struct plmi_text *out, const char *element, const char *class_name)
{
    plmi_text_printf(out, "<%s", element);
    if (class_name[0] != '\0') {
        plmi_markup_attribute(out, "class", class_name);
    }
    plmi_text_puts(out, ">");
}

void plmi_html_close(struct plmi_text *out, const char *element)
{
    plmi_text_printf(out, "</%s>\n", element);
}

void plmi_html_text(struct plmi_text *out, const char *element, const char *class_name, const char *text)
{
    plmi_html_open(out, element, class_name);
    plmi_markup_text(out, text);
    plmi_html_close(out, element);
}

void plmi_html_made(struct plmi_text *out, const char *element, const char *class_name, struct plmi_text *text)
{
    plmi_html_text(out, element, class_name, text->bytes != NULL ? text->bytes : "");
    out->failed = out->failed || text->failed;
    plmi_text_free(text);
}

void plmi_html_table_begin(struct plmi_text *out, const char *class_name, const char *caption,
                           const struct plmi_html_column *columns, size_t count)
{
    plmi_html_open(out, "table", class_name);
    plmi_html_text(out, "caption", "", caption);
    plmi_text_puts(out, "<thead><tr>");
    for (size_t i = 0; i < count; i++) {
        plmi_text_puts(out, "<th scope=\"col\"");
        if (columns[i].class_name[0] != '\0') {
            plmi_markup_attribute(out, "class", columns[i].class_name);
        }
        plmi_text_puts(out, ">");
        plmi_markup_text(out, columns[i].head);
        plmi_text_puts(out, "</th>");
    }
    plmi_text_puts(out, "</tr></thead>\n<tbody>\n");
}

void plmi_html_table_end(struct plmi_text *out)
{
    plmi_text_puts(out, "</tbody></table>\n");
}

void plmi_html_cell_open(struct plmi_text *out, const struct plmi_html_column *column)
{
    plmi_text_puts(out, "<td");
    if (column->class_name[0] != '\0') {
        plmi_markup_attribute(out, "class", column->class_name);
    }
    if (column->head[0] != '\0') {
        plmi_markup_attribute(out, "data-head", column->head);
    }
    plmi_text_puts(out, ">");
}

void plmi_html_cell(struct plmi_text *out, const struct plmi_html_column *column, const char *text)
{
    plmi_html_cell_open(out, column);
    plmi_markup_text(out, text);
    plmi_text_puts(out, "</td>");
}

void plmi_html_number_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits)
{
    plmi_html_least_cell(out, column, value, digits, false);
}

void plmi_html_least_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits,
                          bool at_least)
{
    plmi_html_cell_open(out, column);
    plmi_view_least_write(out, value, digits, at_least);
    plmi_text_puts(out, "</td>");
}

void plmi_html_change_cell(struct plmi_text *out, const struct plmi_html_column *column, double value, int digits)
{
    plmi_html_cell_open(out, column);
    if (!isnan(value)) {
        plmi_view_change_write(out, value, digits);
    }
    plmi_text_puts(out, "</td>");
}

void plmi_html_term(struct plmi_text *out, const char *label, const char *text)
{
    plmi_html_text(out, "dt", "", label);
    plmi_html_text(out, "dd", "", text);
}

void plmi_html_cautions(struct plmi_text *out, const char *const *cautions, size_t count)
{
    plmi_html_open(out, "section", "cautions");
    plmi_html_text(out, "h2", "", "Cautions");
    plmi_html_open(out, "ul", "");
    for (size_t i = 0; i < count; i++) {
        plmi_html_text(out, "li", "", cautions[i]);
    }
    plmi_html_close(out, "ul");
    plmi_html_close(out, "section");
}
