/*
 * Where the surface of a record lies.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_ZERO_H
#define PLM_IMPORT_TABLE_ZERO_H

#include "import/table/plan.h"

/* Finds what the surface reads, reports it where it is off, and settles whether it is taken off. */
void plmi_plan_zero(struct plmi_table_plan *plan, const struct plm_import_options *options, struct plmi_diags *diags);

#endif
