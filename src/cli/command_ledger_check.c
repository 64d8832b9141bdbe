/*
 * plimsoll ledger check: is the file sound, are the logs what they were, do the figures come out again. Must not change
 * anything unless asked to.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

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

struct checking {
    struct plmi_cli_ledger ledger;
    long dives, differ;
};

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

static void differ_tell(struct checking *checking, const struct plm_entry *entry, const char *what, double stored,
                        double computed)
{
    char name[256], from[40], to[40];
    checking->differ++;
    plmi_cli_ledger_tell(&checking->ledger, PLM_LEVEL_WARNING, NULL,
                         "%s, %s: %s was %s by version %s and comes to %s by version %s", entry->exposure.diver,
                         plmi_cli_ledger_name(&entry->exposure, name, sizeof name), what,
                         shown(stored, from, sizeof from), entry->has_figures ? entry->figures.program : "none",
                         shown(computed, to, sizeof to), plm_version_get());
}

static bool spans_same(const struct plm_dive_span *a, const struct plm_dive_span *b)
{
    return a->start_utc_ms == b->start_utc_ms && a->offset_min == b->offset_min && a->duration_ms == b->duration_ms &&
           a->wet_from_ms == b->wet_from_ms && a->wet_to_ms == b->wet_to_ms;
}

/* Whether a dive, read again, is at the place in its log and at the time that are stored of it; what is not is
 * reported. */
static bool dive_same(struct checking *checking, const struct plm_entry *entry, const struct plm_debriefed *debriefed,
                      const struct plm_records *records)
{
    const struct plm_dive_span *kept = &entry->exposure.span;
    const struct plm_dive_info *info = plm_dive_info_get(debriefed->dive);
    const struct plm_dive_span read = plmi_cli_dive_span(debriefed->dive, debriefed->replay.rules);
    size_t count;
    const struct plm_record *record = plm_records_get(records, &count);
    char name[256];
    while (!record->best) {
        record++;
    }
    if (info->index == record->log_index && info->start.known && info->start.has_clock && info->start.has_zone &&
        spans_same(kept, &read) && spans_same(&record->span, &read)) {
        return true;
    }
    plmi_cli_ledger_tell(&checking->ledger, PLM_LEVEL_ERROR, NULL,
                         "%s, %s: its log tells another start, length or time in the water than is stored of it; "
                         "remove the dive and add its log again",
                         entry->exposure.diver, plmi_cli_ledger_name(&entry->exposure, name, sizeof name));
    return false;
}

static enum plm_status recompute_one(struct checking *checking, const struct plm_entry *entry)
{
    struct plmi_cli_ledger *ledger = &checking->ledger;
    struct plm_figures figures;
    struct plm_debriefed *debriefed = NULL;
    struct plm_records *records = NULL;
    double stored = 0, computed = 0;
    const char *what = NULL;
    ledger->reader.tell = false;
    enum plm_status status = plmi_cli_ledger_compute(ledger, &entry->exposure, &figures, &debriefed, &records);
    if (status == PLM_STATUS_OK && !dive_same(checking, entry, debriefed, records)) {
        status = PLM_STATUS_INPUT;
    }
    if (status == PLM_STATUS_OK) {
        what =
            entry->has_figures ? plmi_cli_figures_differ(&entry->figures, &figures, &stored, &computed) : "all figures";
    }
    if (what != NULL) {
        differ_tell(checking, entry, what, stored, computed);
    }
    if (what != NULL && ledger->call->settings.renew) {
        status = plm_ledger_figures_put(ledger->file, entry->exposure.id, &figures);
    }
    plm_debriefed_free(debriefed);
    plm_records_free(records);
    return status;
}

/* Every dive, by diver and start: what comes before a dive is put right before it. */
static enum plm_status recompute(struct checking *checking)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    enum plm_status worst = plm_ledger_entries(&entries, checking->ledger.file, NULL, INT64_MIN, INT64_MAX);
    const struct plm_entry *list = worst == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    for (size_t i = 0; i < count; i++) {
        enum plm_status status = recompute_one(checking, &list[i]);
        worst = status != PLM_STATUS_OK ? status : worst;
        checking->dives++;
    }
    plm_entries_free(entries);
    return worst;
}

static enum plm_status recompute_all(struct checking *checking)
{
    struct plm_ledger *file = checking->ledger.file;
    if (!checking->ledger.call->settings.renew) {
        return recompute(checking);
    }
    enum plm_status status = plm_ledger_begin(file);
    if (status == PLM_STATUS_OK) {
        status = recompute(checking);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_commit(file);
    }
    plm_ledger_undo(file);
    return status;
}

static enum plmi_cli_exit check_run(struct plmi_cli_call *call)
{
    struct checking checking = {.dives = 0};
    const struct plmi_cli_settings *settings = &call->settings;
    enum plmi_cli_exit exit = PLMI_CLI_EXIT_TROUBLE;
    if (plmi_cli_ledger_open(&checking.ledger, call, settings->renew ? PLM_LEDGER_CHANGE : PLM_LEDGER_READ)) {
        enum plm_status sound = plm_ledger_check(checking.ledger.file), computed = PLM_STATUS_OK;
        if (settings->recompute && sound == PLM_STATUS_OK) {
            computed = recompute_all(&checking);
        }
        exit = plmi_cli_worse(plmi_cli_exit_of(sound), plmi_cli_exit_of(computed));
        if (checking.differ > 0 && !settings->renew) {
            exit = plmi_cli_worse(exit, PLMI_CLI_EXIT_PARTIAL);
        }
        if (sound == PLM_STATUS_OK) {
            plmi_cli_print(stdout, "the file is sound, and every log is what it was\n");
        }
        if (checking.dives > 0) {
            plmi_cli_print(stdout, "figures of %ld dive%s computed again: %ld differ%s\n", checking.dives,
                           checking.dives == 1 ? "" : "s", checking.differ,
                           checking.differ > 0 && settings->renew && computed == PLM_STATUS_OK ? ", and were renewed"
                                                                                               : "");
        }
    } else if (checking.ledger.opened == PLM_STATUS_INPUT) {
        exit = PLMI_CLI_EXIT_PARTIAL; /* that is an answer of a check */
    }
    plmi_cli_ledger_close(&checking.ledger);
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
