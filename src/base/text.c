/*
 * Text that grows, and questions about text. Must not depend on a locale.
 * SPDX-License-Identifier: MIT
 */
#include "base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/plain.h"

enum { TEXT_FIRST = 64 };

void plmi_text_init(struct plmi_text *text)
{
    *text = (struct plmi_text){NULL, 0, 0, false, false};
}

void plmi_text_init_plain(struct plmi_text *text)
{
    plmi_text_init(text);
    text->plain = true;
}

void plmi_text_clear(struct plmi_text *text)
{
    text->count = 0;
    text->failed = false;
    if (text->bytes != NULL) {
        text->bytes[0] = '\0';
    }
}

void plmi_text_free(struct plmi_text *text)
{
    free(text->bytes);
    *text = (struct plmi_text){NULL, 0, 0, false, text->plain};
}

/* Room for n more bytes and the NUL. */
static bool grow(struct plmi_text *text, size_t n)
{
    if (text->failed || n > SIZE_MAX / 4 || text->count > SIZE_MAX / 4) {
        text->failed = true;
        return false;
    }
    size_t wanted = text->capacity < TEXT_FIRST ? TEXT_FIRST : text->capacity * 2;
    if (wanted < text->count + n + 1) {
        wanted = text->count + n + 1;
    }
    char *grown = realloc(text->bytes, wanted);
    if (grown == NULL) {
        text->failed = true;
        return false;
    }
    text->bytes = grown;
    text->capacity = wanted;
    return true;
}

void plmi_text_add_raw(struct plmi_text *text, const char *bytes, size_t n)
{
    if (text->capacity - text->count <= n && !grow(text, n)) {
        return;
    }
    if (n > 0) {
        memcpy(text->bytes + text->count, bytes, n);
    }
    text->count += n;
    text->bytes[text->count] = '\0';
}

void plmi_text_add_plain(struct plmi_text *text, const char *bytes, size_t n)
{
    while (n > 0) {
        size_t plain = plmi_plain_length(bytes, n);
        plmi_text_add_raw(text, bytes, plain);
        bytes += plain;
        n -= plain;
        if (n > 0) {
            char shown[PLMI_SHOWN_BYTES];
            size_t taken = plmi_plain_shown(bytes, n, shown);
            plmi_text_add_raw(text, shown, strlen(shown));
            bytes += taken;
            n -= taken;
        }
    }
}

void plmi_text_add(struct plmi_text *text, const char *bytes, size_t n)
{
    if (!text->plain) {
        plmi_text_add_raw(text, bytes, n);
        return;
    }
    size_t lines = 0;
    while (lines < n && bytes[n - 1 - lines] == '\n') {
        lines++;
    }
    plmi_text_add_plain(text, bytes, n - lines);
    plmi_text_add_raw(text, bytes + n - lines, lines);
}

void plmi_text_puts(struct plmi_text *text, const char *string)
{
    plmi_text_add(text, string, strlen(string));
}

/* What is longer than a little: straight into a text that takes it as it is. */
PLMI_PRINTF(3, 0)
static void add_long(struct plmi_text *text, size_t length, const char *format, va_list arguments)
{
    struct plmi_text whole;
    plmi_text_init(&whole);
    struct plmi_text *to = text->plain ? &whole : text;
    if (to->capacity - to->count > length || grow(to, length)) {
        (void)vsnprintf(to->bytes + to->count, length + 1, format, arguments);
        to->count += length;
    }
    if (text->plain) {
        text->failed = text->failed || whole.failed;
        plmi_text_add(text, whole.failed ? "" : whole.bytes, whole.count);
        plmi_text_free(&whole);
    }
}

void plmi_text_printf(struct plmi_text *text, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    char few[256];
    int length = vsnprintf(few, sizeof few, format, arguments);
    va_end(arguments);
    if (length < 0) {
        text->failed = true;
    } else if ((size_t)length < sizeof few) {
        plmi_text_add(text, few, (size_t)length);
    } else {
        add_long(text, (size_t)length, format, again);
    }
    va_end(again);
}

void plmi_text_add_reversible(struct plmi_text *text, const char *bytes, size_t n, const char *also)
{
    while (n > 0) {
        bool escape = (n >= 3 && memcmp(bytes, "\\u{", 3) == 0) || (*bytes != '\0' && strchr(also, *bytes) != NULL);
        size_t plain = plmi_plain_length(bytes, n);
        size_t taken = 1;
        if (escape) {
            plmi_text_printf(text, "\\u{%x}", (unsigned)(unsigned char)*bytes);
        } else if (plain > 0) {
            while (taken < plain && bytes[taken] != '\\' && strchr(also, bytes[taken]) == NULL) {
                taken++;
            }
            plmi_text_add_raw(text, bytes, taken);
        } else {
            char shown[PLMI_SHOWN_BYTES];
            taken = plmi_plain_shown(bytes, n, shown);
            plmi_text_add_raw(text, shown, strlen(shown));
        }
        bytes += taken;
        n -= taken;
    }
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool plmi_text_same(const char *a, const char *b)
{
    while (*a != '\0' && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

bool plmi_text_starts(const char *text, const char *prefix)
{
    while (*prefix != '\0' && lower(*text) == lower(*prefix)) {
        text++;
        prefix++;
    }
    return *prefix == '\0';
}

size_t plmi_text_head(const char *text, size_t room)
{
    size_t n = strnlen(text, room + 1);
    if (n <= room) {
        return n;
    }
    for (n = room; n > 0 && ((unsigned char)text[n] & 0xc0) == 0x80; n--) {
    }
    return n;
}
