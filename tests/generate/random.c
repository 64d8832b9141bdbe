/*
 * SplitMix64 (Steele, Lea, Flood 2014) and what is made of it. Must not call the machine's generators.
 * SPDX-License-Identifier: MIT
 */
#include "generate/random.h"

static uint64_t random_next(struct gen_random *random)
{
    random->state += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t z = random->state;
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

struct gen_random gen_random_named(uint64_t seed, const char *name)
{
    uint64_t hash = UINT64_C(0xcbf29ce484222325); /* FNV-1a */
    for (const char *p = name; *p != '\0'; p++) {
        hash = (hash ^ (unsigned char)*p) * UINT64_C(0x100000001b3);
    }
    struct gen_random random = {seed ^ hash};
    random_next(&random);
    return random;
}

double gen_random_uniform(struct gen_random *random)
{
    return (double)(random_next(random) >> 11) * 0x1p-53;
}

double gen_random_between(struct gen_random *random, double low, double high)
{
    return low + (high - low) * gen_random_uniform(random);
}

double gen_random_normal(struct gen_random *random)
{
    double sum = -6;
    for (int i = 0; i < 12; i++) {
        sum += gen_random_uniform(random);
    }
    return sum;
}
