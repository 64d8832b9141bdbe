/*
 * Seeded random numbers for tests: the same on every machine.
 * Source: splitmix64, Steele, Lea and Flood 2014.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_RANDOM_H
#define PLM_SUPPORT_RANDOM_H

#include <stdint.h>

struct seeded {
    uint64_t state;
};

/* 0 <= x < 1. */
static inline double seeded_uniform(struct seeded *seeded)
{
    seeded->state += UINT64_C(0x9E3779B97F4A7C15);
    uint64_t z = seeded->state;
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

static inline double seeded_between(struct seeded *seeded, double low, double high)
{
    return low + (high - low) * seeded_uniform(seeded);
}

#endif
