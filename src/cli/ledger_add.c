/*
 * Puts one dive into the ledger: as a dive of its own, or as a second record of one that is there.
 * Must not leave half of it: all is one transaction.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/alignment.h>
#include <plimsoll/names.h>

#include "cli/ledger.h"

/* What is missing, and what to do about it. */
static const char *start_missing(const struct plm_stamp *start)
{
    if (!start->known) {
        return "tells no start; a card (start = 2031-05-06T09:30+11:00) or --start says it";
    }
    if (!start->has_clock) {
        return "tells the date of its start and no time; a card (start = 2031-05-06T09:30+11:00) says it";
    }
    return start->has_zone ? NULL : "tells a start without its time zone; a card (zone = +11:00) or --zone says it";
}

struct plm_dive_span plmi_cli_dive_span(const struct plm_dive *dive, const struct plm_rules *rules)
{
    const struct plm_stamp *start = &plm_dive_info_get(dive)->start;
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    struct plm_dive_span span = {.start_utc_ms = start->local_ms - (int64_t)start->offset_min * 60000,
                                 .offset_min = start->offset_min,
                                 .duration_ms = samples[count - 1].time_ms};
    plm_dive_wet(dive, rules->surface_depth_m, &span.wet_from_ms, &span.wet_to_ms);
    return span;
}

bool plmi_cli_dive_placed(struct plmi_cli_ledger *ledger, const struct plm_dive *dive, const struct plm_rules *rules,
                          enum plm_level level, const char **diver, struct plm_dive_span *span)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    const char *told = ledger->call->settings.diver, *missing = start_missing(&info->start);
    *diver = told != NULL ? told : info->diver != NULL && !plm_name_same(info->diver, "") ? info->diver : NULL;
    if (*diver == NULL) {
        missing = "tells no diver; a card (diver = NAME) or --diver says it";
    }
    if (missing != NULL) {
        plmi_cli_ledger_tell(ledger, level, info->file, "dive %d %s; without it the ledger knows nothing of it",
                             info->index, missing);
        return false;
    }
    *span = plmi_cli_dive_span(dive, rules);
    return true;
}

/* Whether a dive was recorded beside a stored one by the same diver, as its best record shows it. */
static enum plm_status same_dive(struct plmi_cli_ledger *ledger, const struct plm_entry *entry,
                                 const struct plm_dive *dive, bool *same)
{
    struct plm_records *records = NULL;
    struct plm_dive *stored = NULL;
    struct plm_alignment alignment = {.same_dive = false};
    size_t count = 0;
    enum plm_status status = plm_ledger_records(&records, ledger->file, entry->exposure.id);
    const struct plm_record *list = status == PLM_STATUS_OK ? plm_records_get(records, &count) : NULL;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count && !alignment.same_dive; i++) {
        status = plmi_cli_reader_dive(ledger, &list[i], &stored);
        if (status == PLM_STATUS_OK) {
            status = plm_alignment_find(&alignment, stored, dive, &ledger->call->talk.sink);
        }
        plm_dive_free(stored);
        stored = NULL;
    }
    *same = alignment.same_dive;
    plm_records_free(records);
    return status;
}

/* The stored dive that this is a record of; *exposure 0: none. INPUT (reported): two dives that cannot be one person's.
 */
static enum plm_status find_same(struct plmi_cli_ledger *ledger, const struct plm_dive *dive,
                                 const struct plm_exposure *wanted, int64_t *exposure, int64_t *down_utc_ms,
                                 struct plmi_cli_addition *addition)
{
    const struct plm_dive_span *span = &wanted->span;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    char name[256];
    *exposure = 0;
    enum plm_status status =
        plm_ledger_entries_wet(&entries, ledger->file, wanted->diver, span->start_utc_ms + span->wet_from_ms,
                               span->start_utc_ms + span->wet_to_ms);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i++) {
        bool same = false;
        status = same_dive(ledger, &list[i], dive, &same);
        if (status != PLM_STATUS_OK) {
            break;
        }
        if (same && *exposure == 0) {
            *exposure = list[i].exposure.id;
            *down_utc_ms = plm_span_down_utc_ms(&list[i].exposure.span);
            (void)plmi_cli_ledger_name(&list[i].exposure, addition->other, sizeof addition->other);
            continue;
        }
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, plm_dive_info_get(dive)->file,
                             "%s is under water at one time in %s, and in %s, with profiles that differ: they cannot "
                             "both be of one person; it is not added",
                             wanted->diver, addition->name, plmi_cli_ledger_name(&list[i].exposure, name, sizeof name));
        status = PLM_STATUS_INPUT;
    }
    plm_entries_free(entries);
    return status;
}

/* The most complete record of an exposure becomes its best. changed: it is another than before. */
static enum plm_status choose_best(struct plmi_cli_ledger *ledger, int64_t exposure, bool *changed)
{
    struct plm_records *records = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_records(&records, ledger->file, exposure);
    const struct plm_record *list = status == PLM_STATUS_OK ? plm_records_get(records, &count) : NULL;
    struct plm_completeness *worths = calloc(count + 1, sizeof *worths);
    if (status == PLM_STATUS_OK && worths == NULL) {
        status = PLM_STATUS_MEMORY;
    }
    *changed = false;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i++) {
        worths[i] = (struct plm_completeness){list[i].covered_s, list[i].step_s, list[i].cells, list[i].gas};
    }
    if (status == PLM_STATUS_OK) {
        const struct plm_record *best = &list[plm_completeness_best(worths, count)];
        *changed = !best->best;
        status = *changed ? plm_ledger_record_choose(ledger->file, best) : PLM_STATUS_OK;
    }
    free(worths);
    plm_records_free(records);
    return status;
}

