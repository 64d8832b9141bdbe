/*
 * Writes a page of HTML for each dive of an audit. Must not choose what is on it.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/audit_pages.h"

bool plmi_cli_pages_open(struct plmi_cli_pages *pages, struct plmi_cli_call *call, const char *folder)
{
    *pages = (struct plmi_cli_pages){call, folder};
    return plmi_cli_folder_make(call, folder);
}

void plmi_cli_pages_name(const struct plm_audit_row *row, char *buffer, size_t size)
{
    (void)snprintf(buffer, size, "dive-%.12s-%d.html", row->sha256, row->index);
}

char *plmi_cli_pages_path(const struct plmi_cli_pages *pages, const char *name)
{
    size_t size = strlen(pages->folder) + strlen(name) + 2;
    char *path = malloc(size);
    if (path == NULL) {
        plmi_cli_talk_usage(&pages->call->talk, PLM_LEVEL_ERROR, "no memory");
    } else {
        (void)snprintf(path, size, "%s/%s", pages->folder, name);
    }
    return path;
}

static enum plm_status page_write(const struct plmi_cli_pages *pages, const char *path,
                                  const struct plm_debriefed *dive)
{
    struct plmi_cli_output output;
    if (!plmi_cli_output_open_at(&output, pages->call, path, PLM_REPORT_DEBRIEF, "html")) {
        return PLM_STATUS_IO;
    }
    enum plm_status status = plm_report_add(output.report, dive);
    if (status == PLM_STATUS_OK && !plmi_cli_output_finish(&output)) {
        status = PLM_STATUS_IO;
    }
    plmi_cli_output_free(&output);
    return status;
}

enum plm_status plmi_cli_pages_add(void *context, const struct plm_debriefed *dive, const struct plm_audit_row *row)
{
    const struct plmi_cli_pages *pages = context;
    char name[96];
    plmi_cli_pages_name(row, name, sizeof name);
    char *path = plmi_cli_pages_path(pages, name);
    enum plm_status status = path != NULL ? page_write(pages, path, dive) : PLM_STATUS_MEMORY;
    free(path);
    return status;
}
