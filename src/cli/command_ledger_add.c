/*
 * plimsoll ledger add: logs into the ledger, dive by dive.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include <plimsoll/log_files.h>

#include "cli/deferred.h"
#include "cli/ledger.h"
#include "cli/print.h"
#include "cli/run_logs.h"

static const struct plmi_cli_options *const groups[] = {&plmi_cli_options_ledger, &plmi_cli_options_adding,
                                                        &plmi_cli_options_model, &plmi_cli_options_reading, NULL};

/* One run over all files. */
struct adding {
    struct plmi_cli_ledger ledger;
    struct plm_log_options log; /* how logs are read */
    struct plm_debrief_options debrief;
    enum plmi_cli_exit exit;
    size_t passed_over;
    bool stop; /* the ledger cannot be used any more */
};

/* What was added is the answer of the command; added on the way of another answer, it is talk. */
static FILE *answer(const struct plmi_cli_settings *settings)
{
    return settings->add ? stderr : stdout;
}

static void added_tell(const struct plmi_cli_settings *settings, const struct plm_logbook_addition *addition)
{
    FILE *out = answer(settings);
    static const char *const words[] = {
        [PLM_LOGBOOK_ADDED_NEW] = "added",
        [PLM_LOGBOOK_ADDED_RECORD] = "added as a second record",
        [PLM_LOGBOOK_ADDED_BETTER_RECORD] = "added as a second record",
        [PLM_LOGBOOK_ADDED_KNOWN] = "there already and left as it is",
    };
    plmi_cli_print(out, "%s: %s, %s\n", words[addition->what], addition->diver, addition->name);
    if (addition->other[0] != '\0') {
        plmi_cli_print(out, "  of the same dive as %s%s\n", addition->other,
                       addition->what == PLM_LOGBOOK_ADDED_BETTER_RECORD
                           ? "; this one is more complete: the figures are made of it"
                           : "");
    }
    if (addition->recomputed > 0) {
        plmi_cli_print(out, "  recomputed: %zu later dive%s of %s\n", addition->recomputed,
                       addition->recomputed == 1 ? "" : "s", addition->diver);
    }
}

/* A dive that is wanted; takes it. */
static enum plm_status wanted_add(struct adding *adding, struct plm_logbook_log *log, struct plm_dive *dive)
{
    struct plmi_cli_call *call = adding->ledger.call;
    struct plm_logbook_addition addition;
    enum plm_status status = plm_logbook_add(log, dive, &addition);
    if (status == PLM_STATUS_OK) {
        plmi_cli_progress_hide(&call->talk.progress);
        added_tell(&call->settings, &addition);
        fflush(stdout);
    }
    /* What one dive lacks does not stop the others; a ledger that cannot be written does. */
    adding->stop = status == PLM_STATUS_IO || status == PLM_STATUS_MEMORY;
    return status;
}

/* The next dive of a log. dives: counts those wanted. Returns: false at its end. */
static bool dive_add(struct adding *adding, struct plm_logbook_log *log, long *dives)
{
    const long wanted = adding->ledger.call->settings.dive;
    struct plm_dive *dive = NULL;
    enum plm_status status = plm_logbook_log_take(log, &dive);
    bool more = status == PLM_STATUS_OK;
    if (more && (wanted == 0 || plm_dive_info_get(dive)->index == wanted)) {
        (*dives)++;
        status = wanted_add(adding, log, dive);
        more = !adding->stop;
    } else {
        plm_dive_free(dive);
    }
    adding->exit = plmi_cli_worse(adding->exit, plmi_cli_exit_of(status));
    return more;
}

static enum plm_status log_open(struct plm_logbook_log **out, struct adding *adding, const char *path,
                                const struct plm_diag_sink *sink)
{
    const struct plmi_cli_settings *settings = &adding->ledger.call->settings;
    const struct plm_logbook_options options = {
        .log = &adding->log, .debrief = &adding->debrief, .diver = settings->diver};
    return plm_logbook_log_open(out, adding->ledger.logbook, path, &options, sink);
}

/* What is not all of an open log. */
static void log_judge(struct adding *adding, struct plm_logbook_log *log, long dives)
{
    const long wanted = adding->ledger.call->settings.dive;
    if (log == NULL) {
        return;
    }
    if (dives == 0 && wanted != 0) {
        plm_logbook_log_missing(log, (int)wanted);
    }
    if ((dives == 0 && wanted != 0) || plm_logbook_log_partial(log)) {
        adding->exit = plmi_cli_worse(adding->exit, PLMI_CLI_EXIT_PARTIAL);
    }
}

static void file_add(struct adding *adding, const struct plm_log_file *file)
{
    struct plmi_cli_call *call = adding->ledger.call;
    struct plmi_cli_deferred held;
    struct plm_logbook_log *log = NULL;
    long dives = 0;
    enum plmi_cli_exit before = adding->exit;
    plmi_cli_deferred_init(&held, file->path, &call->talk.sink);
    if (file->named) {
        plmi_cli_deferred_pass(&held);
    }
    enum plm_status status = log_open(&log, adding, file->path, &held.sink);
    adding->exit = plmi_cli_worse(adding->exit, plmi_cli_exit_of(status));
    while (status == PLM_STATUS_OK && dive_add(adding, log, &dives)) {
        plmi_cli_deferred_pass(&held);
    }
    log_judge(adding, log, dives);
    bool passed_over = !file->named && held.refused && dives == 0;
    plm_logbook_log_free(log);
    if (passed_over) {
        adding->passed_over++;
        adding->exit = before;
    } else {
        plmi_cli_deferred_pass(&held);
    }
    plmi_cli_deferred_free(&held);
}

/* All files below the operands. */
static void files_add(struct adding *adding)
{
    struct plmi_cli_call *call = adding->ledger.call;
    struct plm_log_files *files = NULL;
    size_t count = 0;
    enum plm_status status = plm_log_files_find(&files, call->operands, (size_t)call->operand_count,
                                                &call->settings.rules, &call->talk.sink);
    const struct plm_log_file *list = files != NULL ? plm_log_files_get(files, &count) : NULL;
    adding->exit = plmi_cli_exit_of(status);
    for (size_t i = 0; i < count && !adding->stop; i++) {
        file_add(adding, &list[i]);
        plmi_cli_progress_show(&call->talk.progress, i + 1, count, "files");
    }
    plmi_cli_progress_hide(&call->talk.progress);
    plm_log_files_free(files);
}

static enum plmi_cli_exit add_run(struct plmi_cli_call *call)
{
    struct adding adding = {.log = plmi_cli_log_options(&call->settings),
                            .debrief = plmi_cli_debrief_options(&call->settings)};
    if (!plmi_cli_ledger_open(&adding.ledger, call, PLM_LEDGER_MAKE)) {
        plmi_cli_ledger_close(&adding.ledger);
        return PLMI_CLI_EXIT_TROUBLE;
    }
    files_add(&adding);
    if (adding.passed_over > 0) {
        plmi_cli_print(answer(&call->settings), "passed over: %zu file%s that %s no log\n", adding.passed_over,
                       adding.passed_over == 1 ? "" : "s", adding.passed_over == 1 ? "is" : "are");
    }
    plmi_cli_ledger_close(&adding.ledger);
    return adding.stop ? plmi_cli_worse(adding.exit, PLMI_CLI_EXIT_TROUBLE) : adding.exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_add = {
    .name = "ledger add",
    .operands = "PATH...",
    .summary = "Adds logs, or all logs below a folder, to what their divers carry",
    .operands_min = 1,
    .operands_max = -1,
    .reads = true,
    .options = groups,
    .run = add_run,
};
