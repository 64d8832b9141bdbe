/*
 * What a diver carries at a moment out of the water. Must not say that anything is enough.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "logbook/work.h"

/* Whether the diver is under water at the moment. */
static enum plm_status refuse_wet(struct plm_logbook *logbook, const char *diver, int64_t at_utc_ms)
{
    struct plm_entries *entries = NULL;
    size_t count = 0;
    char name[256];
    enum plm_status status = plm_ledger_entries_wet(&entries, logbook->ledger, diver, at_utc_ms, at_utc_ms + 1);
    const struct plm_entry *list = status == PLM_STATUS_OK ? plm_entries_get(entries, &count) : NULL;
    if (count > 0) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "%s is under water at that time, in %s", diver,
                          plm_exposure_name(&list[0].exposure, name, sizeof name));
        status = PLM_STATUS_INPUT;
    }
    plm_entries_free(entries);
    return status;
}

/* Where the diver is: as given, else where the last dive was. */
static double surface_of(double stated_bar, const struct plm_entries *entries, const struct plm_rules *rules)
{
    size_t count;
    const struct plm_entry *past = plm_entries_get(entries, &count);
    if (!isnan(stated_bar)) {
        return stated_bar;
    }
    return count > 0 ? past[count - 1].figures.surface_bar : rules->surface_default_bar;
}

enum plm_status plm_logbook_due(struct plm_logbook *logbook, const char *diver, const struct plm_stamp *at,
                                const struct plm_rules *rules, double *surface_bar, struct plm_start *carried,
                                struct plm_entries **past)
{
    int64_t at_utc_ms = plm_stamp_utc_ms(at);
    *past = NULL;
    enum plm_status status = refuse_wet(logbook, diver, at_utc_ms);
    if (status == PLM_STATUS_OK) {
        status = plm_ledger_entries_before(past, logbook->ledger, diver, at_utc_ms);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_logbook_start(logbook, diver, at_utc_ms, at->offset_min, rules, carried);
    }
    if (status != PLM_STATUS_OK) {
        plm_entries_free(*past);
        *past = NULL;
        return status;
    }
    *surface_bar = surface_of(*surface_bar, *past, rules);
    if (!carried->residual) {
        carried->tissue = plm_tissue_saturated(*surface_bar, rules->water_vapour_bar, rules->air_n2_frac);
    }
    return PLM_STATUS_OK;
}
