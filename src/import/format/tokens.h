/*
 * Text as people write it, split into plain words that a table of words can hold. Knows no word.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_TOKENS_H
#define PLM_IMPORT_FORMAT_TOKENS_H

#include <stddef.h>

/* Words of a text. */
struct plmi_tokens {
    size_t count;
    char token[16][32];
    size_t dropped;
};

/*
 * Splits a text into words: lower case, accents and signs taken off, "timeOfDay" and "time_of_day" alike; "%" and "#"
 * are words.
 *   tokens->dropped [out]  words that found no room
 */
void plmi_tokens_split(struct plmi_tokens *tokens, const char *text);

#endif
