/*
 * Names of persons: when two are the same, however they were typed.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_NAMES_H
#define PLM_NAMES_H

#include <stdbool.h>

#include <plimsoll/api.h>

#ifdef __cplusplus
extern "C" {
#endif

/*
 * A name as it is kept: Unicode's normal form C, no white space at its ends, each run of white space inside as one
 * blank. Bytes that are no UTF-8 become U+FFFD.
 *   name  NULL counts as ""
 * Returns: NULL without memory. Owns: the caller frees it with free().
 * Source:  UAX #15 (normal form C); PropList.txt (White_Space).
 */
PLM_API char *plm_name_normal(const char *name);

/*
 * What stands for a person whatever the case: the normal form, case folded, without characters that never show
 * (Default_Ignorable_Code_Point). Two names with one key name one person. Made to be compared, not to be shown.
 * Returns and owns as plm_name_normal.
 * Source:  The Unicode Standard, 3.13, default case folding.
 */
PLM_API char *plm_name_key(const char *name);

/* Whether two names name one person: their keys are the same. NULL names nobody. Without memory: whether the bytes are
 * the same. */
PLM_API bool plm_name_same(const char *a, const char *b);

/* Whether two names differ by accents or other marks alone: as keys they differ, as keys without marks they do not.
 * False without memory. */
PLM_API bool plm_name_alike(const char *a, const char *b);

#ifdef __cplusplus
}
#endif

#endif
