/*
 * Numbers and nearest words on the command line. Knows no locale.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_NUMBER_H
#define PLM_CLI_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* A plain decimal number, at most 15 digits, that fills text[n]: "-1.5". Exactly rounded. Returns: false for all else.
 */
bool plmi_cli_number_parse(const char *text, size_t n, double *value);
/* A whole number 0..999999999 that fills text. */
bool plmi_cli_whole_parse(const char *text, long *value);
/* Letters to insert, drop or replace to make a of b. */
size_t plmi_cli_distance(const char *a, const char *b);

#endif
