/*
 * What a source tells of a whole dive, held against what can be: one table for every reader and for the builder.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_STATED_H
#define PLM_DIVE_STATED_H

#include <stdbool.h>

#include "base/diags.h"

enum plmi_stated {
    PLMI_TOLD_SURFACE,
    PLMI_TOLD_ALTITUDE,
    PLMI_TOLD_WATER,
    PLMI_TOLD_STEP,
    PLMI_TOLD_FACTOR,
    PLMI_TOLD_INTERVAL,
    PLMI_TOLD_SAMPLING
};

/* Whether a number lies within the limits of its kind; NaN does not. */
bool plmi_stated_possible(enum plmi_stated what, double value);
/* The number where it is possible, else NaN, which is reported unless nothing was stated. */
double plmi_stated_settle(enum plmi_stated what, double value, struct plmi_diags *diags, long line);

#endif
