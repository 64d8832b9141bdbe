/*
 * Tells the version of the library at run time.
 * Must not hold a version of its own: the public header has it.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/version.h>

const char *plm_version_get(void)
{
    return PLM_VERSION;
}

int plm_version_number(void)
{
    return PLM_VERSION_NUMBER;
}
