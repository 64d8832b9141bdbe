/*
 * Heaps of dives for benchmarks: invented divers, invented days.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_MANY_H
#define PLM_GENERATE_MANY_H

#include <stdbool.h>
#include <stdint.h>

struct gen_many {
    int dives, divers; /* each diver dives twice a day at most, never two dives at once */
    uint64_t seed;
    double interval_s;  /* between samples                                               */
    const char *folder; /* a file a dive, UDDF and CSV by turns; or NULL                 */
    const char *file;   /* or all dives of one diver in one UDDF                         */
};

/* Says on stderr what fails. */
bool gen_many_write(const struct gen_many *many);

#endif
