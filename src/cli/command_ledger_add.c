/*
 * plimsoll ledger add: logs into the ledger, dive by dive. Must not keep anything that cannot be read again.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/companions.h>
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
    char *rules;           /* in force, as a rules file */
    struct plm_rules kept; /* and as they are read from it */
    enum plmi_cli_exit exit;
    size_t passed_over;
    bool stop; /* the ledger cannot be used any more */
};

/* One log: everything that its records have alike. */
struct log_in {
    struct plm_ledger_log log;
    struct plm_record record;
    struct plm_companions beside;
    char sha256[65];
    char *card;
    void *bytes;
    struct plm_source *source;
    struct plm_debrief *debrief;
    long dives, known;
};

/* All rules in force as a rules file; NULL without memory. */
static char *rules_write(const struct plm_rules *rules)
{
    size_t count, used = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    size_t size = count * 96 + 1;
    char *text = malloc(size);
    for (size_t i = 0; text != NULL && i < count; i++) {
        char value[48];
        int n = snprintf(text + used, size - used, "%s = %s\n", table[i].key,
                         plm_rules_get(rules, table[i].key, value, sizeof value));
        used += n > 0 && (size_t)n < size - used ? (size_t)n : 0;
    }
    return text;
}

/* What was added is the answer of the command; added on the way of another answer, it is talk. */
static FILE *answer(const struct plmi_cli_settings *settings)
{
    return settings->add ? stderr : stdout;
}

static void added_tell(const struct plmi_cli_settings *settings, const struct plmi_cli_addition *addition)
{
    FILE *out = answer(settings);
    static const char *const words[] = {
        [PLMI_CLI_ADDED_NEW] = "added",
        [PLMI_CLI_ADDED_RECORD] = "added as a second record",
        [PLMI_CLI_ADDED_BETTER_RECORD] = "added as a second record",
        [PLMI_CLI_ADDED_KNOWN] = "there already and left as it is",
    };
    plmi_cli_print(out, "%s: %s, %s\n", words[addition->what], addition->diver, addition->name);
    if (addition->other[0] != '\0') {
        plmi_cli_print(out, "  of the same dive as %s%s\n", addition->other,
                       addition->what == PLMI_CLI_ADDED_BETTER_RECORD
                           ? "; this one is more complete: the figures are made of it"
                           : "");
    }
    if (addition->recomputed > 0) {
        plmi_cli_print(out, "  recomputed: %ld later dive%s of %s\n", addition->recomputed,
                       addition->recomputed == 1 ? "" : "s", addition->diver);
    }
}

/* The next dive of a log. Returns: false at its end. */
static bool dive_add(struct adding *adding, struct log_in *in)
{
    const struct plmi_cli_settings *settings = &adding->ledger.call->settings;
    struct plmi_cli_addition addition;
    struct plm_dive *dive = NULL;
    enum plm_status status = plm_debrief_take(in->debrief, &dive);
    bool more = status == PLM_STATUS_OK;
    if (more && (settings->dive == 0 || plm_dive_info_get(dive)->index == settings->dive)) {
        in->dives++;
        struct plm_dive *added = dive;
        dive = NULL;
        status = plmi_cli_ledger_add(&adding->ledger, in->debrief, added, &in->record, &in->log, &addition);
        if (status == PLM_STATUS_OK) {
            in->known += addition.what == PLMI_CLI_ADDED_KNOWN;
            plmi_cli_progress_hide(&adding->ledger.call->talk.progress);
            added_tell(settings, &addition);
            fflush(stdout);
        }
        /* What one dive lacks does not stop the others; a ledger that cannot be written does. */
        adding->stop = status == PLM_STATUS_IO || status == PLM_STATUS_MEMORY;
        more = !adding->stop;
    }
    adding->exit = plmi_cli_worse(adding->exit, plmi_cli_exit_of(status));
    plm_dive_free(dive);
    return more;
}

static void record_fill(struct log_in *in, const struct plmi_cli_settings *settings, const char *rules)
{
    in->record = (struct plm_record){.log_sha256 = in->sha256,
                                     .card = in->card,
                                     .rules = rules,
                                     .told = {.diver = settings->diver,
                                              .start = settings->start,
                                              .zone = settings->zone,
                                              .surface_bar = settings->surface_bar,
                                              .altitude_m = settings->altitude_m,
                                              .water_kg_m3 = settings->water_kg_m3,
                                              .columns = settings->columns,
                                              .date_order = settings->date_order,
                                              .interval_s = settings->interval_s,
                                              .zero_auto = settings->zero_auto}};
}

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

