/*
 * A stored dive's card. Must not say more than what was stated.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/logbook.h>

bool plm_stated_any(const struct plm_stated *stated)
{
    return stated->diver != NULL || stated->start != NULL || stated->zone != NULL || !isnan(stated->surface_bar) ||
           !isnan(stated->altitude_m) || !isnan(stated->water_kg_m3);
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
    return plm_card_write(&info, sink);
}
