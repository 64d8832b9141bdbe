/*
 * Allocation that can be told to fail: every malloc, calloc, realloc and free
 * of the program passes here by the linker's --wrap. Must not allocate itself.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_OOM_ALLOCATION_H
#define PLM_OOM_ALLOCATION_H

#include <stdbool.h>
#include <stddef.h>

/*
 * Lets the n-th allocation from now on fail.
 *   n        [from 1]; 0: none fails
 *   for_good whether all that follow fail too
 */
void allocation_fail(size_t n, bool for_good);

/* Whether an allocation was refused since allocation_fail. */
bool allocation_refused(void);

/* Blocks that are allocated and not freed. */
long allocation_live(void);

#endif
