/*
 * The one way by which the program prints words, so that nothing that a stranger wrote steers a terminal.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_PRINT_H
#define PLM_CLI_PRINT_H

#include <stdio.h>

/*
 * printf for strings and integers, made plain (plm_text_plain). Line feeds at the beginning and the end of the format
 * are lines; all others are shown escaped, so a format holds one line.
 * Returns: bytes between those line feeds, as shown.
 */
int plmi_cli_print(FILE *out, const char *format, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;

#endif
