/*
 * All editors by name; each is defined in its own file and listed in editors.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_EDITS_EDITORS_H
#define PLM_REVIEW_EDITS_EDITORS_H

#include "review/edits/edit.h"

extern const struct plmi_review_editor plmi_review_edit_plan_deeper, plmi_review_edit_setpoint_not_held,
    plmi_review_edit_plan_longer, plmi_review_edit_ascent_rate, plmi_review_edit_stop_cut_short,
    plmi_review_edit_ceiling_exceeded, plmi_review_edit_descended_again;

#endif
