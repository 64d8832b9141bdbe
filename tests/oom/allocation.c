/*
 * The allocator that fails on demand; see the header. Must not allocate itself.
 * SPDX-License-Identifier: MIT
 */
#include "oom/allocation.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static size_t countdown;
static bool failing_for_good;
static bool refused;
static long live;

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t size);
char *__real_realpath(const char *path, char *buffer);
void __real_free(void *block);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t size);
char *__wrap_strdup(const char *text);
char *__wrap_realpath(const char *path, char *buffer);
void __wrap_free(void *block);

void allocation_fail(size_t n, bool for_good)
{
    countdown = n;
    failing_for_good = for_good;
    refused = false;
}

bool allocation_refused(void)
{
    return refused;
}

long allocation_live(void)
{
    return live;
}

static bool refuse(void)
{
    if (refused && failing_for_good) {
        return true;
    }
    if (countdown == 0 || --countdown > 0) {
        return false;
    }
    refused = true;
    return true;
}

void *__wrap_malloc(size_t size)
{
    void *block = refuse() ? NULL : __real_malloc(size);
    live += block != NULL;
    return block;
}

void *__wrap_calloc(size_t count, size_t size)
{
    void *block = refuse() ? NULL : __real_calloc(count, size);
    live += block != NULL;
    return block;
}

void *__wrap_realloc(void *block, size_t size)
{
    void *grown = refuse() ? NULL : __real_realloc(block, size);
    live += block == NULL && grown != NULL;
    return grown;
}

char *__wrap_strdup(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = __wrap_malloc(size);
    return copy == NULL ? NULL : memcpy(copy, text, size);
}

/* With a buffer it allocates nothing. */
char *__wrap_realpath(const char *path, char *buffer)
{
    if (buffer != NULL) {
        return __real_realpath(path, buffer);
    }
    if (refuse()) {
        errno = ENOMEM;
        return NULL;
    }
    char *real = __real_realpath(path, NULL);
    live += real != NULL;
    return real;
}

void __wrap_free(void *block)
{
    live -= block != NULL;
    __real_free(block);
}
