/*
 * The table of editors, in the order in which they are applied together: first what changes depth and gas, then what
 * changes time, then what looks at the ceiling of the result.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/editors.h"

static const struct plmi_review_editor *const table[] = {
    &plmi_review_edit_descended_again,  &plmi_review_edit_plan_deeper, &plmi_review_edit_setpoint_not_held,
    &plmi_review_edit_plan_longer,      &plmi_review_edit_ascent_rate, &plmi_review_edit_stop_cut_short,
    &plmi_review_edit_ceiling_exceeded,
};

const struct plmi_review_editor *const *plmi_review_editors(size_t *count)
{
    *count = sizeof table / sizeof table[0];
    return table;
}

const struct plmi_review_editor *plmi_review_editor_of(enum plm_finding_kind kind)
{
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        if (table[i]->kind == kind) {
            return table[i];
        }
    }
    return NULL;
}
