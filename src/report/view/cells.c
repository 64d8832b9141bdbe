/*
 * Figures as cells of a page of text. Must not choose any.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/cells.h"

#include "report/view/view.h"

void plmi_view_number_cell(struct plmi_page *page, int width, double value, int digits)
{
    plmi_view_least_cell(page, width, value, digits, false);
}

void plmi_view_least_cell(struct plmi_page *page, int width, double value, int digits, bool at_least)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_least_write(&text, value, digits, at_least);
    plmi_page_made_cell(page, -width, &text);
}
