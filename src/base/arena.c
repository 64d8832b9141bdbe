/*
 * Memory given back all at once, and arrays that grow. Must not report: callers
 * see NULL or false.
 * SPDX-License-Identifier: MIT
 */
#include "base/arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_BYTES = 32768, ALIGN_BYTES = alignof(max_align_t), ARRAY_FIRST = 16 };

struct plmi_arena_block {
    struct plmi_arena_block *next;
    size_t capacity; /* bytes behind the header */
    size_t used;
    alignas(max_align_t) unsigned char bytes[];
};

void plmi_arena_init(struct plmi_arena *arena)
{
    *arena = (struct plmi_arena){NULL, 0};
}

static struct plmi_arena_block *add_block(struct plmi_arena *arena, size_t size)
{
    size_t capacity = size > BLOCK_BYTES ? size : (size_t)BLOCK_BYTES;
    struct plmi_arena_block *block = calloc(1, sizeof *block + capacity);
    if (block == NULL) {
        return NULL;
    }
    block->capacity = capacity;
    block->next = arena->blocks;
    arena->blocks = block;
    return block;
}

void *plmi_arena_get(struct plmi_arena *arena, size_t size)
{
    if (size > SIZE_MAX / 2) {
        return NULL;
    }
    size_t rounded = (size + ALIGN_BYTES - 1) / ALIGN_BYTES * ALIGN_BYTES;
    if (rounded == 0) {
        rounded = ALIGN_BYTES;
    }
    struct plmi_arena_block *block = arena->blocks;
    if (block == NULL || block->capacity - block->used < rounded) {
        block = add_block(arena, rounded);
    }
    if (block == NULL) {
        return NULL;
    }
    void *given = block->bytes + block->used;
    block->used += rounded;
    arena->used_bytes += rounded;
    return given;
}

char *plmi_arena_text(struct plmi_arena *arena, const char *text, size_t n)
{
    char *copy = n == SIZE_MAX ? NULL : plmi_arena_get(arena, n + 1);
    if (copy != NULL && n > 0) {
        memcpy(copy, text, n);
    }
    return copy;
}

void plmi_arena_free(struct plmi_arena *arena)
{
    struct plmi_arena_block *block = arena->blocks;
    while (block != NULL) {
        struct plmi_arena_block *next = block->next;
        free(block);
        block = next;
    }
    plmi_arena_init(arena);
}

bool plmi_array_grow(void **items, size_t *capacity, size_t count, size_t size)
{
    if (count < *capacity) {
        return true;
    }
    size_t wanted = *capacity == 0 ? (size_t)ARRAY_FIRST : *capacity;
    if (wanted > SIZE_MAX / 4 || wanted * 2 > SIZE_MAX / 2 / size) {
        return false;
    }
    wanted = *capacity == 0 ? wanted : wanted * 2;
    void *grown = realloc(*items, wanted * size);
    if (grown == NULL) {
        return false;
    }
    *items = grown;
    *capacity = wanted;
    return true;
}
