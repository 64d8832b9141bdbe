/*
 * Values of a description taken apart. Must not know what they are for.
 * SPDX-License-Identifier: MIT
 */
#include "generate/words.h"

#include <string.h>

#include "base/number.h"

bool gen_part_next(struct gen_part *part, const char **rest)
{
    part->count = 0;
    const char *p = *rest;
    while (*p != '\0' && *p != ',') {
        size_t n = strcspn(p, " ,\n");
        if (n > 0) {
            if (part->count == GEN_WORDS || n >= sizeof part->words[0]) {
                return false;
            }
            memcpy(part->words[part->count], p, n);
            part->words[part->count++][n] = '\0';
        }
        p += n;
        p += strspn(p, " \n");
    }
    *rest = *p == ',' ? p + 1 : p;
    return part->count > 0;
}

bool gen_number(const char *word, double *value)
{
    return plmi_number_parse(word, strlen(word), '.', value);
}

bool gen_duration(const char *word, double *seconds)
{
    bool minus = *word == '-';
    double sum = 0;
    for (const char *p = word + minus;;) {
        size_t n = strcspn(p, ":");
        double value;
        if (!plmi_number_parse(p, n, '.', &value)) {
            return false;
        }
        sum = sum * 60 + value;
        if (p[n] == '\0') {
            *seconds = minus ? -sum : sum;
            return true;
        }
        p += n + 1;
    }
}

bool gen_mix(const char *word, struct plm_mix *mix)
{
    const char *slash = strchr(word, '/');
    if (slash == NULL || !plmi_number_parse(word, (size_t)(slash - word), '.', &mix->o2_frac) ||
        !gen_number(slash + 1, &mix->he_frac)) {
        return false;
    }
    mix->n2_frac = 1 - mix->o2_frac - mix->he_frac;
    return mix->o2_frac > 0 && mix->he_frac >= 0 && mix->n2_frac > -1e-9;
}
