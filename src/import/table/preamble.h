/*
 * Lines before the header.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_PREAMBLE_H
#define PLM_IMPORT_TABLE_PREAMBLE_H

#include "import/table/plan.h"

/* Reads them into plan->preamble; the order of dates must be settled. What cannot be is reported. */
void plmi_plan_preamble(struct plmi_table_plan *plan, struct plmi_diags *diags);

#endif
