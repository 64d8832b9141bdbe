/*
 * Whole numbers of many bits. Sizes are bounded by the callers; a carry out of
 * the array is a bug.
 * SPDX-License-Identifier: MIT
 */
#include "base/big.h"

#include <assert.h>
#include <string.h>

static void trim(struct plmi_big *big)
{
    while (big->count > 0 && big->limb[big->count - 1] == 0) {
        big->count--;
    }
}

static void push(struct plmi_big *big, uint32_t limb)
{
    assert(big->count < PLMI_BIG_LIMBS);
    big->limb[big->count++] = limb;
}

void plmi_big_set(struct plmi_big *big, uint64_t value)
{
    big->count = 2;
    big->limb[0] = (uint32_t)value;
    big->limb[1] = (uint32_t)(value >> 32);
    trim(big);
}

void plmi_big_scale(struct plmi_big *big, uint32_t factor, uint32_t term)
{
    uint64_t carry = term;
    for (size_t i = 0; i < big->count; i++) {
        carry += (uint64_t)big->limb[i] * factor;
        big->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry != 0) {
        push(big, (uint32_t)carry);
    }
}

void plmi_big_power10(struct plmi_big *big, unsigned exponent)
{
    for (; exponent >= 9; exponent -= 9) {
        plmi_big_scale(big, 1000000000U, 0);
    }
    for (; exponent > 0; exponent--) {
        plmi_big_scale(big, 10, 0);
    }
}

void plmi_big_shift(struct plmi_big *big, size_t bits)
{
    size_t limbs = bits / 32;
    plmi_big_scale(big, (uint32_t)1 << bits % 32, 0);
    if (limbs == 0 || big->count == 0) {
        return;
    }
    assert(big->count + limbs <= PLMI_BIG_LIMBS);
    memmove(big->limb + limbs, big->limb, big->count * sizeof big->limb[0]);
    memset(big->limb, 0, limbs * sizeof big->limb[0]);
    big->count += limbs;
}

size_t plmi_big_bits(const struct plmi_big *big)
{
    if (big->count == 0) {
        return 0;
    }
    size_t bits = (big->count - 1) * 32;
    for (uint32_t top = big->limb[big->count - 1]; top != 0; top >>= 1) {
        bits++;
    }
    return bits;
}

int plmi_big_compare(const struct plmi_big *a, const struct plmi_big *b)
{
    if (a->count != b->count) {
        return a->count < b->count ? -1 : 1;
    }
    for (size_t i = a->count; i-- > 0;) {
        if (a->limb[i] != b->limb[i]) {
            return a->limb[i] < b->limb[i] ? -1 : 1;
        }
    }
    return 0;
}

void plmi_big_add(struct plmi_big *a, const struct plmi_big *b)
{
    uint64_t carry = 0;
    while (a->count < b->count) {
        push(a, 0);
    }
    for (size_t i = 0; i < a->count; i++) {
        carry += (uint64_t)a->limb[i] + (i < b->count ? b->limb[i] : 0);
        a->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry != 0) {
        push(a, (uint32_t)carry);
    }
}

void plmi_big_subtract(struct plmi_big *a, const struct plmi_big *b)
{
    uint32_t borrow = 0;
    for (size_t i = 0; i < a->count; i++) {
        uint64_t taken = (uint64_t)(i < b->count ? b->limb[i] : 0) + borrow;
        borrow = a->limb[i] < taken ? 1 : 0;
        a->limb[i] = (uint32_t)(a->limb[i] - taken);
    }
    assert(borrow == 0);
    trim(a);
}

uint32_t plmi_big_divide(struct plmi_big *big, uint32_t divisor)
{
    uint64_t rest = 0;
    for (size_t i = big->count; i-- > 0;) {
        rest = rest << 32 | big->limb[i];
        big->limb[i] = (uint32_t)(rest / divisor);
        rest %= divisor;
    }
    trim(big);
    return (uint32_t)rest;
}
