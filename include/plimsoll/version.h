/*
 * The version of the library, in one place; the build reads it from here.
 * Must not hold anything else.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_VERSION_H
#define PLM_VERSION_H

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Version of these headers. While MAJOR is 0, another MINOR may change any declaration; PATCH never does. */
#define PLM_VERSION_MAJOR 0
#define PLM_VERSION_MINOR 1
#define PLM_VERSION_PATCH 0

/* A version as one number that grows with it, for the preprocessor too. */
#define PLM_VERSION_NUMBER_OF(major, minor, patch) ((major)*1000000 + (minor)*1000 + (patch))
#define PLM_VERSION_NUMBER                         PLM_VERSION_NUMBER_OF(PLM_VERSION_MAJOR, PLM_VERSION_MINOR, PLM_VERSION_PATCH)
/* Whether these headers are of this version or a later one: #if PLM_VERSION_AT_LEAST(0, 2, 0). */
#define PLM_VERSION_AT_LEAST(major, minor, patch) (PLM_VERSION_NUMBER >= PLM_VERSION_NUMBER_OF(major, minor, patch))

/* "MAJOR.MINOR.PATCH". */
#define PLM_VERSION_WORD(number) #number
#define PLM_VERSION_TEXT(major, minor, patch) \
    PLM_VERSION_WORD(major) "." PLM_VERSION_WORD(minor) "." PLM_VERSION_WORD(patch)
#define PLM_VERSION PLM_VERSION_TEXT(PLM_VERSION_MAJOR, PLM_VERSION_MINOR, PLM_VERSION_PATCH)

/*
 * Version of the library that runs, which can differ from the PLM_VERSION that a client was compiled with.
 *
 * Returns: "MAJOR.MINOR.PATCH", a constant string.
 */
PLM_API const char *plm_version_get(void);
/* The same as a number, to be compared with PLM_VERSION_NUMBER_OF(major, minor, patch). */
PLM_API int plm_version_number(void);

#ifdef __cplusplus
}
#endif

#endif
