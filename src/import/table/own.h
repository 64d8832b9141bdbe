/*
 * What our own exports write into a table beyond what tables have.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_OWN_H
#define PLM_IMPORT_TABLE_OWN_H

#include <plimsoll/dive_builder.h>

#include "import/table/plan.h"

/* Takes a line before the header that plm_export writes. Returns: whether the key is one of them. */
bool plmi_plan_own_line(struct plmi_table_plan *plan, const char *key, const char *value);

/*
 * Adds events as they stand in a cell that plm_export wrote. What cannot be read is reported and dropped.
 * Returns: OK, MEMORY (reported).
 */
enum plm_status plmi_own_events(struct plm_dive_builder *builder, const char *text, int64_t time_ms, uint32_t line,
                                struct plmi_diags *diags);

#endif
