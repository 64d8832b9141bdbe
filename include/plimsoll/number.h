/*
 * Numbers as people type them, read without a locale: rules files, tables and the program's options are read by these.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_NUMBER_H
#define PLM_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Reads a decimal number that fills text[n], blanks around it allowed: sign, digits, a point, exponent ("-1.5", "2e3").
 * Correctly rounded. No hexadecimal digits, no infinity, no NaN.
 * Returns: false for anything else and for what is too large for a double; value is left as it was.
 */
PLM_API bool plm_number_parse(const char *text, size_t n, double *value);
/* Reads a whole number that fills text, blanks around it allowed: sign and digits. Returns: false for anything else and
 * outside of int64_t; value is left as it was. */
PLM_API bool plm_whole_parse(const char *text, int64_t *value);

#ifdef __cplusplus
}
#endif

#endif
