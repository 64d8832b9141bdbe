/*
 * The constants of ZH-L16: half-times and limits of 16 compartments, variants A, B and C.
 * Rows 1b and 2 to 16: of the alternatives 4 and 5 min the first row is the one of 5 min.
 * Must not compute anything.
 * SPDX-License-Identifier: MIT
 *
 * Sources: A. A. Buehlmann, Tauchmedizin, 4th edition 1995; Buehlmann, Voellm, Nussberger,
 * Tauchmedizin, 5th edition 2002.
 * N2 half-times, b and the a of variant A: as printed in encyclopaedias, seen. They follow
 * a = 2 bar T^(-1/3), b = 1.005 - T^(-1/2) with T in min, but for b of row 4: the formula gives
 * 0.7725, the table 0.7825, which is kept (slope 1.2780 of the published M-values).
 * N2 a of variants B and C, row 1b, helium rows: widely printed values, from memory; B and helium
 * agree with E. C. Baker's M-values (1998) to the printed digit.
 */
#include <stddef.h>

#include <plimsoll/tissue.h>

/* Each list: compartments 1b, 2 .. 8, then 9 .. 16. */
/* clang-format off */

/* [min] */
#define N2_HALF_TIME_MIN \
    { 5.0, 8.0, 12.5, 18.5, 27.0, 38.3, 54.3, 77.0, \
      109.0, 146.0, 187.0, 239.0, 305.0, 390.0, 498.0, 635.0 }

/* [bar] variant A: as derived; B: for tables; C: for recorders. */
#define N2_A_OF_A_BAR \
    { 1.1696, 1.0000, 0.8618, 0.7562, 0.6667, 0.5933, 0.5282, 0.4701, \
      0.4187, 0.3798, 0.3497, 0.3223, 0.2971, 0.2737, 0.2523, 0.2327 }
#define N2_A_OF_B_BAR \
    { 1.1696, 1.0000, 0.8618, 0.7562, 0.6667, 0.5600, 0.4947, 0.4500, \
      0.4187, 0.3798, 0.3497, 0.3223, 0.2850, 0.2737, 0.2523, 0.2327 }
#define N2_A_OF_C_BAR \
    { 1.1696, 1.0000, 0.8618, 0.7562, 0.6200, 0.5043, 0.4410, 0.4000, \
      0.3750, 0.3500, 0.3295, 0.3065, 0.2835, 0.2610, 0.2480, 0.2327 }

/* dimensionless */
#define N2_B \
    { 0.5578, 0.6514, 0.7222, 0.7825, 0.8126, 0.8434, 0.8693, 0.8910, \
      0.9092, 0.9222, 0.9319, 0.9403, 0.9477, 0.9544, 0.9602, 0.9653 }

/* Helium, the same in all variants: [min], [bar], dimensionless. */
#define HE_HALF_TIME_MIN \
    { 1.88, 3.02, 4.72, 6.99, 10.21, 14.48, 20.53, 29.11, \
      41.20, 55.19, 70.69, 90.34, 115.29, 147.42, 188.24, 240.03 }
#define HE_A_BAR \
    { 1.6189, 1.3830, 1.1919, 1.0458, 0.9220, 0.8205, 0.7305, 0.6502, \
      0.5950, 0.5545, 0.5333, 0.5189, 0.5181, 0.5176, 0.5172, 0.5119 }
#define HE_B \
    { 0.4770, 0.5747, 0.6527, 0.7223, 0.7582, 0.7957, 0.8279, 0.8553, \
      0.8757, 0.8903, 0.8997, 0.9073, 0.9122, 0.9171, 0.9217, 0.9267 }

#define VARIANT(letter) \
    { .name = "ZH-L16" #letter, \
      .n2_half_time_min = N2_HALF_TIME_MIN, .n2_a_bar = N2_A_OF_##letter##_BAR, .n2_b = N2_B, \
      .he_half_time_min = HE_HALF_TIME_MIN, .he_a_bar = HE_A_BAR, .he_b = HE_B }

static const struct plm_zhl16 variants[] = { VARIANT(A), VARIANT(B), VARIANT(C) };
/* clang-format on */

const struct plm_zhl16 *plm_zhl16_get(int variant)
{
    int known = variant >= 0 && (size_t)variant < sizeof variants / sizeof variants[0];
    return known ? &variants[variant] : NULL;
}
