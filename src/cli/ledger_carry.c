/*
 * Lets a debrief begin with what the ledger knows of the diver. Must not change the ledger.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"

/* Whether the ledger knows of a dive of this diver that was in the water at or after the begin of the one before in the
 * file. */
static bool knows_file(struct plmi_cli_ledger *ledger, const char *diver, const struct plm_dive_span *span)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    if (plm_ledger_entries_recent(&entries, ledger->file, diver, plm_span_down_utc_ms(span)) != PLM_STATUS_OK) {
        return false;
    }
    const struct plm_entry *list = plm_entries_get(entries, &count);
    bool knows = count > 0 && plm_span_up_utc_ms(&list[count - 1].exposure.span) >= ledger->before_utc_ms;
    plm_entries_free(entries);
    return knows;
}

static bool carried(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start)
{
    struct plmi_cli_ledger *ledger = context;
    const struct plm_rules *rules = &ledger->call->settings.rules;
    const char *diver;
    struct plm_dive_span span;
    if (!plmi_cli_dive_placed(ledger, dive, rules, PLM_LEVEL_WARNING, &diver, &span)) {
        return false;
    }
    bool from_file = in_file && !knows_file(ledger, diver, &span);
    ledger->before_utc_ms = plm_span_down_utc_ms(&span);
    if (from_file || plmi_cli_ledger_start(ledger, diver, &span, rules, start) != PLM_STATUS_OK) {
        return false;
    }
    if (!start->carried) {
        plmi_cli_ledger_tell(ledger, PLM_LEVEL_NOTE, plm_dive_info_get(dive)->file,
                             "dive %d: the ledger knows no dive of %s before it; it starts saturated with air",
                             plm_dive_info_get(dive)->index, diver);
    }
    return true;
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
    options->carried = carried;
    options->carried_context = ledger;
    return true;
}
