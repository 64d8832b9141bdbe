/*
 * Collects what a run reads, and compares by device and inode. Must not tell what is wrong with it: who reads it does.
 * SPDX-License-Identifier: MIT
 */
#include "cli/inputs.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <plimsoll/log.h>
#include <plimsoll/log_files.h>

#include "cli/command.h"
#include "cli/ledger.h"

#define PATH_BYTES 4096

/* found: in a folder, and perhaps no log at all. */
struct plmi_cli_input {
    struct plmi_cli_input *next;
    dev_t device;
    ino_t inode;
    const char *what;
    bool found;
    char path[];
};

static const struct plm_diag_sink silent = {NULL, NULL};

/* What stands at a path. Returns: false unless it is a regular file: nothing else is replaced when it is written to. */
static bool file_at(const char *path, int standard, struct stat *about)
{
    int failed = strcmp(path, "-") == 0 ? fstat(standard, about) : stat(path, about);
    return failed == 0 && S_ISREG(about->st_mode);
}

/* Returns: false without memory. */
static bool add(struct plmi_cli_call *call, const char *path, const char *what, bool found)
{
    struct stat about;
    if (path == NULL || !file_at(path, STDIN_FILENO, &about)) {
        return true;
    }
    size_t size = strlen(path) + 1;
    struct plmi_cli_input *input = malloc(sizeof *input + size);
    if (input == NULL) {
        return false;
    }
    *input = (struct plmi_cli_input){
        .next = call->inputs, .device = about.st_dev, .inode = about.st_ino, .what = what, .found = found};
    memcpy(input->path, path, size);
    call->inputs = input;
    return true;
}

/* A log, and the card and plan that go with it. */
static bool add_log(struct plmi_cli_call *call, const struct plm_log_file *log, const struct plm_rules *rules)
{
    struct plm_log_options options = plm_log_options_default(rules);
    struct plm_log_beside beside;
    options.card_path = call->settings.card;
    options.plan_path = call->settings.plan;
    bool ok = plm_log_beside_find(&beside, log->path, &options) == PLM_STATUS_OK &&
              add(call, log->path, "a log", !log->named) && add(call, beside.card_path, "a card", false) &&
              add(call, beside.plan_path, "a plan", false);
    plm_log_beside_free(&beside);
    return ok;
}

static bool add_logs(struct plmi_cli_call *call)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_log_files *files = NULL;
    size_t count = 0;
    if (!call->command->reads || call->operand_count == 0) {
        return true;
    }
    bool ok =
        plm_log_files_find(&files, call->operands, (size_t)call->operand_count, &rules, &silent) != PLM_STATUS_MEMORY;
    const struct plm_log_file *logs = ok ? plm_log_files_get(files, &count) : NULL;
    for (size_t i = 0; ok && i < count; i++) {
        ok = add_log(call, &logs[i], &rules);
    }
    const char *const *beside = ok ? plm_log_files_companions(files, &count) : NULL;
    for (size_t i = 0; ok && i < count; i++) {
        ok = add(call, beside[i], "a card or a plan", false);
    }
    plm_log_files_free(files);
    return ok;
}

/* The ledger, and the files that SQLite keeps beside it (https://sqlite.org/tempfiles.html). */
static bool add_ledger(struct plmi_cli_call *call)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal"};
    char buffer[PATH_BYTES], beside[PATH_BYTES + 16];
    const char *path = plmi_cli_ledger_path(&call->settings, buffer, sizeof buffer);
    bool ok = true;
    for (size_t i = 0; path != NULL && ok && i < sizeof endings / sizeof endings[0]; i++) {
        (void)snprintf(beside, sizeof beside, "%s%s", path, endings[i]);
        ok = add(call, beside, "the ledger", false);
    }
    return ok;
}

static bool collect(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    bool ok = add_logs(call) && add(call, settings->card, "a card", false) &&
              add(call, settings->plan, "a plan", false) && add_ledger(call);
    for (int i = 0; ok && i < settings->rules_given.file_count; i++) {
        ok = add(call, settings->rules_given.files[i], "a rules file", false);
    }
    if (!ok) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "no memory");
    }
    return ok;
}

struct weighed {
    bool refused, more;
};

