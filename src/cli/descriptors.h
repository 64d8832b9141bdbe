/*
 * Keeps the numbers of standard input, output and error from every file that is opened later.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_DESCRIPTORS_H
#define PLM_CLI_DESCRIPTORS_H

#include <stdbool.h>

/*
 * Where one of them is closed, its number would go to the next file opened, and what is said on standard error would be
 * written into it. A closed one is opened on something that can be neither read from nor written to. Called before
 * anything else is opened.
 * Returns: false where that cannot be had.
 */
bool plmi_cli_descriptors_reserve(void);

#endif
