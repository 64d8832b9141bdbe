/*
 * A stored dive's card. Must not say more than what was told.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/logbook.h>

bool plm_told_any(const struct plm_told *told)
{
    return told->diver != NULL || told->start != NULL || told->zone != NULL || !isnan(told->surface_bar) ||
           !isnan(told->altitude_m) || !isnan(told->water_kg_m3);
}

enum plm_status plm_logbook_card_write(const struct plm_exposure *exposure, const struct plm_record *record,
                                       const struct plm_dive *dive, const struct plm_sink *sink)
{
    const struct plm_told *told = &record->told;
    struct plm_dive_info info = *plm_dive_info_get(dive);
    info.diver = exposure->diver;
    if (isnan(info.surface_bar) && !isnan(told->surface_bar)) {
        info.surface_bar = told->surface_bar;
    } else if (isnan(info.surface_bar) && !isnan(told->altitude_m)) {
        info.altitude_m = told->altitude_m;
    }
    info.water_kg_m3 = isnan(told->water_kg_m3) ? info.water_kg_m3 : told->water_kg_m3;
    return plm_card_write(&info, sink);
}
