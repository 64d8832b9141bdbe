/*
 * Cells of text for tables that a spreadsheet may open, and back. Must not touch numbers.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "base/plain.h"
#include "base/text.h"
#include "syntax/markup.h"

/* What a spreadsheet computes when it stands first. */
static const char *const FORMULA_FIRST[] = {
    "=", "+", "-", "@", "\xef\xbc\x9d", "\xef\xbc\x8b", "\xef\xbc\x8d", "\xef\xbc\xa0"};

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

void plmi_csv_cell(struct plmi_text *out, const char *text)
{
    size_t length = strlen(text);
    bool formula = formula_behind(text, length);
    bool edge_blank = length > 0 && (text[0] == ' ' || text[length - 1] == ' ');
    bool quoted = formula || edge_blank || strpbrk(text, ",;\"") != NULL || plmi_plain_length(text, length) < length;
    plmi_text_puts(out, quoted ? "\"" : "");
    plmi_text_puts(out, formula ? "'" : "");
    for (size_t piece; *text != '\0'; text += piece) {
        piece = 1 + strcspn(text + 1, "\"");
        plmi_text_puts(out, *text == '"' ? "\"" : "");
        plmi_text_add_reversible(out, text, piece, "");
    }
    plmi_text_puts(out, quoted ? "\"" : "");
}

size_t plmi_csv_cell_read(char *cell, size_t count)
{
    if (count > 0 && cell[0] == '\'' && formula_behind(cell, count)) {
        memmove(cell, cell + 1, --count);
    }
    return plmi_escapes_read(cell, count);
}
