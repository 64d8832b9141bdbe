/*
 * The version of the library, in one place; the build reads it from here.
 * Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_VERSION_H
#define PLM_VERSION_H

#include <plimsoll/api.h>

#define PLM_VERSION "0.1.0"

/*
 * Version of the library that runs, which can differ from the PLM_VERSION
 * that a client was compiled with.
 *
 * Returns: "MAJOR.MINOR.PATCH", a constant string.
 */
PLM_API const char *plm_version_get(void);

#endif
