/*
 * Columns whose names promise what their cells do not hold.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_DOUBT_H
#define PLM_IMPORT_TABLE_DOUBT_H

#include "import/table/plan.h"

/*
 * Holds every column to be read against the cells of the head, before one is chosen for each meaning. A unit that the
 * cells name becomes the column's where its name has none. A column in a unit that its meaning does not have, and one
 * whose name is understood in part and whose cells do not fit that, are not read; a note tells each.
 */
void plmi_plan_doubt(struct plmi_table_plan *plan, struct plmi_diags *diags);

#endif
