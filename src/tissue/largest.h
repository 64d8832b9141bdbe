/*
 * The largest of 16 values, one a compartment, in plain arithmetic that vectorises.
 * Must not know what the values mean.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_LARGEST_H
#define PLM_TISSUE_LARGEST_H

#include <math.h>
#include <stddef.h>

#include <plimsoll/tissue.h>

#include "tissue/wide.h"

_Static_assert(PLM_COMPARTMENTS == 16, "the largest is found by halving 16 compartments");

/*
 * The largest of the compartments, halving them without a branch, so that it vectorises; NaN where
 * any is no finite number (a comparison would lose it, a difference with itself does not).
 */
PLMI_INSIDE double plmi_largest_finite(const double value[restrict PLM_COMPARTMENTS])
{
    double most[8], rest[8];
    for (int i = 0; i < 8; i++) {
        most[i] = value[i] > value[i + 8] ? value[i] : value[i + 8];
    }
    for (int i = 0; i < 8; i++) {
        rest[i] = (value[i] - value[i]) + (value[i + 8] - value[i + 8]);
    }
    for (int i = 0; i < 4; i++) {
        most[i] = most[i] > most[i + 4] ? most[i] : most[i + 4];
    }
    for (int i = 0; i < 4; i++) {
        rest[i] += rest[i + 4];
    }
    for (int i = 0; i < 2; i++) {
        most[i] = most[i] > most[i + 2] ? most[i] : most[i + 2];
    }
    for (int i = 0; i < 2; i++) {
        rest[i] += rest[i + 2];
    }
    return (most[0] > most[1] ? most[0] : most[1]) + (rest[0] + rest[1]);
}

/* The largest and which it is (the first of equals); a NaN comes through as the largest. leading may be NULL. */
PLMI_INSIDE double plmi_largest(const double value[PLM_COMPARTMENTS], int *leading)
{
    double largest = plmi_largest_finite(value);
    int at = 0;
    if (leading == NULL && !isnan(largest)) {
        return largest;
    }
    if (!isnan(largest)) {
        while (value[at] != largest) {
            at++;
        }
    } else {
        for (int i = 1; i < PLM_COMPARTMENTS && !isnan(value[at]); i++) {
            at = value[i] <= value[at] ? at : i;
        }
    }
    if (leading != NULL) {
        *leading = at;
    }
    return value[at];
}

#endif
