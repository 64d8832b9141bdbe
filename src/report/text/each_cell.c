/*
 * The figures by each oxygen cell alone in the text report. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include "report/text/text.h"
#include "report/view/cells.h"

#define NAME_COLUMNS 32

static void heads_write(struct plmi_page *page)
{
    static const char *const heads[][3] = {{"surfacing", "oxygen", "stops required when"},
                                           {"gradient %", "clock %", "leaving the bottom, min"}};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        plmi_page_cell(page, NAME_COLUMNS, "");
        plmi_page_cell(page, -11, heads[i][0]);
        plmi_page_cell(page, -10, heads[i][1]);
        plmi_page_cell(page, -25, heads[i][2]);
        plmi_page_line_end(page);
    }
}

void plmi_text_report_cells(struct plmi_page *page, const struct plmi_view *view)
{
    bool least = false;
    if (view->cell_count == 0) {
        return;
    }
    plmi_page_heading(page, "BY EACH OXYGEN CELL ALONE");
    plmi_page_cell(page, 2, "");
    plmi_page_wrap(page, 2, 2, plmi_view_cells_words);
    heads_write(page);
    for (size_t i = 0; i < view->cell_count; i++) {
        const struct plmi_view_cell *cell = &view->cells[i];
        plmi_page_cell(page, 2, "");
        plmi_page_cell(page, NAME_COLUMNS - 2, cell->name);
        plmi_view_number_cell(page, 11, cell->surfacing_gradient_pct, 1);
        plmi_view_least_cell(page, 10, cell->cns_pct, 1, cell->cns_at_least);
        plmi_view_number_cell(page, 25, cell->owed_min, 1);
        plmi_page_line_end(page);
        least = least || cell->cns_at_least;
    }
    if (least) {
        plmi_page_cell(page, 2, "");
        plmi_page_wrap(page, 2, 2, plmi_view_least);
    }
}
