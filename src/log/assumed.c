/*
 * Conventions that stand in for what a log lacks. Must not change the dive.
 * SPDX-License-Identifier: MIT
 */
#include "log/assumed.h"

#include <math.h>

/* Whether the dive holds what only a rebreather records. */
static bool speaks_of_a_loop(const struct plm_dive *dive)
{
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (!isnan(settings[i].setpoint_bar)) {
            return true;
        }
    }
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (!isnan(samples[i].po2_bar) || !isnan(samples[i].cell_bar[0])) {
            return true;
        }
    }
    return false;
}

bool plmi_assumed_mode(const struct plm_dive *dive)
{
    return !plm_dive_info_get(dive)->mode_known && speaks_of_a_loop(dive);
}

void plmi_assumed_tell(const struct plmi_diags *diags, const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    if (!info->gas_known) {
        plmi_diags_add(
            diags, PLM_LEVEL_WARNING, PLM_DIAG_GAS_ASSUMED, (long)info->line, 0,
            "dive %d: no breathing gas is recorded at its start; air is taken (a dive card can tell the gas)",
            info->index);
    }
    if (plmi_assumed_mode(dive)) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_MODE, (long)info->line, 0,
                       "dive %d: set points or cells are recorded and no breathing mode; open circuit is taken (a "
                       "dive card can tell the mode)",
                       info->index);
    }
}
