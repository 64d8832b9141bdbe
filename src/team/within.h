/*
 * Where files really lie.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_WITHIN_H
#define PLM_TEAM_WITHIN_H

#include <stdbool.h>

/*
 * Whether a file lies in the folder of another, or below it, once all links are followed. Of a file that is not there,
 * or that cannot be told, true: opening it fails. Without memory false.
 */
bool plmi_within_folder_of(const char *path, const char *other);

#endif
