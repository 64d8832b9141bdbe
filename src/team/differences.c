/*
 * The table of looks, and what a difference weighs.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>

/* From here on a difference of ceilings or of decompression owed is a caution. */
#define BEARS_M   1.0
#define BEARS_MIN 1.0

static const struct {
    const char *word;
    plmi_difference_look *look;
} LOOKS[PLM_DIFFERENCE_COUNT] = {
    [PLM_DIFFERENCE_SETPOINT] = {"setpoint", plmi_differ_setpoint},
    [PLM_DIFFERENCE_MIX] = {"mix", plmi_differ_mix},
    [PLM_DIFFERENCE_MODE] = {"mode", plmi_differ_mode},
    [PLM_DIFFERENCE_MEASURED] = {"measured-po2", plmi_differ_measured},
    [PLM_DIFFERENCE_DEPTH] = {"depth", plmi_differ_depth},
    [PLM_DIFFERENCE_GAP] = {"gap", plmi_differ_gap},
    [PLM_DIFFERENCE_SURFACE] = {"surface-pressure", plmi_differ_surface},
    [PLM_DIFFERENCE_CLOCK] = {"clock", plmi_differ_clock},
    [PLM_DIFFERENCE_DIVER] = {"diver", plmi_differ_diver},
};

const char *plm_difference_kind_text(enum plm_difference_kind kind)
{
    return kind < PLM_DIFFERENCE_COUNT ? LOOKS[kind].word : "unknown";
}

/* What a disagreement weighs: by what it did, and a wrong name by itself. */
static enum plm_severity severity_of(const struct plm_difference *difference)
{
    bool bears = fabs(difference->ceiling_m) >= BEARS_M || fabs(difference->decompression_min) >= BEARS_MIN;
    return bears || difference->kind == PLM_DIFFERENCE_DIVER ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
}

enum plm_status plmi_differences_find(const struct plmi_comparison *comparison, struct plmi_difference_list *list)
{
    for (int kind = 0; kind < PLM_DIFFERENCE_COUNT; kind++) {
        enum plm_status status = LOOKS[kind].look(comparison, list);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    for (size_t i = 0; i < list->count; i++) {
        list->items[i].severity = severity_of(&list->items[i]);
    }
    return PLM_STATUS_OK;
}
