/*
 * Editor: the loop at its set point over the stretch.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/editors.h"

#include <math.h>

/* Measurements that are there become the set point; unknown ones stay unknown and follow their neighbours. */
static void hold(struct plm_sample *sample, double setpoint_bar)
{
    if (!isnan(sample->po2_bar)) {
        sample->po2_bar = setpoint_bar;
    }
    for (int i = 0; i < PLM_CELLS; i++) {
        if (!isnan(sample->cell_bar[i])) {
            sample->cell_bar[i] = setpoint_bar;
        }
    }
}

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    double setpoint_bar = NAN;
    for (size_t i = plmi_review_edit_find(edit, finding->first_point);
         i < edit->count && edit->items[i].origin <= finding->last_point; i++) {
        const struct plm_setting *setting = plmi_review_setting(edit->original, edit->items[i].origin);
        if (setting->mode != PLM_MODE_CLOSED || isnan(setting->setpoint_bar)) {
            continue;
        }
        setpoint_bar = setting->setpoint_bar;
        hold(&edit->items[i].sample, setpoint_bar);
    }
    if (isnan(setpoint_bar)) {
        return PLM_STATUS_UNSOLVABLE;
    }
    *put_right =
        plm_finding_sentence(list, "set point of {2} bar held {w}", setpoint_bar, finding->from_s, finding->to_s);
    return PLM_STATUS_OK;
}

const struct plmi_review_editor plmi_review_edit_setpoint_not_held = {PLM_FINDING_SETPOINT_NOT_HELD, apply};
