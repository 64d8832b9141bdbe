/*
 * A file written under another name beside its own, which it gets when it is whole.
 * What cannot be replaced so (a pipe, a device, standard output) is written to directly.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IO_PART_FILE_H
#define PLM_IO_PART_FILE_H

#include <stdbool.h>
#include <stddef.h>

struct plmi_part_file {
    int fd;
    bool borrowed;   /* standard output: not closed                      */
    char *path;      /* where it is to appear; NULL: written to directly */
    char *part_path; /* where it is until then                           */
    int mode;        /* permissions of the file to replace, -1: none     */
};

/* Returns: 0, or an error number; ENOLINK: a link that leads nowhere. "-" is standard output. */
int plmi_part_file_open(struct plmi_part_file *part, const char *path);
/* All bytes. Returns: 0, or an error number. */
int plmi_part_file_write(struct plmi_part_file *part, const void *bytes, size_t count);
/* Makes it appear. Returns: 0, or an error number, and then the part is gone. */
int plmi_part_file_finish(struct plmi_part_file *part);
/* Leaves nothing behind. */
void plmi_part_file_drop(struct plmi_part_file *part);

#endif
