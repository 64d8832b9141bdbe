/*
 * Where files really lie.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_LOG_WITHIN_H
#define PLM_LOG_WITHIN_H

#include <stdbool.h>

/*
 * Whether a file lies in the folder of another, or below it, once all links are followed. Of a file that is not there
 * true: opening it fails. Where it cannot be reported false. Returns: false without memory.
 */
bool plmi_within_folder_of(bool *within, const char *path, const char *other);

#endif
