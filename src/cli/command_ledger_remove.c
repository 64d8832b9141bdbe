/*
 * plimsoll ledger remove: takes dives out, after asking. Must not take anything without a yes.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/number.h>

#include "cli/ledger.h"
#include "cli/print.h"

static const char *set_yes(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->yes = true;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"yes", 0, NULL, "do not ask", set_yes},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, NULL};

/* A yes from standard input. */
static bool agreed(const struct plmi_cli_call *call, const struct plm_exposure *exposure, const char *name)
{
    char answer[16] = "";
    if (call->settings.yes) {
        return true;
    }
    plmi_cli_print(stderr, "remove %s of %s%s? yes or no: ", name, exposure->diver,
                   exposure->record_count > 1 ? " with all its records" : "");
    fflush(stderr);
    return fgets(answer, sizeof answer, stdin) != NULL && strcmp(answer, "yes\n") == 0;
}

static enum plmi_cli_exit remove_one(struct plmi_cli_ledger *ledger, const char *operand)
{
    struct plm_entries *entries = NULL;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    char name[256];
    int64_t id;
    size_t recomputed = 0;
    size_t count = 0;
    if (!plm_whole_parse(operand, &id) || id < 0) {
        plmi_cli_talk_usage(&ledger->call->talk, PLM_LEVEL_ERROR,
                            "\"%s\" is no number of a dive; plimsoll ledger list tells them", operand);
        return PLMI_CLI_EXIT_TROUBLE;
    }
    enum plm_status status = plm_ledger_entry(&entries, ledger->file, id);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (status == PLM_STATUS_OK && count == 0) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, NULL, "there is no dive %lld", (long long)id);
        status = PLM_STATUS_INPUT;
    }
    if (status == PLM_STATUS_OK &&
        !agreed(ledger->call, &list[0].exposure, plm_exposure_name(&list[0].exposure, name, sizeof name))) {
        plmi_cli_print(stdout, "left as it is: %s, %s\n", list[0].exposure.diver, name);
    } else if (status == PLM_STATUS_OK) {
        status = plm_logbook_remove(ledger->logbook, &list[0].exposure, &recomputed);
        if (status == PLM_STATUS_OK) {
            plmi_cli_print(stdout, "removed: %s, %s\n", list[0].exposure.diver,
                           plm_exposure_name(&list[0].exposure, name, sizeof name));
        }
        if (status == PLM_STATUS_OK && recomputed > 0) {
            plmi_cli_print(stdout, "  recomputed: %zu later dive%s of %s\n", recomputed, recomputed == 1 ? "" : "s",
                           list[0].exposure.diver);
        }
    }
    plm_entries_free(entries);
    return status == PLM_STATUS_IO ? PLMI_CLI_EXIT_TROUBLE : plmi_cli_worse(exit, plmi_cli_exit_of(status));
}

static enum plmi_cli_exit remove_run(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_CLEAR;
    if (!plmi_cli_ledger_open(&ledger, call, PLM_LEDGER_CHANGE)) {
        exit = PLMI_CLI_EXIT_TROUBLE;
    }
    for (int i = 0; exit < PLMI_CLI_EXIT_TROUBLE && i < call->operand_count; i++) {
        exit = plmi_cli_worse(exit, remove_one(&ledger, call->operands[i]));
    }
    plmi_cli_ledger_close(&ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_remove = {
    .name = "ledger remove",
    .operands = "DIVE...",
    .summary = "Takes dives out by their numbers, with all their records; asks before",
    .operands_min = 1,
    .operands_max = -1,
    .options = groups,
    .run = remove_run,
};
