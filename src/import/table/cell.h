/*
 * What a cell of a table looks like.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_CELL_H
#define PLM_IMPORT_TABLE_CELL_H

#include <stdbool.h>

/* What a cell looks like. */
enum plmi_look {
    PLMI_LOOK_EMPTY,
    PLMI_LOOK_NUMBER,
    PLMI_LOOK_DATE,
    PLMI_LOOK_CLOCK /* colons */,
    PLMI_LOOK_DATE_CLOCK,
    PLMI_LOOK_TEXT,
    PLMI_LOOK_COUNT
};
enum plmi_look plmi_cell_look(const char *cell);
/* "", "-", "--", "n/a", "---" and the like: nothing recorded. */
bool plmi_cell_empty(const char *cell);

#endif
