/*
 * Figures as cells of a page of text.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_VIEW_CELLS_H
#define PLM_REPORT_VIEW_CELLS_H

#include "report/output/page.h"

/* A number as people read it, without a unit, flush right. */
void plmi_view_number_cell(struct plmi_page *page, int width, double value, int digits);
/* The same by plmi_view_least_write. */
void plmi_view_least_cell(struct plmi_page *page, int width, double value, int digits, bool at_least);

#endif
