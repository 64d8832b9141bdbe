/*
 * Opens and finishes what is written. Must not know what is in it.
 * SPDX-License-Identifier: MIT
 */
#include "cli/file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/inputs.h"

/* Puts the file into the list of parts, if it is one. Returns: false without memory. */
static bool part_add(struct plmi_cli_file *file)
{
    const char *path = plm_file_sink_part(file->file);
    if (path == NULL) {
        return true;
    }
    file->part = (struct plmi_cli_part){.next = file->parts->first, .path = strdup(path)};
    if (file->part.path == NULL) {
        return false;
    }
    file->parts->first = &file->part;
    return true;
}

static void part_remove(struct plmi_cli_file *file)
{
    for (struct plmi_cli_part **at = &file->parts->first; *at != NULL; at = &(*at)->next) {
        if (*at == &file->part) {
            *at = file->part.next;
            break;
        }
    }
    free(file->part.path);
    file->part.path = NULL;
}

bool plmi_cli_file_open_at(struct plmi_cli_file *file, struct plmi_cli_call *call, const char *path)
{
    *file = (struct plmi_cli_file){.parts = call->parts};
    if (!plmi_cli_inputs_spared(call, path)) {
        return false;
    }
    plmi_cli_parts_lock(file->parts);
    bool open = plm_file_sink_open(&file->file, path, &call->talk.sink) == PLM_STATUS_OK;
    if (open && !part_add(file)) {
        plm_file_sink_free(file->file);
        file->file = NULL;
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "no memory");
        open = false;
    }
    plmi_cli_parts_unlock(file->parts);
    if (open) {
        file->sink = plm_file_sink_get(file->file);
    }
    return open;
}

bool plmi_cli_file_open(struct plmi_cli_file *file, struct plmi_cli_call *call)
{
    return plmi_cli_file_open_at(file, call, call->settings.output != NULL ? call->settings.output : "-");
}

bool plmi_cli_file_finish(struct plmi_cli_file *file)
{
    struct plm_file_sink *whole = file->file;
    file->file = NULL;
    plmi_cli_parts_lock(file->parts);
    bool done = plm_file_sink_finish(whole) == PLM_STATUS_OK;
    part_remove(file);
    plmi_cli_parts_unlock(file->parts);
    return done;
}

void plmi_cli_file_free(struct plmi_cli_file *file)
{
    if (file->file == NULL) {
        return;
    }
    plmi_cli_parts_lock(file->parts);
    plm_file_sink_free(file->file);
    part_remove(file);
    plmi_cli_parts_unlock(file->parts);
    file->file = NULL;
}

bool plmi_cli_folder_make(struct plmi_cli_call *call, const char *path)
{
    struct stat about;
    if (mkdir(path, 0777) == 0) {
        return true;
    }
    int error = errno;
    if (error == EEXIST && stat(path, &about) == 0 && S_ISDIR(about.st_mode)) {
        return true;
    }
    plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "the folder %s cannot be made: %s", path,
                        error == EEXIST ? "something else has this name" : strerror(error));
    return false;
}
