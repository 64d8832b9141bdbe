/*
 * The exponential of the compartments: 1 - exp(-x) in plain arithmetic, so that loops over compartments
 * vectorise and every x86-64 gives the same digits, whatever its libm chooses.
 * Must not branch on its argument.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TISSUE_EXPONENT_H
#define PLM_TISSUE_EXPONENT_H

#include <stdint.h>
#include <string.h>

#include "tissue/wide.h"

/*
 * 1 - exp(-x).
 *   x  0 .. 700; beyond, no number that means anything; NaN gives NaN
 * Returns: 0..1, relative error below 4e-16 from x = 0 on.
 * Method: -x = r - n ln 2 with |r| <= ln 2 / 2; exp(r) - 1 by its Taylor series to degree 13, whose
 * rest is below 1e-17; 2^-n by bits of the exponent.
 */
PLMI_INSIDE double plmi_gain(double x)
{
    const double log2_e = 1.4426950408889634;
    /* ln 2 in two parts, the first with 33 bits, so that n times it is exact. */
    const double ln2_high = 0x1.62e42feep-1, ln2_low = 0x1.a39ef35793c76p-33;
    /* Adding this rounds to the nearest whole number and leaves it in the low bits. */
    const double rounder = 0x1.8p52;
    double shifted = x * log2_e + rounder;
    double n = shifted - rounder;
    double r = (n * ln2_high - x) + n * ln2_low;
    /* Terms in pairs and pairs of pairs: half the steps wait for another. */
    double r2 = r * r, r4 = r2 * r2, r8 = r4 * r4;
    double p0 = (0.5 + r * (1.0 / 6.0)) + r2 * (1.0 / 24.0 + r * (1.0 / 120.0));
    double p4 = (1.0 / 720.0 + r * (1.0 / 5040.0)) + r2 * (1.0 / 40320.0 + r * (1.0 / 362880.0));
    double p8 = (1.0 / 3628800.0 + r * (1.0 / 39916800.0)) + r2 * (1.0 / 479001600.0 + r * (1.0 / 6227020800.0));
    double p = (p0 + r4 * p4) + r8 * p8;
    double less_one = r + r2 * p;
    uint64_t bits;
    memcpy(&bits, &shifted, sizeof bits);
    bits = (UINT64_C(1023) - bits) << 52;
    double scale;
    memcpy(&scale, &bits, sizeof scale);
    return (1.0 - scale) - scale * less_one;
}

#endif
