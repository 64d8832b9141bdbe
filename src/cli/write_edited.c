/*
 * Writes edited dives as logs. Must not edit; the library does.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/edited.h>
#include <plimsoll/export.h>

#include "cli/file.h"
#include "cli/write_edited.h"

#define PATH_MAX_BYTES 4096

/* The log's name without its folders and its last endings: "dive" for - . */
static int stem(const char *file, const char **start)
{
    const char *slash = strrchr(file, '/');
    *start = slash != NULL ? slash + 1 : file;
    int length = (int)strcspn(*start, ".");
    if (length == 0 || strcmp(*start, "-") == 0) {
        *start = "dive";
        length = 4;
    }
    return length;
}

/* Returns: false where the path is too long. */
static bool path_make(char path[PATH_MAX_BYTES], const char *folder, const struct plm_debriefed *debriefed,
                      const struct plm_edited_dive *edited)
{
    const struct plm_dive_info *info = plm_dive_info_get(debriefed->dive);
    const char *name = NULL;
    int length = stem(info->file != NULL ? info->file : "-", &name), put = 0;
    if (edited->finding == PLM_EDITED_ALL) {
        put = snprintf(path, PATH_MAX_BYTES, "%s/%.*s-dive-%d-all.uddf", folder, length, name, info->index);
    } else {
        size_t count = 0;
        const struct plm_finding *finding = &plm_findings_get(debriefed->findings, &count)[edited->finding];
        put = snprintf(path, PATH_MAX_BYTES, "%s/%.*s-dive-%d-%02zu-%s.uddf", folder, length, name, info->index,
                       edited->finding + 1, plm_finding_kind_text(finding->kind));
    }
    return put > 0 && put < PATH_MAX_BYTES;
}

static bool dive_write(struct plmi_cli_call *call, const char *path, const struct plm_dive *dive)
{
    struct plmi_cli_file file;
    struct plm_export *export = NULL;
    if (!plmi_cli_file_open_at(&file, call, path)) {
        return false;
    }
    bool written = plm_export_open(&export, "uddf", &file.sink, &call->talk.sink) == PLM_STATUS_OK &&
                   plm_export_add(export, dive) == PLM_STATUS_OK && plm_export_finish(export) == PLM_STATUS_OK;
    plm_export_free(export);
    written = written && plmi_cli_file_finish(&file);
    plmi_cli_file_free(&file);
    return written;
}

bool plmi_cli_edited_write(struct plmi_cli_call *call, const struct plm_debriefed *debriefed)
{
    const char *folder = call->settings.write_edited;
    struct plm_review_input input = {.dive = debriefed->dive,
                                     .trace = debriefed->trace,
                                     .decompression = debriefed->decompression,
                                     .plan = debriefed->plan,
                                     .replay = &debriefed->replay};
    struct plm_edited *edited = NULL;
    size_t count = 0;
    if (!plmi_cli_folder_make(call, folder) ||
        plm_edited_make(&edited, &input, debriefed->findings, &call->talk.sink) != PLM_STATUS_OK) {
        return false;
    }
    const struct plm_edited_dive *dives = plm_edited_get(edited, &count);
    bool written = true;
    for (size_t i = 0; i < count && written; i++) {
        char path[PATH_MAX_BYTES];
        written = path_make(path, folder, debriefed, &dives[i]);
        if (!written) {
            plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "the path of an edited dive in %s is too long", folder);
        } else {
            written = dive_write(call, path, dives[i].dive);
        }
    }
    plm_edited_free(edited);
    return written;
}
