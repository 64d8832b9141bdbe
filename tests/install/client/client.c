/*
 * A client of the installed library: prints its version.
 * Must include public headers only.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/version.h>
#include <stdio.h>

int main(void)
{
    return puts(plm_version_get()) == EOF;
}
