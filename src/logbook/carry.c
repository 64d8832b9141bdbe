/*
 * Lets a debrief begin with what the ledger knows of the diver. Must not change the ledger.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/identity.h"

/* Whether the ledger knows of a dive of this diver that was in the water at or after the begin of the one before in the
 * file. */
static bool knows_file(struct plm_logbook *logbook, const char *diver, const struct plm_dive_span *span)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    if (plm_ledger_entries_recent(&entries, logbook->ledger, diver, plm_span_down_utc_ms(span)) != PLM_STATUS_OK) {
        return false;
    }
    const struct plm_entry *list = plm_entries_get(entries, &count);
    bool knows = count > 0 && plm_span_up_utc_ms(&list[count - 1].exposure.span) >= logbook->carried.before_utc_ms;
    plm_entries_free(entries);
    return knows;
}

static bool residual_find(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start)
{
    struct plm_logbook *logbook = context;
    const struct plm_rules *rules = logbook->carried.rules;
    const char *diver;
    struct plm_dive_span span;
    if (!plmi_identity_find(logbook, dive, logbook->carried.diver, rules, PLM_LEVEL_WARNING, &diver, &span)) {
        return false;
    }
    bool from_file = in_file && !knows_file(logbook, diver, &span);
    logbook->carried.before_utc_ms = plm_span_down_utc_ms(&span);
    if (from_file || plm_logbook_start(logbook, diver, plm_span_down_utc_ms(&span), span.offset_min, rules, start) !=
                         PLM_STATUS_OK) {
        return false;
    }
    if (!start->residual) {
        plmi_logbook_tell(logbook, PLM_LEVEL_NOTE, plm_dive_info_get(dive)->file,
                          "dive %d: the ledger knows no dive of %s before it; it starts saturated with air",
                          plm_dive_info_get(dive)->index, diver);
    }
    return true;
}

void plm_logbook_carry(struct plm_logbook *logbook, const char *diver, struct plm_debrief_options *options)
{
    logbook->carried = (struct plmi_carried){.diver = diver, .rules = options->rules};
    options->residual_find = residual_find;
    options->residual_context = logbook;
}
