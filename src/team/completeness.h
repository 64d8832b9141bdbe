/*
 * How complete a record is. Looks at what is there, judges nothing of the dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_COMPLETENESS_H
#define PLM_TEAM_COMPLETENESS_H

#include "team/series.h"

struct plmi_completeness {
    double covered_s, step_s;
    long gaps;
    size_t cells;
    bool gas, stamp;
};

struct plmi_completeness plmi_completeness_of(const struct plm_dive *dive, const struct plmi_series *series);

/* Longer first (by more than two minutes), then the gas, the cells, finer sampling, a clock. Above 0: a is worth more;
 * 0: alike. */
double plmi_completeness_compare(const struct plmi_completeness *a, const struct plmi_completeness *b);

#endif
