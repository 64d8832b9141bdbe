/*
 * Cells of text for tables that a spreadsheet may open, and back. Must not touch numbers.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "base/plain.h"
#include "syntax/markup.h"

enum { BACK_SLASH = 0x5c };

/* What a spreadsheet computes when it stands first. */
static const char *const FORMULA_FIRST[] = { "=", "+", "-", "@", "\xef\xbc\x9d", "\xef\xbc\x8b", "\xef\xbc\x8d", "\xef\xbc\xa0" };

/* Whether a formula begins behind any apostrophes. */
static bool formula_behind(const char *text, size_t n)
{
    while (n > 0 && *text == '\'') {
        text++;
        n--;
    }
    for (size_t i = 0; i < sizeof FORMULA_FIRST / sizeof FORMULA_FIRST[0]; i++) {
        size_t length = strlen(FORMULA_FIRST[i]);
        if (n >= length && memcmp(text, FORMULA_FIRST[i], length) == 0) {
            return true;
        }
    }
    return false;
}

static void inside_write(struct plmi_text *out, const char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        char shown[PLMI_SHOWN_BYTES];
        size_t plain = plmi_plain_length(text, left);
        size_t taken = 1;
        if (strncmp(text, "\\u{", 3) == 0) {   /* else it would be read as an escape */
            plmi_text_puts(out, "\\u{5c}");
        } else if (*text == '"') {
            plmi_text_puts(out, "\"\"");
        } else if (plain > 0) {
            taken = 1 + strcspn(text + 1, "\"\\");
            taken = taken < plain ? taken : plain;
            plmi_text_add(out, text, taken);
        } else {
            taken = plmi_plain_shown(text, left, shown);
            plmi_text_puts(out, shown);
        }
        text += taken;
        left -= taken;
    }
}

void plmi_csv_cell(struct plmi_text *out, const char *text)
{
    size_t length = strlen(text);
    bool formula = formula_behind(text, length);
    bool edge_blank = length > 0 && (text[0] == ' ' || text[length - 1] == ' ');
    bool quoted = formula || edge_blank || strpbrk(text, ",;\"") != NULL || plmi_plain_length(text, length) < length;
    plmi_text_puts(out, quoted ? "\"" : "");
    plmi_text_puts(out, formula ? "'" : "");
    inside_write(out, text);
    plmi_text_puts(out, quoted ? "\"" : "");
}

/* Length of the escape at s, with its code; 0 where none stands that plmi_csv_cell writes for a character of a text. */
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
    bool held = *code == BACK_SLASH || *code == '\t' || *code == '\n' || *code == '\r' || (*code >= 0x20 && plmi_steers(*code));
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

size_t plmi_csv_cell_read(char *cell, size_t count)
{
    size_t from = count > 0 && cell[0] == '\'' && formula_behind(cell, count) ? 1 : 0;
    if (from == 0 && memchr(cell, BACK_SLASH, count) == NULL) {
        return count;
    }
    size_t to = 0;
    while (from < count) {
        unsigned long code;
        size_t escape = escape_read(cell + from, count - from, &code);
        if (escape > 0) {
            to += code_write(cell + to, code);
            from += escape;
        } else {
            cell[to++] = cell[from++];
        }
    }
    return to;
}
