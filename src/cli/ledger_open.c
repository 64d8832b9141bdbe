/*
 * Finds and opens the ledger that a command is over. The only place that asks the environment where it is.
 * SPDX-License-Identifier: MIT
 */
#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/ledger.h"

#define PATH_BYTES  4096
#define LEDGER_NAME "/plimsoll/exposures.ledger"

/* A variable that is set and not empty; NULL else. */
static const char *variable(const char *name)
{
    const char *value = getenv(name);
    return value != NULL && value[0] != '\0' ? value : NULL;
}

/* Makes the folders of a path that are not there, for their owner, as the XDG Base Directory Specification has it. What
 * cannot be made shows when the file is opened. */
static void folders_make(const char *path)
{
    char folder[PATH_BYTES];
    for (const char *slash = strchr(path + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        (void)snprintf(folder, sizeof folder, "%.*s", (int)(slash - path), path);
        (void)mkdir(folder, 0700);
    }
}

/* XDG Base Directory Specification for the last choice. */
const char *plmi_cli_ledger_path(const struct plmi_cli_settings *settings, char *buffer, size_t size)
{
    const char *given = settings->ledger != NULL ? settings->ledger : variable("PLIMSOLL_LEDGER");
    const char *data = variable("XDG_DATA_HOME"), *home = variable("HOME");
    if (given != NULL) {
        return given;
    }
    int length = data != NULL && data[0] == '/' ? snprintf(buffer, size, "%s%s", data, LEDGER_NAME)
                 : home != NULL                 ? snprintf(buffer, size, "%s/.local/share%s", home, LEDGER_NAME)
                                                : 0;
    return length > 0 && (size_t)length < size ? buffer : NULL;
}

void plmi_cli_ledger_close(struct plmi_cli_ledger *ledger)
{
    plm_logbook_free(ledger->logbook);
    ledger->logbook = NULL;
    plm_ledger_close(ledger->file);
    ledger->file = NULL;
}

bool plmi_cli_ledger_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call, enum plm_ledger_mode mode)
{
    char buffer[PATH_BYTES];
    const char *path = plmi_cli_ledger_path(&call->settings, buffer, sizeof buffer);
    if (path == NULL) {
        plmi_cli_talk_usage(&call->talk, PLM_LEVEL_ERROR, "there is no home for a ledger; --ledger FILE tells one");
    }
    if (path == buffer && mode == PLM_LEDGER_MAKE) {
        folders_make(buffer);
    }
    *ledger = (struct plmi_cli_ledger){.call = call};
    ledger->opened = path != NULL ? plm_ledger_open(&ledger->file, path, mode, &call->talk.sink) : PLM_STATUS_ARGUMENT;
    if (ledger->opened != PLM_STATUS_OK) {
        return false;
    }
    plm_ledger_log_limit(ledger->file, (int64_t)(call->settings.rules.file_max_mb * 1000000));
    ledger->opened = plm_logbook_open(&ledger->logbook, ledger->file, &call->talk.sink);
    if (ledger->opened != PLM_STATUS_OK) {
        plmi_cli_ledger_close(ledger);
    }
    return ledger->opened == PLM_STATUS_OK;
}

bool plmi_cli_carried_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call,
                           struct plm_debrief_options *options)
{
    *ledger = (struct plmi_cli_ledger){.call = call};
    if (!call->settings.carry) {
        return true;
    }
    if (!plmi_cli_ledger_open(ledger, call, PLM_LEDGER_READ)) {
        return false;
    }
    plm_logbook_carry(ledger->logbook, call->settings.diver, options);
    return true;
}

void plmi_cli_ledger_tell(struct plmi_cli_ledger *ledger, enum plm_level level, const char *file, const char *format,
                          ...)
{
    char text[1024];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    struct plm_diag diag = {.level = level, .id = PLM_DIAG_LEDGER, .place = {.file = file}, .text = text};
    ledger->call->talk.sink.report(ledger->call->talk.sink.context, &diag);
}

/* "Marl, Quill, Tern" */
static void divers_write(const struct plm_entries *entries, char *buffer, size_t size)
{
    size_t count, used = 0;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    buffer[0] = '\0';
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && strcmp(list[i].exposure.diver, list[i - 1].exposure.diver) == 0) {
            continue;
        }
        int n = snprintf(buffer + used, size - used, "%s%s", used > 0 ? ", " : "", list[i].exposure.diver);
        if (n < 0 || (size_t)n >= size - used) {
            return;
        }
        used += (size_t)n;
    }
}

enum plm_status plmi_cli_ledger_entries(struct plmi_cli_ledger *ledger, const char *diver, struct plm_entries **out)
{
    struct plm_entries *all = NULL;
    size_t count = 0;
    char divers[600];
    enum plm_status status = plm_ledger_entries(out, ledger->file, diver, INT64_MIN, INT64_MAX);
    if (status == PLM_STATUS_OK) {
        (void)plm_entries_get(*out, &count);
    }
    if (status != PLM_STATUS_OK || count > 0) {
        return status;
    }
    status = plm_ledger_entries(&all, ledger->file, NULL, INT64_MIN, INT64_MAX);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    divers_write(all, divers, sizeof divers);
    plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "the ledger knows no dive of %s%s%s", diver,
                         divers[0] != '\0' ? "; it knows those of " : "", divers);
    plm_entries_free(all);
    return PLM_STATUS_INPUT;
}
