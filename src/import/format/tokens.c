/*
 * Text into words: case, accents and signs taken off, so that one table of words fits all ways of writing.
 * Must not know any word.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/tokens.h"

#include <stdbool.h>
#include <string.h>

/* The letters U+00C0 to U+00FF without their marks; '.' is no letter. */
static const char LATIN_1[] = "aaaaaaaceeeeiiiidnooooo.ouuuuytsaaaaaaaceeeeiiiidnooooo.ouuuuyty";

/* One character at s as a plain lower-case letter, digit, '%', '#', or '.' for anything else. Sets how many bytes it
 * takes. */
static char plain(const unsigned char *s, size_t *bytes)
{
    *bytes = 1;
    if (s[0] < 0x80) {
        char c = (char)s[0];
        if (c >= 'A' && c <= 'Z') {
            return (char)(c - 'A' + 'a');
        }
        bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '%' || c == '#';
        return kept ? c : '.';
    }
    if ((s[0] == 0xc2 || s[0] == 0xc3) && s[1] >= 0x80 && s[1] < 0xc0) {
        *bytes = 2;
        return s[0] == 0xc3 ? LATIN_1[s[1] - 0x80] : '.';
    }
    if (s[0] == 0xe2 && s[1] == 0x82 && s[2] >= 0x80 && s[2] <= 0x89) { /* subscript digits, as in O2 */
        *bytes = 3;
        return (char)('0' + (s[2] - 0x80));
    }
    while (s[*bytes] >= 0x80 && s[*bytes] < 0xc0) {
        (*bytes)++;
    }
    return '.';
}

static bool is_upper(unsigned char c)
{
    return c >= 'A' && c <= 'Z';
}

static bool is_lower(unsigned char c)
{
    return c >= 'a' && c <= 'z';
}

static bool is_digit(unsigned char c)
{
    return c >= '0' && c <= '9';
}

/* "sampleTime" and "O2Fraction" are two words; "pO2", "kPa" and "mmHg" are one. */
static bool hump(const unsigned char *text, const unsigned char *at)
{
    return at - text >= 2 && is_upper(at[0]) && is_lower(at[1]) && is_lower(at[2]) &&
           (is_lower(at[-1]) || is_digit(at[-1]));
}

static void token_end(struct plmi_tokens *tokens, size_t *length)
{
    const size_t room = sizeof tokens->token / sizeof tokens->token[0];
    if (*length == 0) {
        return;
    }
    if (tokens->count < room) {
        tokens->token[tokens->count++][*length] = '\0';
    } else {
        tokens->dropped++;
    }
    *length = 0;
}

void plmi_tokens_split(struct plmi_tokens *tokens, const char *text)
{
    const size_t room = sizeof tokens->token / sizeof tokens->token[0];
    const size_t longest = sizeof tokens->token[0] - 1;
    const unsigned char *at = (const unsigned char *)text;
    size_t length = 0;
    tokens->count = 0;
    tokens->dropped = 0;
    while (*at != '\0') {
        size_t bytes;
        char c = plain(at, &bytes);
        bool sign = c == '%' || c == '#';
        if (c == '.' || sign || hump((const unsigned char *)text, at)) {
            token_end(tokens, &length);
        }
        if (c != '.' && length < longest) {
            if (tokens->count < room) {
                tokens->token[tokens->count][length] = c;
            }
            length++;
        }
        if (sign) {
            token_end(tokens, &length);
        }
        at += bytes;
    }
    token_end(tokens, &length);
}
