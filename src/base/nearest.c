/*
 * Levenshtein's distance between words, and the word that is nearest by it.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/nearest.h>
#include <stdint.h>
#include <string.h>

/* Words as long or longer count as apart as they are long. */
enum { DISTANCE_MAX = 64 };

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static size_t distance(const char *a, const char *b)
{
    size_t length_a = strlen(a);
    size_t length_b = strlen(b);
    if (length_a >= DISTANCE_MAX || length_b >= DISTANCE_MAX) {
        return length_a > length_b ? length_a : length_b;
    }
    size_t row[DISTANCE_MAX]; /* [length of b + 1] distances to the first j bytes of b */
    for (size_t j = 0; j <= length_b; j++) {
        row[j] = j;
    }
    for (size_t i = 1; i <= length_a; i++) {
        size_t corner = row[0];
        row[0] = i;
        for (size_t j = 1; j <= length_b; j++) {
            size_t swap = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
            corner = row[j];
            row[j] = least(swap, least(row[j], row[j - 1]) + 1);
        }
    }
    return row[length_b];
}

struct plm_nearest plm_nearest_begin(const char *word)
{
    return (struct plm_nearest){word, NULL, SIZE_MAX};
}

void plm_nearest_offer(struct plm_nearest *nearest, const char *known)
{
    size_t apart = distance(nearest->word, known);
    if (nearest->known == NULL || apart < nearest->distance) {
        nearest->known = known;
        nearest->distance = apart;
    }
}
