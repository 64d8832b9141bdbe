/*
 * Seeded random numbers that are the same on every machine: integers and additions only.
 * Must not be used where secrets matter.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_RANDOM_H
#define PLM_GENERATE_RANDOM_H

#include <stdint.h>

struct gen_random {
    uint64_t state;
};

/* A stream of its own for each name, so that one more dive does not change the others. */
struct gen_random gen_random_named(uint64_t seed, const char *name);
/* 0 <= x < 1 */
double gen_random_uniform(struct gen_random *random);
double gen_random_between(struct gen_random *random, double low, double high);
/* Mean 0, deviation 1, never beyond 6: the sum of 12 uniform numbers, less 6. */
double gen_random_normal(struct gen_random *random);

#endif
