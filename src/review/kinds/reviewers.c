/*
 * The table of reviewers, in the order of enum plm_finding_kind, and what it says of them.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

static const struct plm_reviewer *const table[] = {
    &plmi_review_ceiling_exceeded, &plmi_review_m_value_exceeded,
    &plmi_review_stop_cut_short,   &plmi_review_surfaced_owing_stops,
    &plmi_review_ascent_rate,      &plmi_review_oxygen_high,
    &plmi_review_oxygen_low,       &plmi_review_cns_single,
    &plmi_review_cns_day,          &plmi_review_otu_day,
    &plmi_review_otu_days,         &plmi_review_gas_density,
    &plmi_review_narcotic_depth,   &plmi_review_counterdiffusion,
    &plmi_review_mix_too_deep,     &plmi_review_setpoint_not_held,
    &plmi_review_cells_disagree,   &plmi_review_plan_deeper,
    &plmi_review_plan_longer,      &plmi_review_plan_rate,
    &plmi_review_plan_mix,         &plmi_review_plan_setpoint,
    &plmi_review_plan_stop,        &plmi_review_recorders_disagree,
    &plmi_review_log_gap,          &plmi_review_clock_doubt,
    &plmi_review_esot_day,         &plmi_review_left_loop,
    &plmi_review_descended_again,
};

const struct plm_reviewer *const *plmi_review_table(size_t *count)
{
    *count = sizeof table / sizeof table[0];
    return table;
}

static const struct plm_reviewer *of(enum plm_finding_kind kind)
{
    static const struct plm_reviewer none = {.kind = "", .unit = "", .meaning = ""};
    return (int)kind >= 0 && kind < PLM_FINDING_COUNT ? table[kind] : &none;
}

const char *plm_finding_kind_text(enum plm_finding_kind kind)
{
    return of(kind)->kind;
}

const char *plm_finding_kind_unit(enum plm_finding_kind kind)
{
    return of(kind)->unit;
}

const char *plm_finding_kind_meaning(enum plm_finding_kind kind)
{
    return of(kind)->meaning;
}

const struct plm_explanation *plm_finding_explain(enum plm_finding_kind kind)
{
    return of(kind)->explanation;
}
