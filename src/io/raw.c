/*
 * Bytes as stored. Devices, sockets and directories are refused before they are read:
 * opening or reading must not wait for ever or change anything.
 * SPDX-License-Identifier: MIT
 */
#include "io/raw.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "io/system_text.h"

enum { SPOOL_FIRST = 65536, MB = 1000000 };

void plmi_raw_tell_once(struct plmi_raw *raw, enum plm_level level, enum plm_diag_id id, const char *format, ...)
{
    if (raw->reported[id]) {
        return;
    }
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    raw->reported[id] = true;
    plmi_diags_add(raw->diags, level, id, 0, 0, "%s", text);
}

enum plm_status plmi_raw_no_memory(struct plmi_raw *raw, const char *what_for)
{
    if (!raw->reported[PLM_DIAG_MEMORY]) {
        raw->reported[PLM_DIAG_MEMORY] = true;
        (void)plmi_diags_no_memory(raw->diags, 0, "%s", what_for);
    }
    return PLM_STATUS_MEMORY;
}

static enum plm_status fail_memory(struct plmi_raw *raw)
{
    return plmi_raw_no_memory(raw, "to read the input");
}

static enum plm_status fail_size(struct plmi_raw *raw)
{
    plmi_raw_tell_once(raw, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, "larger than %llu MB (rule file_max_mb); not read",
                       (unsigned long long)(raw->max_bytes / MB));
    return PLM_STATUS_LIMIT;
}

static enum plm_status fail_read(struct plmi_raw *raw, int number)
{
    plmi_raw_tell_once(raw, PLM_LEVEL_ERROR, PLM_DIAG_READ, "cannot be read: %s", plmi_system_text(number));
    return PLM_STATUS_IO;
}

static enum plm_status fail_missing(struct plmi_raw *raw, int number)
{
    plmi_raw_tell_once(raw, PLM_LEVEL_ERROR, PLM_DIAG_FILE_MISSING, "cannot be opened: %s", plmi_system_text(number));
    return PLM_STATUS_IO;
}

static const char *kind_text(mode_t mode)
{
    if (S_ISDIR(mode)) {
        return "a directory";
    }
    if (S_ISFIFO(mode)) {
        return "a pipe";
    }
    return S_ISSOCK(mode) ? "a socket" : "a device";
}

static enum plm_status fail_kind(struct plmi_raw *raw, mode_t mode)
{
    plmi_raw_tell_once(raw, PLM_LEVEL_ERROR, PLM_DIAG_FILE_KIND, "is %s; not read", kind_text(mode));
    return PLM_STATUS_INPUT;
}

static enum plm_status read_some(struct plmi_raw *raw, int fd, void *buffer, size_t capacity, size_t *got)
{
    ssize_t count = 0;
    do {
        count = read(fd, buffer, capacity);
    } while (count < 0 && errno == EINTR);
    if (count < 0) {
        return fail_read(raw, errno);
    }
    *got = (size_t)count;
    return count == 0 ? PLM_STATUS_END : PLM_STATUS_OK;
}

/* Everything that comes down a pipe. */
static enum plm_status spool(struct plmi_raw *raw, int fd)
{
    size_t capacity = 0;
    size_t count = 0;
    enum plm_status status = PLM_STATUS_OK;
    while (status == PLM_STATUS_OK) {
        if (count == capacity) {
            capacity = capacity == 0 ? (size_t)SPOOL_FIRST : capacity * 2;
            unsigned char *grown = realloc(raw->spool, capacity);
            if (grown == NULL) {
                return fail_memory(raw);
            }
            raw->spool = grown;
        }
        size_t got = 0;
        status = read_some(raw, fd, raw->spool + count, capacity - count, &got);
        count += got;
        if (count > raw->max_bytes) {
            return fail_size(raw);
        }
    }
    raw->memory = raw->spool;
    raw->count = count;
    return status == PLM_STATUS_END ? PLM_STATUS_OK : status;
}

static enum plm_status open_standard_input(struct plmi_raw *raw)
{
    struct stat about;
    if (fstat(STDIN_FILENO, &about) != 0) {
        return fail_read(raw, errno);
    }
    return S_ISDIR(about.st_mode) ? fail_kind(raw, about.st_mode) : spool(raw, STDIN_FILENO);
}

