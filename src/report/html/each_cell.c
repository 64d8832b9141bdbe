/*
 * The figures by each oxygen cell alone on the page. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include "report/html/debrief.h"

static const struct plmi_html_column columns[] = {{"", "what"},
                                                  {"surfacing gradient, %", "n"},
                                                  {"oxygen clock, %", "n"},
                                                  {"stops required when leaving the bottom, min", "n"}};

enum { NAME, GRADIENT, CLOCK, REQUIRED, COLUMNS };

void plmi_html_cells(struct plmi_text *out, const struct plmi_view *view)
{
    bool least = false;
    if (view->cell_count == 0) {
        return;
    }
    plmi_html_open(out, "section", "cells");
    plmi_html_text(out, "h2", "", "By each oxygen cell alone");
    plmi_html_text(out, "p", "", plmi_view_cells_words);
    plmi_html_table_begin(out, "planned", "By each oxygen cell alone", columns, COLUMNS);
    for (size_t i = 0; i < view->cell_count; i++) {
        const struct plmi_view_cell *cell = &view->cells[i];
        plmi_text_puts(out, "<tr>");
        plmi_html_cell(out, &columns[NAME], cell->name);
        plmi_html_number_cell(out, &columns[GRADIENT], cell->surfacing_gradient_pct, 1);
        plmi_html_least_cell(out, &columns[CLOCK], cell->cns_pct, 1, cell->cns_at_least);
        plmi_html_number_cell(out, &columns[REQUIRED], cell->owed_min, 1);
        plmi_text_puts(out, "</tr>\n");
        least = least || cell->cns_at_least;
    }
    plmi_html_table_end(out);
    if (least) {
        plmi_html_text(out, "p", "aside", plmi_view_least);
    }
    plmi_html_close(out, "section");
}
