/*
 * UTF-8: where a sequence is well formed, and what it encodes. Must not know what is done with it.
 * SPDX-License-Identifier: MIT
 */
#include "base/utf8.h"

/* Well-formed sequences, one row for each range of the first byte: length, range of the second byte.
 * Source: The Unicode Standard, table 3-7. */
static const struct {
    unsigned char from, to, length, second_min, second_max;
} utf8_rows[] = {
    {0x00, 0x7f, 1, 0x00, 0x00}, {0xc2, 0xdf, 2, 0x80, 0xbf}, {0xe0, 0xe0, 3, 0xa0, 0xbf},
    {0xe1, 0xec, 3, 0x80, 0xbf}, {0xed, 0xed, 3, 0x80, 0x9f}, {0xee, 0xef, 3, 0x80, 0xbf},
    {0xf0, 0xf0, 4, 0x90, 0xbf}, {0xf1, 0xf3, 4, 0x80, 0xbf}, {0xf4, 0xf4, 4, 0x80, 0x8f},
};

size_t plmi_utf8_length(const char *s, size_t n)
{
    if (n == 0) {
        return 0;
    }
    const unsigned char *bytes = (const unsigned char *)s;
    size_t row = 0;
    while (row < sizeof utf8_rows / sizeof utf8_rows[0] && bytes[0] > utf8_rows[row].to) {
        row++;
    }
    if (row == sizeof utf8_rows / sizeof utf8_rows[0] || bytes[0] < utf8_rows[row].from) {
        return 0;
    }
    size_t length = utf8_rows[row].length;
    if (length > n) {
        return 0;
    }
    if (length > 1 && (bytes[1] < utf8_rows[row].second_min || bytes[1] > utf8_rows[row].second_max)) {
        return 0;
    }
    for (size_t i = 2; i < length; i++) {
        if ((bytes[i] & 0xc0) != 0x80) {
            return 0;
        }
    }
    return length;
}

unsigned long plmi_utf8_code(const char *s, size_t length)
{
    static const unsigned char FIRST_MASKS[] = {0, 0x7f, 0x1f, 0x0f, 0x07};
    unsigned long code = (unsigned char)s[0] & FIRST_MASKS[length];
    for (size_t i = 1; i < length; i++) {
        code = code << 6 | ((unsigned char)s[i] & 0x3f);
    }
    return code;
}
