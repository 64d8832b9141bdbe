/*
 * Evidence of an encoding. Must not report: who decodes does.
 * Source: Unicode 15, 23.8 (byte order mark); XML 1.0, appendix F (detection of encodings).
 * SPDX-License-Identifier: MIT
 */
#include "syntax/evidence.h"

#include <string.h>

enum { UTF16_LOOK_BYTES = 4096, DECLARATION_BYTES = 512 };

static const struct {
    struct plmi_encoding encoding;
    unsigned char mark[4];
} marks[] = {
    {{"UTF-32LE", 4, 4}, {0xff, 0xfe, 0x00, 0x00}},
    {{"UTF-32BE", 4, 4}, {0x00, 0x00, 0xfe, 0xff}},
    {{"UTF-16LE", 2, 2}, {0xff, 0xfe}},
    {{"UTF-16BE", 2, 2}, {0xfe, 0xff}},
    {{"UTF-8", 1, 3}, {0xef, 0xbb, 0xbf}},
};

/* Text in Western writing has a zero in every other byte, and never in the others. */
static struct plmi_encoding find_utf16(const unsigned char *bytes, size_t count)
{
    size_t pairs = (count < UTF16_LOOK_BYTES ? count : (size_t)UTF16_LOOK_BYTES) / 2;
    size_t even = 0;
    size_t odd = 0;
    for (size_t i = 0; i < pairs; i++) {
        even += bytes[2 * i] == 0 ? 1 : 0;
        odd += bytes[2 * i + 1] == 0 ? 1 : 0;
    }
    if (pairs >= 2 && odd * 2 > pairs && even * 20 <= pairs) {
        return (struct plmi_encoding){"UTF-16LE", 2, 0};
    }
    if (pairs >= 2 && even * 2 > pairs && odd * 20 <= pairs) {
        return (struct plmi_encoding){"UTF-16BE", 2, 0};
    }
    return (struct plmi_encoding){NULL, 1, 0};
}

struct plmi_encoding plmi_encoding_find(const unsigned char *bytes, size_t count)
{
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        size_t length = marks[i].encoding.mark_bytes;
        if (count >= length && memcmp(bytes, marks[i].mark, length) == 0) {
            return marks[i].encoding;
        }
    }
    return find_utf16(bytes, count);
}

static bool is_blank(unsigned char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static bool is_name(unsigned char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           c == '.' || c == ':';
}

/* Behind the word `encoding`: blanks, =, blanks, a quoted name. */
static bool read_name(const unsigned char *at, const unsigned char *end, char name[PLMI_ENCODING_NAME_BYTES])
{
    while (at < end && is_blank(*at)) {
        at++;
    }
    if (at == end || *at++ != '=') {
        return false;
    }
    while (at < end && is_blank(*at)) {
        at++;
    }
    if (at == end || (*at != '"' && *at != '\'')) {
        return false;
    }
    unsigned char quote = *at++;
    size_t length = 0;
    for (; at < end && is_name(*at) && length + 1 < PLMI_ENCODING_NAME_BYTES; at++) {
        name[length++] = (char)*at;
    }
    name[length] = '\0';
    return length > 0 && at < end && *at == quote;
}

bool plmi_encoding_declared(const unsigned char *bytes, size_t count, char name[PLMI_ENCODING_NAME_BYTES])
{
    static const char opening[] = "<?xml";
    static const char word[] = "encoding";
    const unsigned char *at = bytes;
    const unsigned char *end = bytes + (count < DECLARATION_BYTES ? count : (size_t)DECLARATION_BYTES);
    while (at < end && is_blank(*at)) {
        at++;
    }
    if ((size_t)(end - at) < sizeof opening || memcmp(at, opening, sizeof opening - 1) != 0) {
        return false;
    }
    for (; (size_t)(end - at) > sizeof word && *at != '>'; at++) {
        if (memcmp(at, word, sizeof word - 1) == 0) {
            return read_name(at + sizeof word - 1, end, name);
        }
    }
    return false;
}
