/*
 * All reviewers by name; each is defined in its own file and listed in reviewers.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_KINDS_REVIEWERS_H
#define PLM_REVIEW_KINDS_REVIEWERS_H

#include "review/scene/list.h"
#include "review/scene/scene.h"
#include "review/scene/stretch.h"

extern const struct plm_reviewer plmi_review_ceiling_exceeded, plmi_review_m_value_exceeded, plmi_review_stop_cut_short,
    plmi_review_surfaced_owing_stops, plmi_review_ascent_rate, plmi_review_oxygen_high, plmi_review_oxygen_low,
    plmi_review_cns_single, plmi_review_cns_day, plmi_review_otu_day, plmi_review_otu_days, plmi_review_gas_density,
    plmi_review_narcotic_depth, plmi_review_counterdiffusion, plmi_review_mix_too_deep, plmi_review_setpoint_not_held,
    plmi_review_cells_disagree, plmi_review_plan_deeper, plmi_review_plan_longer, plmi_review_plan_rate,
    plmi_review_plan_mix, plmi_review_plan_setpoint, plmi_review_plan_stop, plmi_review_recorders_disagree,
    plmi_review_log_gap, plmi_review_clock_doubt, plmi_review_esot_day, plmi_review_left_loop,
    plmi_review_descended_again;

/* All reviewers of the library, in the order of enum plm_finding_kind. */
const struct plm_reviewer *const *plmi_review_table(size_t *count);

#endif
