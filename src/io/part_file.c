/*
 * A file that appears whole or not at all. Must not follow a race into another's file:
 * the part is made new, never opened.
 * SPDX-License-Identifier: MIT
 */
/* realpath stands in the XSI part of POSIX.1-2008. */
#define _XOPEN_SOURCE 700

#include "io/part_file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PERMISSIONS = 07777, NEW_FILE = 0666, NAME_TRIES = 1000 };

static char *copy_text(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = malloc(size);
    if (copy != NULL) {
        memcpy(copy, text, size);
    }
    return copy;
}

/* The length of the directory part, its slash included. */
static size_t directory_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

/* A new file beside path. */
static int create_part(struct plmi_part_file *part)
{
    size_t length = directory_length(part->path);
    size_t size = length + 64;
    part->part_path = malloc(size);
    if (part->part_path == NULL) {
        return ENOMEM;
    }
    memcpy(part->part_path, part->path, length);
    for (int i = 0; i < NAME_TRIES; i++) {
        (void)snprintf(part->part_path + length, size - length, ".plimsoll-%ld-%d.part", (long)getpid(), i);
        part->fd = open(part->part_path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, NEW_FILE);
        if (part->fd >= 0) {
            return 0;
        }
        if (errno != EEXIST) {
            break;
        }
    }
    return errno;
}

/* A name that nothing stands at. A link that leads nowhere is not replaced: it may lead to what is not mounted. */
static int choose_new(struct plmi_part_file *part, const char *path, int error)
{
    struct stat about;
    if (error != ENOENT) {
        return error;
    }
    if (lstat(path, &about) == 0) {
        return ENOLINK;
    }
    part->path = copy_text(path);
    return part->path == NULL ? ENOMEM : create_part(part);
}

/* What stands at path now decides how it is written. */
static int choose_way(struct plmi_part_file *part, const char *path)
{
    struct stat about;
    if (stat(path, &about) != 0) {
        return choose_new(part, path, errno);
    }
    if (S_ISDIR(about.st_mode)) {
        return EISDIR;
    }
    if (!S_ISREG(about.st_mode)) {
        part->fd = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
        return part->fd < 0 ? errno : 0;
    }
    /* A symbolic link stays one: what it leads to is replaced. */
    part->mode = (int)(about.st_mode & PERMISSIONS);
    part->path = realpath(path, NULL);
    return part->path == NULL ? errno : create_part(part);
}

int plmi_part_file_open(struct plmi_part_file *part, const char *path)
{
    *part = (struct plmi_part_file){.fd = -1, .mode = -1};
    if (strcmp(path, "-") == 0) {
        part->fd = STDOUT_FILENO;
        part->borrowed = true;
        return 0;
    }
    int error = choose_way(part, path);
    if (error != 0) {
        part->fd = -1;
        plmi_part_file_drop(part);
    }
    return error;
}

int plmi_part_file_write(struct plmi_part_file *part, const void *bytes, size_t count)
{
    const char *at = bytes;
    while (count > 0) {
        ssize_t written = write(part->fd, at, count < SSIZE_MAX ? count : SSIZE_MAX);
        if (written < 0 && errno != EINTR) {
            return errno;
        }
        if (written > 0) {
            at += written;
            count -= (size_t)written;
        }
    }
    return 0;
}

/* Asks that the new name is kept too; a directory that cannot be opened is no failure. */
static void sync_directory(struct plmi_part_file *part)
{
    size_t length = directory_length(part->path);
    part->path[length] = '\0';
    int fd = open(length == 0 ? "." : part->path, O_RDONLY | O_CLOEXEC);
    if (fd >= 0) {
        (void)fsync(fd);
        (void)close(fd);
    }
}

static int settle(struct plmi_part_file *part)
{
    if (part->mode >= 0 && fchmod(part->fd, (mode_t)part->mode) != 0) {
        return errno;
    }
    if (fsync(part->fd) != 0) {
        return errno;
    }
    int closed = close(part->fd);
    part->fd = -1;
    if (closed != 0 || rename(part->part_path, part->path) != 0) {
        return errno;
    }
    free(part->part_path);
    part->part_path = NULL;
    sync_directory(part);
    return 0;
}

int plmi_part_file_finish(struct plmi_part_file *part)
{
    int error = 0;
    if (part->path != NULL) {
        error = settle(part);
    } else if (!part->borrowed && part->fd >= 0) {
        error = close(part->fd) == 0 ? 0 : errno;
        part->fd = -1;
    }
    plmi_part_file_drop(part);
    return error;
}

void plmi_part_file_drop(struct plmi_part_file *part)
{
    if (part->fd >= 0 && !part->borrowed) {
        (void)close(part->fd);
    }
    part->fd = -1;
    if (part->part_path != NULL) {
        (void)unlink(part->part_path);
    }
    free(part->part_path);
    free(part->path);
    part->part_path = NULL;
    part->path = NULL;
}
