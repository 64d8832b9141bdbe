/*
 * Compares real paths. Must not open anything.
 * SPDX-License-Identifier: MIT
 */
/* realpath stands in the XSI part of POSIX.1-2008. */
#define _XOPEN_SOURCE 700

#include "team/within.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The real path of the folder that a path names a file in, on the heap; NULL where there is none, or without memory. */
static char *folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path) + 1 : 1;
    char *folder = malloc(length + 1);
    if (!folder) {
        return NULL;
    }
    memcpy(folder, slash ? path : ".", length);
    folder[length] = '\0';
    char *real = realpath(folder, NULL);
    free(folder);
    return real;
}

bool plmi_within_folder_of(const char *path, const char *other)
{
    struct stat about;
    if (stat(path, &about) != 0) {
        return true;
    }
    char *real = realpath(path, NULL), *folder = folder_of(other);
    bool within = false;
    if (real && folder) {
        size_t length = strlen(folder);
        within = strncmp(real, folder, length) == 0 &&
                 (folder[length - 1] == '/' || real[length] == '/' || real[length] == '\0');
    }
    free(real);
    free(folder);
    return within;
}
