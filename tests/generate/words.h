/*
 * Values of a description taken apart: words, numbers, durations, mixes.
 * Must not know what they are for.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_WORDS_H
#define PLM_GENERATE_WORDS_H

#include <stdbool.h>

#include <plimsoll/gas.h>

#define GEN_WORDS 8

/* One comma-separated part of a value: its words, each terminated. */
struct gen_part {
    char words[GEN_WORDS][64];
    int count;
};

/* Takes the next part off *rest. Returns: false at the end, or where it has too many or too long words. */
bool gen_part_next(struct gen_part *part, const char **rest);
bool gen_number(const char *word, double *value);
/* "75" or "1:15" or "1:02:30" in seconds; a leading minus is allowed. */
bool gen_duration(const char *word, double *seconds);
/* "0.18/0.45": oxygen and helium. */
bool gen_mix(const char *word, struct plm_mix *mix);

#endif
