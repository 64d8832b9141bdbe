/*
 * How the time of a table runs.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_PLAN_TIME_H
#define PLM_IMPORT_TABLE_PLAN_TIME_H

#include "import/table/plan.h"

/* Settles the columns of time, their form and the order of dates; reads the lines before the header on the way. */
void plmi_plan_time(struct plmi_table_plan *plan, const struct plm_import_options *options, struct plmi_diags *diags);

#endif
