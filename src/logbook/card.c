/*
 * A stored dive's card. Must not say more than what was stated.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/logbook.h>

bool plm_stated_any(const struct plm_stated *stated)
{
    return stated->diver != NULL || stated->start != NULL || stated->zone != NULL || !isnan(stated->surface_bar) ||
           !isnan(stated->altitude_m) || !isnan(stated->water_kg_m3);
}

/* The card that was laid over the record; it was read before, so that nothing is told of it. */
static enum plm_status card_read(struct plm_card **out, const char *text)
{
    const struct plm_rules rules = plm_rules_default();
    struct plm_source *source = NULL;
    if (text == NULL) {
        return PLM_STATUS_OK;
    }
    enum plm_status status = plm_source_open_memory(&source, text, strlen(text), "card of the ledger", &rules, NULL);
    if (status == PLM_STATUS_OK) {
        status = plm_card_read(out, source, &rules, NULL);
    }
    plm_source_free(source);
    return status;
}

enum plm_status plm_logbook_card_write(const struct plm_exposure *exposure, const struct plm_record *record,
                                       const struct plm_dive *dive, const struct plm_sink *sink)
{
    const struct plm_stated *stated = &record->stated;
    struct plm_dive_info info = *plm_dive_info_get(dive);
    info.diver = exposure->diver;
    if (isnan(info.surface_bar) && !isnan(stated->surface_bar)) {
        info.surface_bar = stated->surface_bar;
    } else if (isnan(info.surface_bar) && !isnan(stated->altitude_m)) {
        info.altitude_m = stated->altitude_m;
    }
    info.water_kg_m3 = isnan(stated->water_kg_m3) ? info.water_kg_m3 : stated->water_kg_m3;
    struct plm_card *card = NULL;
    enum plm_status status = card_read(&card, record->card);
    if (status == PLM_STATUS_OK) {
        status = plm_card_write(&info, card, sink);
    }
    plm_card_free(card);
    return status;
}
