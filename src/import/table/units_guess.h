/*
 * Units that no name tells.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_UNITS_GUESS_H
#define PLM_IMPORT_TABLE_UNITS_GUESS_H

#include "import/table/plan.h"

/* Gives every column that is read and needs one a unit; guesses are reported.
 * Returns: OK; INPUT for pressures that have no surface to be counted from, reported. */
enum plm_status plmi_plan_units(struct plmi_table_plan *plan, const struct plm_rules *rules, struct plmi_diags *diags);

#endif
