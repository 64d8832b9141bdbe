/*
 * Compares real paths. Must not open anything.
 * SPDX-License-Identifier: MIT
 */
/* realpath stands in the XSI part of POSIX.1-2008. */
#define _XOPEN_SOURCE 700

#include "log/within.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The real path of the folder that a path names a file in, on the heap; NULL with errno where it cannot be reported. */
static char *folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash != NULL ? (size_t)(slash - path) + 1 : 1;
    char *folder = malloc(length + 1);
    if (folder == NULL) {
        errno = ENOMEM;
        return NULL;
    }
    memcpy(folder, slash != NULL ? path : ".", length);
    folder[length] = '\0';
    char *real = realpath(folder, NULL);
    int number = errno;
    free(folder);
    errno = number;
    return real;
}

/* Whether a real path is that of a folder, or goes on below it. */
static bool below(const char *real, const char *folder)
{
    size_t length = strlen(folder);
    return strncmp(real, folder, length) == 0 &&
           (folder[length - 1] == '/' || real[length] == '/' || real[length] == '\0');
}

bool plmi_within_folder_of(bool *within, const char *path, const char *other)
{
    struct stat about;
    *within = stat(path, &about) != 0;
    if (*within) {
        return true;
    }
    char *real = realpath(path, NULL), *folder = real != NULL ? folder_of(other) : NULL;
    bool ok = folder != NULL || errno != ENOMEM;
    *within = folder != NULL && below(real, folder);
    free(real);
    free(folder);
    return ok;
}
