/*
 * Parts a cell into value and unit by its characters and the words for units. Must not know the column.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/cell_unit.h"

#include <string.h>

#include "import/format/tokens.h"
#include "import/table/units.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The word of the unit among the tokens behind a value; "" where they are no unit. */
static const char *unit_among(const struct plmi_tokens *tokens)
{
    const char *last = tokens->count > 0 ? tokens->token[tokens->count - 1] : "";
    bool degrees =
        tokens->count == 2 && (strcmp(tokens->token[0], "deg") == 0 || strcmp(tokens->token[0], "grad") == 0);
    bool unit = plmi_unit_of_word(last, PLMI_DIMENSION_NONE) != NULL || plmi_unit_is_foreign(last);
    return (tokens->count == 1 || degrees) && unit ? last : "";
}

bool plmi_cell_unit_split(struct plmi_cell_unit *out, const char *cell, size_t n)
{
    struct plmi_tokens tokens;
    size_t value_n = strspn(cell, " \t+-0123456789.,:");
    if (value_n >= n) {
        return false;
    }
    const char *tail = cell + value_n;
    while (value_n > 0 && !is_digit(cell[value_n - 1])) {
        value_n--;
    }
    plmi_tokens_split(&tokens, tail);
    const char *word = value_n > 0 ? unit_among(&tokens) : "";
    size_t length = strlen(word);
    if (length == 0 || length >= sizeof out->word) {
        return false;
    }
    out->value_n = value_n;
    memcpy(out->word, word, length + 1);
    return true;
}
