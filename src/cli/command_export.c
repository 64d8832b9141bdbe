/*
 * plimsoll export: the dives of a log as they were understood, written as a log again. Must not replay or judge.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/dive_builder.h>
#include <plimsoll/export.h>

#include "cli/run_logs.h"

static const char *set_to(struct plmi_cli_settings *settings, const char *value)
{
    if (plm_export_format_find(value) == NULL) {
        return "uddf or csv";
    }
    settings->format = value;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"to", 0, "uddf|csv",
     "format to write: uddf holds any number of dives with everything read, csv one dive as a table; uddf unless told",
     set_to},
    {"output", 'o', "FILE", "write to FILE, which appears when it is whole; compressed where it ends in .gz",
     plmi_cli_set_output},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_reading, NULL};

struct export_run {
    struct plmi_cli_call *call;
    const struct plm_export_format *format;
    struct plm_export *export;
    struct plm_log *log;
    int written;
};

/* The dive with the plan of the card kept in it; frees the one given. */
static enum plm_status plan_keep(const struct export_run *run, struct plm_dive **dive)
{
    const struct plm_rules *rules = &run->call->settings.rules;
    const struct plm_diag_sink *sink = &run->call->talk.sink;
    struct plm_dive *plan = NULL, *with_plan = NULL;
    struct plm_dive_builder *copy = plm_dive_builder_from(plm_log_plan(run->log), rules, NULL);
    struct plm_dive_builder *builder = plm_dive_builder_from(*dive, rules, sink);
    enum plm_status status = copy != NULL && builder != NULL ? plm_dive_builder_finish(copy, &plan) : PLM_STATUS_MEMORY;
    if (status != PLM_STATUS_OK) {
        plmi_cli_talk_usage(&run->call->talk, PLM_LEVEL_ERROR, "no memory for the plan of the card");
        plm_dive_builder_free(builder);
        if (builder == NULL) {
            plm_dive_builder_free(copy);
        }
        return status;
    }
    plm_dive_builder_plan(builder, plan);
    status = plm_dive_builder_finish(builder, &with_plan);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plm_dive_free(*dive);
    *dive = with_plan;
    return PLM_STATUS_OK;
}

/* Alone, a dive has lost the dives before it, and with them what it carried. */
static void tell_alone(struct export_run *run, const struct plm_dive_info *info)
{
    if (run->call->settings.dive > 0 && info->surface_interval_s >= 0 && info->surface_interval_s < 1e9) {
        plmi_cli_talk_usage(
            &run->call->talk, PLM_LEVEL_NOTE,
            "dive %d followed another dive of its log; alone, it will be taken to start saturated with air",
            info->index);
    }
}

/* One dive of the log. Returns: OK, END where no more are wanted, or an error that is reported. */
static enum plm_status dive_take(struct export_run *run)
{
    struct plm_dive *dive = NULL;
    long asked = run->call->settings.dive;
    enum plm_status status = plm_log_next(run->log, &dive);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    int index = plm_dive_info_get(dive)->index;
    bool wanted = asked == 0 || index == asked;
    if (wanted && run->format->one_dive && run->written > 0) {
        plmi_cli_talk_usage(&run->call->talk, PLM_LEVEL_NOTE,
                            "%s holds more dives than one; a table takes the first, --dive another",
                            run->call->operands[0]);
        status = PLM_STATUS_END;
    } else if (wanted) {
        tell_alone(run, plm_dive_info_get(dive));
        status = plm_log_plan(run->log) != NULL ? plan_keep(run, &dive) : PLM_STATUS_OK;
        if (status == PLM_STATUS_OK) {
            status = plm_export_add(run->export, dive);
        }
        run->written++;
    }
    plm_dive_free(dive);
    return status == PLM_STATUS_OK && asked > 0 && index >= asked ? PLM_STATUS_END : status;
}

static enum plmi_cli_exit dives_walk(struct export_run *run)
{
    struct plmi_cli_call *call = run->call;
    enum plm_status status = PLM_STATUS_OK;
    while (status == PLM_STATUS_OK) {
        status = dive_take(run);
    }
    enum plmi_cli_exit exit = plmi_cli_exit_of(status);
    if (plm_log_partial(run->log)) {
        exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_PARTIAL);
    }
    if (status == PLM_STATUS_END && run->written == 0) {
        plm_log_missing(run->log, (int)call->settings.dive);
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    return exit;
}

/* Reads the log into the export. */
static enum plmi_cli_exit log_read(struct export_run *run)
{
    struct plmi_cli_call *call = run->call;
    const struct plm_log_options reading = plmi_cli_log_options(&call->settings);
    enum plm_status status = plm_log_open(&run->log, call->operands[0], &reading, &call->talk.sink);
    enum plmi_cli_exit exit = status == PLM_STATUS_OK ? dives_walk(run) : plmi_cli_exit_of(status);
    plm_log_free(run->log);
    return exit;
}

static enum plmi_cli_exit export_run(struct plmi_cli_call *call)
{
    struct export_run run = {
        .call = call, .format = plm_export_format_find(call->settings.format != NULL ? call->settings.format : "uddf")};
    struct plmi_cli_file file;
    if (!plmi_cli_file_open(&file, call)) {
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plm_export_open(&run.export, run.format->name, &file.sink, &call->talk.sink) == PLM_STATUS_OK) {
        exit = log_read(&run);
    }
    if (run.written > 0 && exit < PLMI_CLI_EXIT_TROUBLE &&
        (plm_export_finish(run.export) != PLM_STATUS_OK || !plmi_cli_file_finish(&file))) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    plm_export_free(run.export);
    plmi_cli_file_free(&file);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_export = {
    .name = "export",
    .operands = "LOG",
    .summary =
        "Writes the dives of a log as they were understood, as UDDF or as a table, to be read again without loss",
    .operands_min = 1,
    .operands_max = 1,
    .reads = true,
    .options = groups,
    .run = export_run,
};
