/*
 * The pages of an audit in a folder: one a dive beside the overview.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_AUDIT_PAGES_H
#define PLM_CLI_AUDIT_PAGES_H

#include <plimsoll/report_team.h>

#include "cli/run_logs.h"

/* Writes pages into folder; the name of a page follows from the log's hash, so that it does not depend on the order of
 * work. */
struct plmi_cli_pages {
    struct plmi_cli_call *call;
    const char *folder;
};

/* Makes the folder where there is none. Returns: false when reported. */
bool plmi_cli_pages_open(struct plmi_cli_pages *pages, struct plmi_cli_call *call, const char *folder);
/* For plm_audit_options.each; context is a struct plmi_cli_pages. */
enum plm_status plmi_cli_pages_add(void *context, const struct plm_debriefed *dive, const struct plm_audit_row *row);
/* For plm_report_audit. */
void plmi_cli_pages_name(const struct plm_audit_row *row, char *buffer, size_t size);
/* Path of a page in the folder, on the heap; NULL (reported) without memory. */
char *plmi_cli_pages_path(const struct plmi_cli_pages *pages, const char *name);

#endif
