/*
 * Units as they are written over columns, in six languages. What a unit is worth stands in base/units.h.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_UNITS_H
#define PLM_IMPORT_TABLE_UNITS_H

#include <stdbool.h>

#include "base/units.h"

enum plmi_dimension {
    PLMI_DIMENSION_NONE,
    PLMI_DIMENSION_TIME,
    PLMI_DIMENSION_LENGTH,
    PLMI_DIMENSION_PRESSURE,
    PLMI_DIMENSION_TEMP,
    PLMI_DIMENSION_FRACTION
};

/* Unit of this dimension written as this word (a token of plmi_tokens_split), or NULL. NONE: of any dimension. */
const struct plmi_unit *plmi_unit_of_word(const char *word, enum plmi_dimension dimension);
enum plmi_dimension plmi_unit_dimension(const struct plmi_unit *unit);

/* Whether a word names a unit of something that no column read is in, as the mV of an oxygen cell. */
bool plmi_unit_is_foreign(const char *word);

#endif
