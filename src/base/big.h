/*
 * Whole numbers of up to 5120 bits, just what exact reading and writing of doubles needs.
 * Must not grow into a library of its own: no sign, no long division.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_BIG_H
#define PLM_BASE_BIG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { PLMI_BIG_LIMBS = 160 };

/* Value: sum of limb[i] 2^(32 i), i < count; no leading zero limb. */
struct plmi_big {
    uint32_t limb[PLMI_BIG_LIMBS];
    size_t count;
};

void plmi_big_set(struct plmi_big *big, uint64_t value);
/* big = big * factor + term */
void plmi_big_scale(struct plmi_big *big, uint32_t factor, uint32_t term);
/* big *= 10^exponent */
void plmi_big_power10(struct plmi_big *big, unsigned exponent);
void plmi_big_shift(struct plmi_big *big, size_t bits);
/* Number of bits, 0 for zero. */
size_t plmi_big_bits(const struct plmi_big *big);
/* Sign of a - b. */
int plmi_big_compare(const struct plmi_big *a, const struct plmi_big *b);
/* a += b */
void plmi_big_add(struct plmi_big *a, const struct plmi_big *b);
/* a -= b; a >= b */
void plmi_big_subtract(struct plmi_big *a, const struct plmi_big *b);
/* big = big / divisor; returns the remainder. */
uint32_t plmi_big_divide(struct plmi_big *big, uint32_t divisor);

#endif