/* The card as text, to be kept: up to a NUL, if there is one. */
static enum plm_status card_keep(struct log_in *in, const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    struct plm_source *source = NULL;
    void *bytes = NULL;
    size_t count = 0;
    if (in->beside.card == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_source_open_regular(&source, in->beside.card_path, rules, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_source_bytes(source, &bytes, &count);
    }
    in->card = bytes;
    plm_source_free(source);
    return status;
}

/* The log's bytes in memory, its card, and a debrief over it that will only be read from. */
static enum plm_status log_open(struct log_in *in, struct adding *adding, const char *path,
                                const struct plm_diag_sink *sink)
{
    const struct plmi_cli_call *call = adding->ledger.call;
    const struct plmi_cli_settings *settings = &call->settings;
    struct plm_debrief_options options = plmi_cli_debrief_options(settings);
    struct plm_source *file = NULL;
    enum plm_status status = plm_source_open_file(&file, path, NULL, &settings->rules, sink);
    if (status == PLM_STATUS_OK) {
        status = plm_source_sha256(file, in->sha256);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_source_bytes(file, &in->bytes, &in->log.count);
    }
    plm_source_free(file);
    if (status == PLM_STATUS_OK) {
        status = plm_source_open_memory(&in->source, in->bytes, in->log.count, path, &settings->rules, sink);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_companions_read(&in->beside, path, settings->card, NULL, &settings->rules, sink);
    }
    if (status != PLM_STATUS_MEMORY && in->beside.card != NULL) {
        status = PLM_STATUS_OK; /* the plan that it names is not used */
    }
    if (status == PLM_STATUS_OK) {
        status = card_keep(in, &settings->rules, sink);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    in->log.sha256 = in->sha256;
    in->log.name = strcmp(path, "-") == 0 ? "standard input" : last_part(path);
    in->log.bytes = in->bytes;
    record_fill(in, settings, adding->rules);
    options.card = in->beside.card;
    options.dive_index = 0;
    options.import.rules = &adding->kept;
    plmi_cli_reader_carries(&adding->ledger, &options);
    return plm_debrief_open(&in->debrief, in->source, &options, sink);
}

static void log_close(struct log_in *in)
{
    plm_debrief_free(in->debrief);
    plm_source_free(in->source);
    plm_companions_free(&in->beside);
    free(in->card);
    free(in->bytes);
}

/* A dive that was asked for by its number and is not there. */
static void missing_tell(struct adding *adding, const struct log_in *in)
{
    if (in->debrief == NULL || in->dives > 0 || adding->ledger.call->settings.dive == 0) {
        return;
    }
    plm_debrief_missing(in->debrief, (int)adding->ledger.call->settings.dive);
    adding->exit = plmi_cli_worse(adding->exit, PLMI_CLI_EXIT_PARTIAL);
}

static void file_add(struct adding *adding, const struct plm_log_file *file)
{
    struct plmi_cli_call *call = adding->ledger.call;
    struct plmi_cli_deferred held;
    struct log_in in = {.dives = 0};
    enum plmi_cli_exit before = adding->exit;
    plmi_cli_deferred_init(&held, file->path, &call->talk.sink);
    if (file->named) {
        plmi_cli_deferred_pass(&held);
    }
    enum plm_status status = log_open(&in, adding, file->path, &held.sink);
    adding->exit = plmi_cli_worse(adding->exit, plmi_cli_exit_of(status));
    while (status == PLM_STATUS_OK && dive_add(adding, &in)) {
        plmi_cli_deferred_pass(&held);
    }
    missing_tell(adding, &in);
    if (in.debrief != NULL && plm_debrief_partial(in.debrief)) {
        adding->exit = plmi_cli_worse(adding->exit, PLMI_CLI_EXIT_PARTIAL);
    }
    bool passed_over = !file->named && held.refused && in.dives == 0;
    log_close(&in);
    if (passed_over) {
        adding->passed_over++;
        adding->exit = before;
    } else {
        plmi_cli_deferred_pass(&held);
    }
    plmi_cli_deferred_free(&held);
}

static enum plmi_cli_exit add_run(struct plmi_cli_call *call)
{
    struct adding adding = {.rules = rules_write(&call->settings.rules)};
    struct plm_log_files *files = NULL;
    size_t count = 0;
    if (adding.rules == NULL || !plmi_cli_ledger_open(&adding.ledger, call, PLM_LEDGER_MAKE)) {
        free(adding.rules);
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plm_status status = plmi_cli_reader_rules(&adding.ledger, adding.rules, &adding.kept);
    if (status == PLM_STATUS_OK) {
        status = plm_log_files_find(&files, call->operands, (size_t)call->operand_count, &call->settings.rules,
                                    &call->talk.sink);
    }
    const struct plm_log_file *list = files != NULL ? plm_log_files_get(files, &count) : NULL;
    adding.exit = plmi_cli_exit_of(status);
    for (size_t i = 0; i < count && !adding.stop; i++) {
        file_add(&adding, &list[i]);
        plmi_cli_progress_show(&call->talk.progress, i + 1, count, "files");
    }
    plmi_cli_progress_hide(&call->talk.progress);
    if (adding.passed_over > 0) {
        plmi_cli_print(answer(&call->settings), "passed over: %zu file%s that %s no log\n", adding.passed_over,
                       adding.passed_over == 1 ? "" : "s", adding.passed_over == 1 ? "is" : "are");
    }
    plm_log_files_free(files);
    plmi_cli_ledger_close(&adding.ledger);
    free(adding.rules);
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