/* Everything within the transaction. */
static enum plm_status put(struct plmi_cli_ledger *ledger, const struct plm_dive *dive, struct plm_record *record,
                           const struct plm_ledger_log *log, struct plm_exposure *exposure,
                           struct plmi_cli_addition *addition)
{
    int64_t from_utc_ms = plm_span_down_utc_ms(&exposure->span), other_utc_ms = from_utc_ms;
    bool better = false;
    enum plm_status status = find_same(ledger, dive, exposure, &record->exposure, &other_utc_ms, addition);
    addition->what = record->exposure != 0 ? PLMI_CLI_ADDED_RECORD : PLMI_CLI_ADDED_NEW;
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_log_put(ledger->file, log);
    }
    if (status == PLM_STATUS_OK && record->exposure == 0) {
        status = plm_ledger_exposure_put(ledger->file, exposure);
        record->exposure = exposure->id;
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_record_put(ledger->file, record);
    }
    if (status == PLM_STATUS_OK) {
        status = choose_best(ledger, record->exposure, &better);
    }
    if (status != PLM_STATUS_OK || !better) {
        return status;
    }
    if (addition->what == PLMI_CLI_ADDED_RECORD) {
        addition->what = PLMI_CLI_ADDED_BETTER_RECORD;
    }
    from_utc_ms = other_utc_ms < from_utc_ms ? other_utc_ms : from_utc_ms;
    return plmi_cli_ledger_chain(ledger, exposure->diver, from_utc_ms, record->exposure, &addition->recomputed);
}

static enum plm_status weigh(struct plmi_cli_ledger *ledger, const struct plm_dive *dive, struct plm_record *record)
{
    struct plm_completeness worth;
    enum plm_status status = plm_completeness_find(&worth, dive, &ledger->call->talk.sink);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    record->covered_s = worth.covered_s;
    record->step_s = worth.step_s;
    record->cells = worth.cells;
    record->gas = worth.gas;
    return status;
}

/* Whose dive it is that is there already, and when, as it is kept there. */
static enum plm_status tell_known(struct plmi_cli_ledger *ledger, int64_t exposure, const struct plm_exposure *told,
                                  struct plmi_cli_addition *addition)
{
    struct plm_exposure kept = *told;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_entry(&entries, ledger->file, exposure);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (count > 0) {
        kept.span = list[0].exposure.span;
        (void)snprintf(addition->diver, sizeof addition->diver, "%s", list[0].exposure.diver);
        (void)plmi_cli_ledger_name(&kept, addition->name, sizeof addition->name);
    }
    addition->what = PLMI_CLI_ADDED_KNOWN;
    plm_entries_free(entries);
    return status;
}

/* The dive is at hand, and goes where it is debriefed; *diver keeps the name. */
static enum plm_status add(struct plmi_cli_ledger *ledger, const struct plm_dive *dive, const struct plm_record *told,
                           const struct plm_ledger_log *log, struct plmi_cli_addition *addition, char **diver)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plm_record record = *told;
    struct plm_exposure exposure = {.log_sha256 = log->sha256, .log_name = log->name, .log_index = info->index};
    int64_t known = 0;
    memset(addition, 0, sizeof *addition);
    if (!plmi_cli_dive_placed(ledger, dive, &ledger->call->settings.rules, PLM_LEVEL_ERROR, &exposure.diver,
                              &exposure.span)) {
        return PLM_STATUS_INPUT;
    }
    exposure.diver = *diver = strdup(exposure.diver);
    if (*diver == NULL) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_ERROR, info->file, "no memory to add dive %d", info->index);
        return PLM_STATUS_MEMORY;
    }
    (void)snprintf(addition->diver, sizeof addition->diver, "%s", exposure.diver);
    (void)plmi_cli_ledger_name(&exposure, addition->name, sizeof addition->name);
    record.log_index = info->index;
    record.recorder = info->recorder;
    record.span = exposure.span;
    enum plm_status status = weigh(ledger, dive, &record);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_begin(ledger->file);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    status = plm_ledger_record_find(ledger->file, log->sha256, info->index, &known);
    if (status == PLM_STATUS_OK && known != 0) {
        status = tell_known(ledger, known, &exposure, addition);
    } else if (status == PLM_STATUS_OK) {
        status = put(ledger, dive, &record, log, &exposure, addition);
    }
    if (status == PLM_STATUS_OK && known == 0) {
        status = plm_ledger_commit(ledger->file);
    }
    plm_ledger_undo(ledger->file);
    return status;
}

enum plm_status plmi_cli_ledger_add(struct plmi_cli_ledger *ledger, struct plm_debrief *debrief, struct plm_dive *dive,
                                    const struct plm_record *told, const struct plm_ledger_log *log,
                                    struct plmi_cli_addition *addition)
{
    ledger->hand = (struct plmi_cli_hand){debrief, dive, log->sha256, plm_dive_info_get(dive)->index};
    char *diver = NULL;
    enum plm_status status = add(ledger, dive, told, log, addition, &diver);
    free(diver);
    plm_dive_free(ledger->hand.dive);
    ledger->hand.dive = NULL;
    return status;
}