static void weigh(void *context, const struct plm_diag *diag)
{
    struct weighed *weighed = context;
    if (diag->level != PLM_LEVEL_ERROR) {
        return;
    }
    weighed->refused = weighed->refused || plm_log_files_refusal(diag->id);
    weighed->more = weighed->more || !plm_log_files_refusal(diag->id);
}

/* Whether what was found in a folder is a log, if only a damaged one, and not an answer of an earlier run. */
static bool is_log(const char *path)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_log_options options = plm_log_options_default(&rules);
    struct weighed weighed = {false, false};
    const struct plm_diag_sink sink = {weigh, &weighed};
    struct plm_log *log = NULL;
    struct plm_dive *dive = NULL;
    options.alone = true;
    if (plm_log_open(&log, path, &options, &sink) == PLM_STATUS_OK) {
        (void)plm_log_next(log, &dive);
    }
    plm_dive_free(dive);
    plm_log_free(log);
    return weighed.more || !weighed.refused;
}

static void refuse(struct plmi_cli_call *call, const char *path, const struct plmi_cli_input *input)
{
    char text[PATH_BYTES + 100];
    (void)snprintf(text, sizeof text, "is %s that is read here (%s); nothing was written to it", input->what,
                   input->path);
    const struct plm_diag diag = {
        PLM_LEVEL_ERROR, PLM_DIAG_WRITE, {.file = strcmp(path, "-") == 0 ? "standard output" : path}, text};
    call->talk.sink.report(call->talk.sink.context, &diag);
}

bool plmi_cli_inputs_spared(struct plmi_cli_call *call, const char *path)
{
    struct stat about;
    if (!file_at(path, STDOUT_FILENO, &about)) {
        return true;
    }
    if (call->inputs == NULL && !collect(call)) {
        return false;
    }
    for (const struct plmi_cli_input *input = call->inputs; input != NULL; input = input->next) {
        if (input->device == about.st_dev && input->inode == about.st_ino && (!input->found || is_log(path))) {
            refuse(call, path, input);
            return false;
        }
    }
    return true;
}

/* The folder in which a file would be made. Returns: false where there is none. */
static bool folder_of(const char *path, struct stat *about)
{
    char folder[PATH_BYTES];
    const char *slash = strrchr(path, '/');
    size_t length = slash == NULL ? 0 : slash == path ? 1 : (size_t)(slash - path);
    if (length >= sizeof folder) {
        return false;
    }
    memcpy(folder, path, length);
    folder[length] = '\0';
    return stat(length > 0 ? folder : ".", about) == 0;
}

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

/* Whether two outputs would be written to one file, which need not be there yet. */
static bool one_file(const char *a, const char *b)
{
    struct stat about, about_a, about_b;
    bool is_a = file_at(a, STDOUT_FILENO, &about_a), is_b = file_at(b, STDOUT_FILENO, &about_b);
    if (strcmp(a, "-") == 0 && strcmp(b, "-") == 0) {
        return true;
    }
    if (stat(a, &about) != 0 && stat(b, &about) != 0 && strcmp(last_part(a), last_part(b)) == 0) {
        is_a = is_b = folder_of(a, &about_a) && folder_of(b, &about_b);
    }
    return is_a && is_b && about_a.st_dev == about_b.st_dev && about_a.st_ino == about_b.st_ino;
}

bool plmi_cli_inputs_spared_by_options(struct plmi_cli_call *call)
{
    const struct plmi_cli_settings *settings = &call->settings;
    const char *output = settings->output != NULL ? settings->output : "-", *merge = settings->merge;
    if (merge != NULL && one_file(output, merge)) {
        const char *name = strcmp(merge, "-") == 0 ? "standard output" : merge;
        const struct plm_diag diag = {PLM_LEVEL_ERROR,
                                      PLM_DIAG_WRITE,
                                      {.file = name},
                                      "is where both the answer and --merge go; nothing was written to it"};
        call->talk.sink.report(call->talk.sink.context, &diag);
        return false;
    }
    return plmi_cli_inputs_spared(call, output) && (merge == NULL || plmi_cli_inputs_spared(call, merge));
}

void plmi_cli_inputs_free(struct plmi_cli_call *call)
{
    while (call->inputs != NULL) {
        struct plmi_cli_input *next = call->inputs->next;
        free(call->inputs);
        call->inputs = next;
    }
}
