/*
 * plimsoll ledger check: is the file sound, are the logs what they were, do the figures come out again. Must not change
 * anything unless asked to.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>

#include <plimsoll/version.h>

#include "cli/ledger.h"
#include "cli/print.h"

static const char *set_recompute(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->recompute = true;
    return NULL;
}

static const char *set_renew(struct plmi_cli_settings *settings, const char *value)
{
    (void)value;
    settings->recompute = settings->renew = true;
    return NULL;
}

static const struct plmi_cli_option rows[] = {
    {"recompute", 0, NULL,
     "compute every figure again from the stored logs, by the rules of each, and compare to the last digit",
     set_recompute},
    {"renew", 0, NULL, "the same, and put figures that come out otherwise in place of those stored", set_renew},
};

static const struct plmi_cli_options options = {"The answer", rows, sizeof rows / sizeof rows[0]};
static const struct plmi_cli_options *const groups[] = {&options, &plmi_cli_options_ledger, NULL};

/* The thousandth is enough to show which way a figure went; NaN shows as it is. */
static const char *shown(double value, char *buffer, size_t size)
{
    long long thousandths = value > -1e12 && value < 1e12 ? (long long)(value * 1000 + (value < 0 ? -0.5 : 0.5)) : 0;
    if (!(value > -1e12 && value < 1e12)) {
        snprintf(buffer, size, "unknown");
    } else {
        snprintf(buffer, size, "%s%lld.%03lld", thousandths < 0 ? "-" : "",
                 thousandths < 0 ? -thousandths / 1000 : thousandths / 1000,
                 thousandths < 0 ? -thousandths % 1000 : thousandths % 1000);
    }
    return buffer;
}

/* context: the open ledger. */
static void differ_tell(void *context, const struct plm_logbook_difference *difference)
{
    struct plmi_cli_ledger *ledger = context;
    const struct plm_entry *entry = difference->entry;
    char name[256], from[40], to[40];
    plmi_cli_ledger_tell(
        ledger, PLM_LEVEL_WARNING, NULL, "%s, %s: %s was %s by version %s and comes to %s by version %s",
        entry->exposure.diver, plm_exposure_name(&entry->exposure, name, sizeof name), difference->figure,
        shown(difference->stored, from, sizeof from), entry->has_figures ? entry->figures.program : "none",
        shown(difference->computed, to, sizeof to), plm_version_get());
}

static void recomputed_tell(const struct plm_logbook_recomputed *recomputed, bool renewed)
{
    if (recomputed->dives > 0) {
        plmi_cli_print(stdout, "figures of %zu dive%s computed again: %zu differ%s\n", recomputed->dives,
                       recomputed->dives == 1 ? "" : "s", recomputed->differ,
                       recomputed->differ > 0 && renewed ? ", and were renewed" : "");
    }
}

static enum plmi_cli_exit check_open(struct plmi_cli_ledger *ledger)
{
    const struct plmi_cli_settings *settings = &ledger->call->settings;
    struct plm_logbook_recomputed recomputed = {.dives = 0};
    enum plm_status sound = plm_ledger_check(ledger->file), computed = PLM_STATUS_OK;
    if (settings->recompute && sound == PLM_STATUS_OK) {
        computed = plm_logbook_recompute(ledger->logbook, settings->renew, differ_tell, ledger, &recomputed);
    }
    enum plmi_cli_exit exit = plmi_cli_worse(plmi_cli_exit_of(sound), plmi_cli_exit_of(computed));
    if (recomputed.differ > 0 && !settings->renew) {
        exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_PARTIAL);
    }
    if (sound == PLM_STATUS_OK) {
        plmi_cli_print(stdout, "the file is sound, and every log is what it was\n");
    }
    recomputed_tell(&recomputed, settings->renew && computed == PLM_STATUS_OK);
    return exit;
}

static enum plmi_cli_exit check_run(struct plmi_cli_call *call)
{
    struct plmi_cli_ledger ledger;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plmi_cli_ledger_open(&ledger, call, call->settings.renew ? PLM_LEDGER_CHANGE : PLM_LEDGER_READ)) {
        exit = check_open(&ledger);
    } else if (ledger.opened == PLM_STATUS_INPUT) {
        exit = PLMI_CLI_EXIT_PARTIAL; /* that is an answer of a check */
    }
    plmi_cli_ledger_close(&ledger);
    return exit;
}

const struct plmi_cli_command plmi_cli_command_ledger_check = {
    .name = "ledger check",
    .operands = "",
    .summary = "Looks whether the ledger is sound, and with --recompute whether its figures come out again",
    .operands_min = 0,
    .operands_max = 0,
    .options = groups,
    .run = check_run,
};
