/*
 * Units that stand behind the values of cells, as in "14.2 m", "21 °C" and "12:31 min".
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_CELL_UNIT_H
#define PLM_IMPORT_TABLE_CELL_UNIT_H

#include <stdbool.h>
#include <stddef.h>

struct plmi_cell_unit {
    size_t value_n; /* bytes of the cell before the blanks and the unit */
    char word[32];  /* the unit, as a token of plmi_tokens_split */
};

/* Whether a cell is digits and signs with the word of a unit behind them, a foreign one too. */
bool plmi_cell_unit_split(struct plmi_cell_unit *out, const char *cell, size_t n);

#endif
