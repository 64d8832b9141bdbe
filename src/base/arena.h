/*
 * Memory that is given back all at once. Not thread-safe, never shrinks.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_ARENA_H
#define PLM_BASE_ARENA_H

#include <stdbool.h>
#include <stddef.h>

struct plmi_arena {
    struct plmi_arena_block *blocks;
    size_t used_bytes;
};

void plmi_arena_init(struct plmi_arena *arena);
/* Zeroed, aligned for any type. Returns: NULL without memory. */
void *plmi_arena_get(struct plmi_arena *arena, size_t size);
/* Copy of n bytes of text with a NUL behind it. Returns: NULL without memory. */
char *plmi_arena_text(struct plmi_arena *arena, const char *text, size_t n);
void plmi_arena_free(struct plmi_arena *arena);

/*
 * Room for one more item in a growing array on the heap.
 *   items     [in,out] the array, NULL when empty
 *   capacity  [in,out] items there is room for
 *   count     items in use
 *   size      bytes an item
 * Returns: false without memory; the array stays as it was.
 */
bool plmi_array_grow(void **items, size_t *capacity, size_t count, size_t size);

#endif
