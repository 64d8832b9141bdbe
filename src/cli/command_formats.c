/*
 * plimsoll formats: the formats that are read; with a log, what was understood of it, with the evidence, and the dives
 * it holds. Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/report_formats.h>

#include "cli/run_logs.h"

static const struct plmi_cli_options *const groups[] = {&plmi_cli_options_reading, NULL};

/* The dives of an open log, one by one. */
static enum plm_status write_dives(struct plm_report *report, struct plm_log *log)
{
    struct plm_dive *dive = NULL;
    enum plm_status status = PLM_STATUS_OK;
    while (status == PLM_STATUS_OK) {
        status = plm_log_next(log, &dive);
        if (status == PLM_STATUS_OK) {
            status = plm_report_formats_dive(report, dive);
            plm_dive_free(dive);
        }
    }
    return status;
}

static enum plmi_cli_exit show_log(struct plmi_cli_call *call, struct plm_report *report, const char *path)
{
    const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
    struct plm_log_options options = plmi_cli_log_options(&call->settings);
    struct plm_log *log = NULL;
    bool partial = false;
    options.without_plan = true;
    enum plm_status status = plm_log_open(&log, path, &options, &call->talk.sink);
    if (status == PLM_STATUS_OK) {
        status = plm_report_formats_log(report, name, plm_log_verdict(log));
        status = status == PLM_STATUS_OK ? write_dives(report, log) : status;
        partial = plm_log_partial(log);
    }
    plm_log_free(log);
    return plmi_cli_worse(plmi_cli_exit_of(status), partial ? PLMI_CLI_EXIT_PARTIAL : PLMI_CLI_EXIT_CLEAR);
}

static enum plmi_cli_exit formats_run(struct plmi_cli_call *call)
{
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    struct plmi_cli_output output;
    if (!plmi_cli_output_open(&output, call, PLM_REPORT_FORMATS, NULL)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    if (call->operand_count == 0) {
        exit = plmi_cli_exit_of(plm_report_formats_known(output.report));
    }
    for (int i = 0; i < call->operand_count; i++) {
        exit = plmi_cli_worse(exit, show_log(call, output.report, call->operands[i]));
    }
    if (!plmi_cli_output_finish(&output)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    plmi_cli_output_free(&output);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_formats = {
    .name = "formats",
    .operands = "[LOG...]",
    .summary = "Tells which formats are read, or what was understood of a log and why",
    .operands_min = 0,
    .operands_max = -1,
    .reads = true,
    .report = PLM_REPORT_FORMATS,
    .options = groups,
    .run = formats_run,
};
