/*
 * Words for the system's error numbers. strerror is not used: it reads the locale.
 * SPDX-License-Identifier: MIT
 */
#include "io/system_text.h"

#include <errno.h>
#include <stddef.h>

static const struct {
    int number;
    const char *text;
} rows[] = {
    {ENOENT, "no such file or directory"},
    {EACCES, "not permitted"},
    {EPERM, "not permitted"},
    {EISDIR, "is a directory"},
    {ENOTDIR, "a part of the path is not a directory"},
    {ENOSPC, "no space left"},
    {EROFS, "the file system is read-only"},
    {EIO, "input or output error"},
    {EMFILE, "too many open files"},
    {ENFILE, "too many open files"},
    {ELOOP, "too many symbolic links"},
    {ENOLINK, "a symbolic link that leads nowhere"},
    {ENAMETOOLONG, "the name is too long"},
    {EPIPE, "nobody reads the pipe"},
    {EBADF, "not open"},
    {ENXIO, "no such device"},
    {EFBIG, "the file grows too large"},
    {EDQUOT, "the quota is used up"},
    {ETXTBSY, "the file is being run"},
    {EEXIST, "exists already"},
    {ENOMEM, "no memory"},
};

const char *plmi_system_text(int number)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].number == number) {
            return rows[i].text;
        }
    }
    return "the system refuses";
}
