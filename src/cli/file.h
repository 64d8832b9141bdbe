/*
 * Every file that the program writes: never one that it reads, there when it is whole, and gone when a signal comes
 * before. Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_FILE_H
#define PLM_CLI_FILE_H

#include <plimsoll/sink.h>

#include "cli/command.h"

/* Lives where it was opened until it is finished or freed. */
struct plmi_cli_file {
    struct plm_file_sink *file;
    struct plm_sink sink;
    struct plmi_cli_parts *parts;
    struct plmi_cli_part part;
};

/* Where -o says: a file or standard output. Returns: false when reported. */
bool plmi_cli_file_open(struct plmi_cli_file *file, struct plmi_cli_call *call);
/* Some other path; "-" is standard output. Returns: false when reported. */
bool plmi_cli_file_open_at(struct plmi_cli_file *file, struct plmi_cli_call *call, const char *path);
/* Makes it whole. Returns: false when reported. */
bool plmi_cli_file_finish(struct plmi_cli_file *file);
/* Leaves nothing behind where it is not whole. */
void plmi_cli_file_free(struct plmi_cli_file *file);

/* A folder for files, which may be there already. Returns: false when reported. */
bool plmi_cli_folder_make(struct plmi_cli_call *call, const char *path);

#endif
