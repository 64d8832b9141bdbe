/*
 * The plan of a table as a verdict that people read.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_VERDICT_H
#define PLM_IMPORT_TABLE_VERDICT_H

#include "import/table/plan.h"

/* Fills the facts and columns of plan->verdict. Returns: false without memory. */
bool plmi_table_verdict(struct plmi_table_plan *plan);

#endif
