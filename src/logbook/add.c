/*
 * Adds one dive to the ledger: as a dive of its own, or as a second record of one that is there.
 * Must not leave half of it: all is one transaction.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "logbook/best_record.h"
#include "logbook/chain.h"
#include "logbook/identity.h"
#include "logbook/log.h"
#include "logbook/same_dive.h"

/* Everything within the transaction. */
static enum plm_status put(struct plm_logbook *logbook, const struct plm_dive *dive, struct plm_record *record,
                           const struct plm_ledger_log *log, struct plm_exposure *exposure,
                           struct plm_logbook_addition *addition)
{
    int64_t from_utc_ms = plm_span_down_utc_ms(&exposure->span), other_utc_ms = from_utc_ms;
    bool better = false;
    enum plm_status status = plmi_same_dive_find(logbook, dive, exposure, &record->exposure, &other_utc_ms, addition);
    addition->what = record->exposure != 0 ? PLM_LOGBOOK_ADDED_RECORD : PLM_LOGBOOK_ADDED_NEW;
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_log_put(logbook->ledger, log);
    }
    if (status == PLM_STATUS_OK && record->exposure == 0) {
        status = plm_ledger_exposure_put(logbook->ledger, exposure);
        record->exposure = exposure->id;
    }
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_record_put(logbook->ledger, record);
    }
    if (status == PLM_STATUS_OK) {
        status = plmi_best_record_choose(logbook, record->exposure, &better);
    }
    if (status != PLM_STATUS_OK || !better) {
        return status;
    }
    if (addition->what == PLM_LOGBOOK_ADDED_RECORD) {
        addition->what = PLM_LOGBOOK_ADDED_BETTER_RECORD;
    }
    from_utc_ms = other_utc_ms < from_utc_ms ? other_utc_ms : from_utc_ms;
    return plmi_chain_follow(logbook, exposure->diver, from_utc_ms, record->exposure, &addition->recomputed);
}

/* Whose dive it is that is there already, and when, as it is kept there. */
static enum plm_status tell_known(struct plm_logbook *logbook, int64_t exposure, const struct plm_exposure *stated,
                                  struct plm_logbook_addition *addition)
{
    struct plm_exposure kept = *stated;
    struct plm_entries *entries = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_entry(&entries, logbook->ledger, exposure);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (count > 0) {
        kept.span = list[0].exposure.span;
        (void)snprintf(addition->diver, sizeof addition->diver, "%s", list[0].exposure.diver);
        (void)plm_exposure_name(&kept, addition->name, sizeof addition->name);
    }
    addition->what = PLM_LOGBOOK_ADDED_KNOWN;
    plm_entries_free(entries);
    return status;
}

/* Within the transaction: where this record is there, nothing is changed. */
static enum plm_status put_unless_known(struct plm_logbook_log *log, const struct plm_dive *dive,
                                        struct plm_record *record, struct plm_exposure *exposure,
                                        struct plm_logbook_addition *addition)
{
    struct plm_logbook *logbook = log->logbook;
    int64_t known = 0;
    enum plm_status status = plm_ledger_record_find(logbook->ledger, log->log.sha256, record->log_index, &known);
    if (status == PLM_STATUS_OK && known != 0) {
        return tell_known(logbook, known, exposure, addition);
    }
    if (status == PLM_STATUS_OK) {
        status = put(logbook, dive, record, &log->log, exposure, addition);
    }
    return status == PLM_STATUS_OK ? plm_ledger_commit(logbook->ledger) : status;
}

/* The dive is at hand, and goes where it is debriefed; *diver keeps the name. */
static enum plm_status add(struct plm_logbook_log *log, const struct plm_dive *dive,
                           struct plm_logbook_addition *addition, char **diver)
{
    struct plm_logbook *logbook = log->logbook;
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plm_record record = log->record;
    struct plm_rules rules = *log->in_force;
    struct plm_exposure exposure = {.log_sha256 = log->log.sha256, .log_name = log->log.name, .log_index = info->index};
    (void)plm_log_rules_lay(log->read, dive, &rules);
    if (!plmi_identity_find(logbook, dive, record.stated.diver, &rules, PLM_LEVEL_ERROR, &exposure.diver,
                            &exposure.span)) {
        return PLM_STATUS_INPUT;
    }
    exposure.diver = *diver = strdup(exposure.diver);
    if (*diver == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, info->file, "no memory to add dive %d", info->index);
        return PLM_STATUS_MEMORY;
    }
    (void)snprintf(addition->diver, sizeof addition->diver, "%s", exposure.diver);
    (void)plm_exposure_name(&exposure, addition->name, sizeof addition->name);
    record.log_index = info->index;
    record.recorder = info->recorder;
    record.span = exposure.span;
    enum plm_status status = plmi_best_record_weigh(logbook, dive, &record);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_begin(logbook->ledger);
    }
    if (status != PLM_STATUS_OK) {
        return status;
    }
    status = put_unless_known(log, dive, &record, &exposure, addition);
    plm_ledger_undo(logbook->ledger);
    return status;
}

enum plm_status plm_logbook_add(struct plm_logbook_log *log, struct plm_dive *dive,
                                struct plm_logbook_addition *addition)
{
    struct plmi_at_hand *hand = &log->logbook->at_hand;
    *hand = (struct plmi_at_hand){log->debrief, dive, log->log.sha256, plm_dive_info_get(dive)->index};
    *addition = (struct plm_logbook_addition){.what = PLM_LOGBOOK_ADDED_NEW};
    char *diver = NULL;
    enum plm_status status = add(log, dive, addition, &diver);
    free(diver);
    plm_dive_free(hand->dive);
    *hand = (struct plmi_at_hand){.dive = NULL};
    return status;
}
