/*
 * How complete a record is. Looks at what is there, judges nothing of the dive.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_WORTH_H
#define PLM_TEAM_WORTH_H

#include "team/series.h"

struct plmi_worth {
    double covered_s, step_s;
    long gaps;
    int cells;
    bool gas, stamp;
};

struct plmi_worth plmi_worth_of(const struct plm_dive *dive, const struct plmi_series *series);

/* Longer first (by more than two minutes), then the gas, the cells, finer sampling, a clock. Above 0: a is worth more;
 * 0: alike. */
double plmi_worth_compare(const struct plmi_worth *a, const struct plmi_worth *b);

#endif
