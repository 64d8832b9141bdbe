/*
 * Options about the answer that several commands share.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/report.h>

#include "cli/command.h"

const char *plmi_cli_format_expected(struct plmi_cli_settings *settings, enum plm_report_subject report,
                                     const char *value)
{
    char names[sizeof settings->formats - sizeof "one of "];
    if (plm_report_format_find(report, value) != NULL) {
        return NULL;
    }
    (void)plm_report_format_names(report, ", ", " and ", names, sizeof names);
    (void)snprintf(settings->formats, sizeof settings->formats, "%s%s", strchr(names, ' ') != NULL ? "one of " : "",
                   names);
    return settings->formats;
}

const char *plmi_cli_set_format(struct plmi_cli_settings *settings, const char *value)
{
    settings->format = value;
    return plmi_cli_format_expected(settings, settings->report, value);
}

const char *plmi_cli_set_output(struct plmi_cli_settings *settings, const char *value)
{
    settings->output = value;
    return NULL;
}

const char *plmi_cli_set_fail_on(struct plmi_cli_settings *settings, const char *value)
{
    settings->fail_never = strcmp(value, "never") == 0;
    if (settings->fail_never) {
        return NULL;
    }
    for (enum plm_severity severity = PLM_SEVERITY_NOTE; severity <= PLM_SEVERITY_SERIOUS; severity++) {
        if (strcmp(value, plm_severity_text(severity)) == 0) {
            settings->fail_on = severity;
            return NULL;
        }
    }
    return "one of note, caution, serious and never";
}

const char *plmi_cli_set_ascii(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->ascii = true;
    return NULL;
}
