/*
 * Bytes as they are stored: a regular file, memory, or what a pipe gave, kept in memory.
 * Knows nothing of compression.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_RAW_H
#define PLM_IO_RAW_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/status.h>

#include "base/diags.h"

struct plmi_raw {
    int fd; /* -1: the bytes are in memory     */
    const unsigned char *memory;
    unsigned char *spool; /* owned; memory where it is given */
    uint64_t count;       /* bytes in memory                 */
    uint64_t at;          /* bytes read                      */
    uint64_t max_bytes;
    const struct plmi_diags *diags; /* borrowed */
    bool reported[PLM_DIAG_COUNT];
};

/* Tells a kind of trouble the first time only: a second pass over the bytes would repeat it. */
void plmi_raw_tell_once(struct plmi_raw *raw, enum plm_level level, enum plm_diag_id id, const char *format, ...)
    PLMI_PRINTF(4, 5);

/* Memory ran out for that; reported once. Returns: MEMORY. */
enum plm_status plmi_raw_no_memory(struct plmi_raw *raw, const char *what_for);

/* "-" is standard input. Errors: as plm_source_open_file. */
enum plm_status plmi_raw_open_file(struct plmi_raw *raw, const char *path, uint64_t max_bytes,
                                   const struct plmi_diags *diags);
/* A regular file alone; "-" is refused, and nothing is waited for. */
enum plm_status plmi_raw_open_regular(struct plmi_raw *raw, const char *path, uint64_t max_bytes,
                                      const struct plmi_diags *diags);
void plmi_raw_open_memory(struct plmi_raw *raw, const void *bytes, size_t count, const struct plmi_diags *diags);
/* OK with 1..capacity bytes, END, IO or LIMIT, reported. */
enum plm_status plmi_raw_read(struct plmi_raw *raw, void *buffer, size_t capacity, size_t *got);
enum plm_status plmi_raw_rewind(struct plmi_raw *raw);
void plmi_raw_close(struct plmi_raw *raw);

#endif
