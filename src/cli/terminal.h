/*
 * What the terminal can show: how wide it is, whether it takes letters beyond ASCII.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_TERMINAL_H
#define PLM_CLI_TERMINAL_H

#include <stdbool.h>

/* Columns for pictures on this descriptor: those of a terminal within 40..100, else 80. */
int plmi_cli_terminal_columns(int descriptor);
/* Whether the locale's letters are ASCII alone: LC_ALL, else LC_CTYPE, else LANG does not name UTF-8. */
bool plmi_cli_terminal_ascii(void);

#endif