/* What an open descriptor turns out to be; takes it over. */
static enum plm_status accept_file(struct plmi_raw *raw, int fd)
{
    struct stat about;
    enum plm_status status = PLM_STATUS_OK;
    if (fstat(fd, &about) != 0) {
        status = fail_read(raw, errno);
    } else if (S_ISFIFO(about.st_mode)) {
        status = spool(raw, fd);
    } else if (!S_ISREG(about.st_mode)) {
        status = fail_kind(raw, about.st_mode);
    } else if (about.st_size > 0 && (uint64_t)about.st_size > raw->max_bytes) {
        status = fail_size(raw);
    } else {
        raw->fd = fd;
        return PLM_STATUS_OK;
    }
    (void)close(fd);
    return status;
}

enum plm_status plmi_raw_open_file(struct plmi_raw *raw, const char *path, uint64_t max_bytes,
                                   const struct plmi_diags *diags)
{
    *raw = (struct plmi_raw){.fd = -1, .max_bytes = max_bytes, .diags = diags};
    if (strcmp(path, "-") == 0) {
        return open_standard_input(raw);
    }
    struct stat about;
    if (stat(path, &about) != 0) {
        return fail_missing(raw, errno);
    }
    if (!S_ISREG(about.st_mode) && !S_ISFIFO(about.st_mode)) {
        return fail_kind(raw, about.st_mode);
    }
    /* A pipe is waited for; anything else that took its place since must not be. */
    int wait = S_ISFIFO(about.st_mode) ? 0 : O_NONBLOCK;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | wait);
    return fd < 0 ? fail_missing(raw, errno) : accept_file(raw, fd);
}

static enum plm_status fail_irregular(struct plmi_raw *raw, const char *kind)
{
    plmi_raw_tell_once(raw, PLM_LEVEL_ERROR, PLM_DIAG_FILE_KIND,
                       "is %s and no regular file; not read: copy it into a file", kind);
    return PLM_STATUS_INPUT;
}

enum plm_status plmi_raw_open_regular(struct plmi_raw *raw, const char *path, uint64_t max_bytes,
                                      const struct plmi_diags *diags)
{
    struct stat about;
    *raw = (struct plmi_raw){.fd = -1, .max_bytes = max_bytes, .diags = diags};
    if (strcmp(path, "-") == 0) {
        return fail_irregular(raw, "standard input");
    }
    if (stat(path, &about) != 0) {
        return fail_missing(raw, errno);
    }
    if (!S_ISREG(about.st_mode)) {
        return fail_irregular(raw, kind_text(about.st_mode));
    }
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (fd < 0) {
        return fail_missing(raw, errno);
    }
    /* It can have been replaced since. */
    if (fstat(fd, &about) == 0 && !S_ISREG(about.st_mode)) {
        (void)close(fd);
        return fail_irregular(raw, kind_text(about.st_mode));
    }
    return accept_file(raw, fd);
}

void plmi_raw_open_memory(struct plmi_raw *raw, const void *bytes, size_t count, const struct plmi_diags *diags)
{
    *raw = (struct plmi_raw){.fd = -1, .memory = bytes, .count = count, .max_bytes = UINT64_MAX, .diags = diags};
}

enum plm_status plmi_raw_read(struct plmi_raw *raw, void *buffer, size_t capacity, size_t *got)
{
    *got = 0;
    if (raw->fd >= 0) {
        enum plm_status status = read_some(raw, raw->fd, buffer, capacity, got);
        raw->at += *got;
        if (raw->at > raw->max_bytes) { /* it grew since it was opened */
            *got = 0;
            status = fail_size(raw);
        }
        return status;
    }
    uint64_t left = raw->count - raw->at;
    if (left == 0) {
        return PLM_STATUS_END;
    }
    *got = left < capacity ? (size_t)left : capacity;
    memcpy(buffer, raw->memory + raw->at, *got);
    raw->at += *got;
    return PLM_STATUS_OK;
}

enum plm_status plmi_raw_rewind(struct plmi_raw *raw)
{
    raw->at = 0;
    if (raw->fd >= 0 && lseek(raw->fd, 0, SEEK_SET) < 0) {
        return fail_read(raw, errno);
    }
    return PLM_STATUS_OK;
}

void plmi_raw_close(struct plmi_raw *raw)
{
    if (raw->fd >= 0) {
        (void)close(raw->fd);
    }
    free(raw->spool);
    *raw = (struct plmi_raw){.fd = -1};
}
