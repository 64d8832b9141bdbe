/*
 * What the values of the columns look like.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_STATS_H
#define PLM_IMPORT_TABLE_STATS_H

#include "import/table/plan.h"

/* Fills the stats of every column and settles its decimal point; a fact tells what was seen. */
void plmi_plan_points(struct plmi_table_plan *plan);

#endif
