/*
 * All reviewers by name; each is defined in its own file and listed in reviewers.c.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_REVIEWERS_H
#define PLM_REVIEW_REVIEWERS_H

#include "review/reviewer.h"

extern const struct plmi_reviewer plmi_review_ceiling_exceeded, plmi_review_m_value_exceeded, plmi_review_surfaced_owing_stops,
    plmi_review_ascent_rate, plmi_review_oxygen_high, plmi_review_oxygen_low, plmi_review_cns_single, plmi_review_otu_day,
    plmi_review_log_gap;

#endif
