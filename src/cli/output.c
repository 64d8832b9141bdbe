/*
 * Where a command's answer goes: standard output, or a file that appears when it is whole. Must not read logs.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/run_logs.h"
#include "cli/terminal.h"

/* Colour for a person at a terminal who has not declined it (no-color.org). */
static bool colour_wanted(const char *path)
{
    const char *declined = getenv("NO_COLOR");
    return strcmp(path, "-") == 0 && isatty(STDOUT_FILENO) && (declined == NULL || declined[0] == '\0');
}

struct plm_report_options plmi_cli_report_options(const struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    struct plm_report_options options = plm_report_options_default(&settings->rules);
    options.schedules = !settings->no_schedule;
    options.colour = colour_wanted(settings->output != NULL ? settings->output : "-");
    options.verbose = settings->verbose;
    options.diver = settings->diver;
    options.ascii = settings->ascii || plmi_cli_terminal_ascii();
    options.columns = settings->output != NULL ? options.columns : plmi_cli_terminal_columns(STDOUT_FILENO);
    return options;
}

bool plmi_cli_output_open_at(struct plmi_cli_output *output, struct plmi_cli_call *call, const char *path,
                             enum plm_report_subject subject, const char *format)
{
    struct plm_report_options options = plmi_cli_report_options(call);
    *output = (struct plmi_cli_output){.report = NULL};
    if (plmi_cli_file_open_at(&output->file, call, path) &&
        plm_report_open(&output->report, subject, format, &options, &output->file.sink, &call->talk.sink) ==
            PLM_STATUS_OK) {
        return true;
    }
    plmi_cli_output_free(output);
    return false;
}

bool plmi_cli_output_open(struct plmi_cli_output *output, struct plmi_cli_call *call, enum plm_report_subject subject,
                          const char *format)
{
    const char *path = call->settings.output;
    return plmi_cli_output_open_at(output, call, path != NULL ? path : "-", subject, format);
}

bool plmi_cli_output_finish(struct plmi_cli_output *output)
{
    return plm_report_finish(output->report) == PLM_STATUS_OK && plmi_cli_file_finish(&output->file);
}

void plmi_cli_output_free(struct plmi_cli_output *output)
{
    plm_report_free(output->report);
    plmi_cli_file_free(&output->file);
    output->report = NULL;
}
