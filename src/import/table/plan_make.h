/*
 * Making the plan of a table from its head.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_PLAN_MAKE_H
#define PLM_IMPORT_TABLE_PLAN_MAKE_H

#include "import/table/plan.h"

/*
 * Understands the table at the source's start, reports guesses, what is left out, and what is missing.
 * Returns: OK; or INPUT, MEMORY, IO, ARGUMENT (--columns), reported. The caller frees the plan either way.
 */
enum plm_status plmi_table_plan_make(struct plmi_table_plan *plan, struct plm_source *source,
                                     const struct plm_import_options *options, struct plmi_diags *diags);
void plmi_table_plan_free(struct plmi_table_plan *plan);

#endif
