/*
 * Characters that steer a terminal, and what is shown in their place. Must not know where a text goes.
 * SPDX-License-Identifier: MIT
 */
#include "base/plain.h"

#include <plimsoll/text.h>

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"

/* Source: The Unicode Standard 15.0, DerivedGeneralCategory.txt (Cc, Zl, Zp) and PropList.txt (Bidi_Control). */
static const struct {
    unsigned long from, to;
} STEERING[] = {
    {0x00, 0x1f}, {0x7f, 0x9f}, {0x061c, 0x061c}, {0x200e, 0x200f}, {0x2028, 0x202e}, {0x2066, 0x2069},
};

bool plmi_steers(unsigned long code)
{
    for (size_t i = 0; i < sizeof STEERING / sizeof STEERING[0]; i++) {
        if (code >= STEERING[i].from && code <= STEERING[i].to) {
            return true;
        }
    }
    return false;
}

size_t plmi_plain_length(const char *s, size_t n)
{
    size_t at = 0;
    while (at < n) {
        unsigned char first = (unsigned char)s[at];
        size_t length = 1;
        if (first < 0x20 || first >= 0x7f) {
            length = plmi_utf8_length(s + at, n - at);
            if (length == 0 || plmi_steers(plmi_utf8_code(s + at, length))) {
                return at;
            }
        }
        at += length;
    }
    return at;
}

size_t plmi_plain_shown(const char *s, size_t n, char shown[PLMI_SHOWN_BYTES])
{
    size_t length = plmi_utf8_length(s, n);
    if (length == 0) {
        memcpy(shown, "\xef\xbf\xbd", 4);
        return 1;
    }
    (void)snprintf(shown, PLMI_SHOWN_BYTES, "\\u{%lx}", plmi_utf8_code(s, length));
    return length;
}

/* Length of the escape at s, with its code; 0 where none stands that plmi_text_add_reversible writes for a character of
 * a text. */
static size_t escape_read(const char *s, size_t n, unsigned long *code)
{
    static const char DIGITS[] = "0123456789abcdef";
    size_t at = 3;
    if (n < at + 2 || memcmp(s, "\\u{", 3) != 0) {
        return 0;
    }
    *code = 0;
    for (; at < n && at < 9 && s[at] != '}'; at++) {
        const char *digit = s[at] == '\0' ? NULL : strchr(DIGITS, s[at]);
        if (digit == NULL) {
            return 0;
        }
        *code = *code * 16 + (unsigned long)(digit - DIGITS);
    }
    bool whole = at < n && s[at] == '}' && at > 3;
    bool held =
        *code == '\t' || *code == '\n' || *code == '\r' || (*code >= 0x20 && (*code < 0x7f || plmi_steers(*code)));
    return whole && held ? at + 1 : 0;
}

/* UTF-8 of a code point below U+10000. Returns: its length. */
static size_t code_write(char *to, unsigned long code)
{
    if (code < 0x80) {
        to[0] = (char)code;
        return 1;
    }
    size_t length = code < 0x800 ? 2 : 3;
    to[0] = (char)(length == 2 ? 0xc0 | code >> 6 : 0xe0 | code >> 12);
    if (length == 3) {
        to[1] = (char)(0x80 | (code >> 6 & 0x3f));
    }
    to[length - 1] = (char)(0x80 | (code & 0x3f));
    return length;
}

size_t plmi_escapes_read(char *s, size_t n)
{
    size_t to = 0;
    if (memchr(s, '\\', n) == NULL) {
        return n;
    }
    for (size_t from = 0; from < n;) {
        unsigned long code;
        size_t escape = escape_read(s + from, n - from, &code);
        if (escape > 0) {
            to += code_write(s + to, code);
            from += escape;
        } else {
            s[to++] = s[from++];
        }
    }
    return to;
}

/* Puts as many whole characters of piece[n] as fit behind *used; full once one did not. */
struct fitting {
    char *buffer;
    size_t size, used, wanted;
    bool full;
};

static void fit(struct fitting *fitting, const char *piece, size_t n)
{
    fitting->wanted += n;
    while (n > 0 && !fitting->full) {
        size_t length = plmi_utf8_length(piece, n);
        fitting->full = fitting->used + length + 1 > fitting->size;
        if (!fitting->full) {
            memcpy(fitting->buffer + fitting->used, piece, length);
            fitting->used += length;
        }
        piece += length;
        n -= length;
    }
}

size_t plm_text_plain(const char *text, char *buffer, size_t size)
{
    assert(size > 0);
    struct fitting fitting = {.buffer = buffer, .size = size};
    size_t left = text == NULL ? 0 : strlen(text);
    while (left > 0) {
        size_t plain = plmi_plain_length(text, left);
        fit(&fitting, text, plain);
        text += plain;
        left -= plain;
        if (left > 0) {
            char shown[PLMI_SHOWN_BYTES];
            size_t taken = plmi_plain_shown(text, left, shown);
            size_t length = strlen(shown);
            /* An escape that is cut in two would be read as another. */
            fitting.full = fitting.full || fitting.used + length + 1 > fitting.size;
            fit(&fitting, shown, length);
            text += taken;
            left -= taken;
        }
    }
    buffer[fitting.used] = '\0';
    return fitting.wanted;
}
