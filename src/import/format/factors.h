/*
 * A pair of gradient factors in text.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_FACTORS_H
#define PLM_IMPORT_FORMAT_FACTORS_H

#include <stdbool.h>

/* "50/80" as percent, blanks around each number. Returns: false where it is no two numbers; nothing is set then. */
bool plmi_factors_parse(const char *text, double *low_pct, double *high_pct);

#endif
