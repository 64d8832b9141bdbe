/*
 * Which diagnostics speak of something that was left out, for those who choose what to show. No reading goes by it:
 * a reader knows by itself what it left out.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/import.h>

/* Kinds of diagnostics that say, as warnings, that something of the input is not in the dives. */
static const bool LOSES[PLM_DIAG_COUNT] = {
    [PLM_DIAG_READ] = true,         [PLM_DIAG_GZIP] = true,          [PLM_DIAG_LIMIT] = true,
    [PLM_DIAG_ENCODING] = true,     [PLM_DIAG_CSV_SYNTAX] = true,    [PLM_DIAG_CSV_COLUMNS] = true,
    [PLM_DIAG_XML_SYNTAX] = true,   [PLM_DIAG_XML_ELEMENT] = true,   [PLM_DIAG_NUMBER] = true,
    [PLM_DIAG_RANGE] = true,        [PLM_DIAG_STAMP] = true,         [PLM_DIAG_TIME_ORDER] = true,
    [PLM_DIAG_TIME_MISSING] = true, [PLM_DIAG_DEPTH_MISSING] = true, [PLM_DIAG_MIX] = true,
    [PLM_DIAG_MIX_UNKNOWN] = true,  [PLM_DIAG_MODE] = true,          [PLM_DIAG_SETPOINT] = true,
    [PLM_DIAG_PO2] = true,          [PLM_DIAG_REFERENCE] = true,     [PLM_DIAG_DIVE_SKIPPED] = true,
    [PLM_DIAG_GAP] = true,
};

bool plm_import_loses(const struct plm_diag *diag)
{
    return diag->level == PLM_LEVEL_ERROR || (diag->level == PLM_LEVEL_WARNING && LOSES[diag->id]);
}
