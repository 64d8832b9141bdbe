/*
 * Where a command's answer goes: standard output, or a file that appears when it is whole. Must not read logs.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/run_logs.h"

bool plmi_cli_format_known(enum plm_report_subject subject, const char *name)
{
    for (size_t i = 0; i < plm_report_format_count(); i++) {
        const struct plm_report_format *format = plm_report_format_get(i);
        if (format->subject == subject && strcmp(format->name, name) == 0)
            return true;
    }
    return false;
}

/* Colour for a person at a terminal who has not declined it (no-color.org). */
static bool colour_wanted(const char *path)
{
    const char *declined = getenv("NO_COLOR");
    return strcmp(path, "-") == 0 && isatty(STDOUT_FILENO) && (declined == NULL || declined[0] == '\0');
}

bool plmi_cli_output_open(struct plmi_cli_output *output, struct plmi_cli_call *call, enum plm_report_subject subject, const char *format)
{
    const struct plmi_cli_settings *settings = &call->settings;
    const char *path = settings->output != NULL ? settings->output : "-";
    struct plm_report_options options = plm_report_options_default(&settings->rules);
    *output = (struct plmi_cli_output){.file = NULL};
    options.schedules = !settings->no_schedule;
    options.colour = colour_wanted(path);
    options.verbose = settings->verbose;
    options.ascii = settings->ascii;
    if (plm_file_sink_open(&output->file, path, &call->talk.sink) != PLM_STATUS_OK)
        return false;
    output->sink = plm_file_sink_get(output->file);
    if (plm_report_open(&output->report, subject, format, &options, &output->sink, &call->talk.sink) == PLM_STATUS_OK)
        return true;
    plmi_cli_output_free(output);
    return false;
}

bool plmi_cli_output_finish(struct plmi_cli_output *output)
{
    if (plm_report_finish(output->report) != PLM_STATUS_OK)
        return false;
    struct plm_file_sink *file = output->file;
    output->file = NULL;
    return plm_file_sink_finish(file) == PLM_STATUS_OK;
}

void plmi_cli_output_free(struct plmi_cli_output *output)
{
    plm_report_free(output->report);
    plm_file_sink_free(output->file);
    *output = (struct plmi_cli_output){.file = NULL};
}
