/*
 * Writes a page of HTML for each dive of an audit. Must not choose what is on it.
 * SPDX-License-Identifier: MIT
 */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/audit_pages.h"

bool plmi_cli_pages_open(struct plmi_cli_pages *pages, struct plmi_cli_call *call, const char *folder)
{
    struct stat facts;
    *pages = (struct plmi_cli_pages){call, folder};
    if (mkdir(folder, 0777) == 0 || (errno == EEXIST && stat(folder, &facts) == 0 && S_ISDIR(facts.st_mode)))
        return true;
    plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "-o %s: a folder for the pages cannot be made there", folder);
    return false;
}

void plmi_cli_pages_name(const struct plm_audit_row *row, char *buffer, size_t size)
{
    (void)snprintf(buffer, size, "dive-%.12s-%d.html", row->sha256, row->index);
}

char *plmi_cli_pages_path(const struct plmi_cli_pages *pages, const char *name)
{
    size_t size = strlen(pages->folder) + strlen(name) + 2;
    char *path = malloc(size);
    if (path == NULL)
        plmi_cli_talk_usage(&pages->call->talk, PLM_LEVEL_ERROR, "no memory");
    else
        (void)snprintf(path, size, "%s/%s", pages->folder, name);
    return path;
}

static enum plm_status page_write(const struct plmi_cli_pages *pages, const char *path, const struct plm_debriefed *dive)
{
    const struct plm_diag_sink *diag = &pages->call->talk.sink;
    struct plm_report_options options = plmi_cli_report_options(pages->call);
    struct plm_file_sink *file = NULL;
    struct plm_report *report = NULL;
    enum plm_status status = plm_file_sink_open(&file, path, diag);
    if (status != PLM_STATUS_OK)
        return status;
    struct plm_sink sink = plm_file_sink_get(file);
    status = plm_report_open(&report, PLM_REPORT_DEBRIEF, "html", &options, &sink, diag);
    if (status == PLM_STATUS_OK)
        status = plm_report_add(report, dive);
    if (status == PLM_STATUS_OK)
        status = plm_report_finish(report);
    plm_report_free(report);
    if (status == PLM_STATUS_OK)
        return plm_file_sink_finish(file);
    plm_file_sink_free(file);
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
