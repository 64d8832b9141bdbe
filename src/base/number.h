/*
 * Numbers from and to text without a locale; exact round trips.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_NUMBER_H
#define PLM_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/text.h"

/*
 * A decimal number that fills the whole of text[n], blanks around it allowed: sign, digits, point (given by
 * the caller, '.' or ','), exponent. Correctly rounded. No hex, no inf, no nan.
 * Returns: false for anything else or when the value overflows.
 */
bool plmi_number_parse(const char *text, size_t n, char point, double *value);
/* The same times 10^tens (-30..30), correctly rounded once: a unit that is a power of ten away loses nothing. */
bool plmi_number_parse_scaled(const char *text, size_t n, char point, int tens, double *value);
bool plmi_integer_parse(const char *text, size_t n, int64_t *value);

/* Fixed digits behind the point ("%.*f"), "-0.0" written as "0.0"; NaN gives "". digits 0..12. Always a point. */
void plmi_number_fixed(struct plmi_text *out, double value, int digits);
/* The shortest text that parses back to the same double. NaN gives "". */
void plmi_number_short(struct plmi_text *out, double value);
/* The same times 10^tens (-30..30): plmi_number_parse_scaled with -tens reads the same double back. */
void plmi_number_short_scaled(struct plmi_text *out, double value, int tens);

#endif
