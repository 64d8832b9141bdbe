/*
 * What a cell of a table looks like, by its characters alone.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/cell.h"

#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "import/table/cell_unit.h"

bool plmi_cell_empty(const char *cell)
{
    static const char *const NOTHING[] = {"-", "--", "---", "n/a", "na", "null", "none", "*", "?"};
    cell += strspn(cell, " \t");
    if (*cell == '\0') {
        return true;
    }
    if ((*cell >= '0' && *cell <= '9') || strlen(cell) > 4) {
        return false;
    }
    for (size_t i = 0; i < sizeof NOTHING / sizeof NOTHING[0]; i++) {
        if (plmi_text_same(cell, NOTHING[i])) {
            return true;
        }
    }
    return false;
}

/* Runs of digits parted by one sign each: "12", "12:30", "2031-05-06". Counts runs and notes the signs. */
struct digit_runs {
    size_t runs;
    char signs[12];
    size_t longest_first;
    const char *end;
};

static struct digit_runs digit_runs(const char *text)
{
    struct digit_runs found = {0};
    for (;;) {
        size_t digits = strspn(text, "0123456789");
        if (digits == 0) {
            break;
        }
        found.longest_first = found.runs == 0 ? digits : found.longest_first;
        text += digits;
        found.runs++;
        if (found.runs >= sizeof found.signs || strchr(":-/.,", *text) == NULL || *text == '\0' || text[1] < '0' ||
            text[1] > '9') {
            break;
        }
        found.signs[found.runs - 1] = *text++;
    }
    found.end = text;
    return found;
}

static bool is_date(const struct digit_runs *runs)
{
    return runs->runs == 3 && runs->signs[0] == runs->signs[1] && strchr("-/.", runs->signs[0]) != NULL;
}

static bool is_clock(const struct digit_runs *runs)
{
    bool two = runs->runs >= 2 && runs->signs[0] == ':';
    bool three = runs->runs < 3 || runs->signs[1] == ':' || (runs->runs == 3 && strchr(".,", runs->signs[1]) != NULL);
    bool four = runs->runs < 4 || strchr(".,", runs->signs[2]) != NULL;
    return two && three && four && runs->runs <= 4;
}

/* "am", "p.m.", a zone or nothing behind a clock. */
static bool clock_tail(const char *tail)
{
    tail += strspn(tail, " ");
    return *tail == '\0' || *tail == 'Z' || *tail == 'z' || *tail == '+' || *tail == '-' ||
           strchr("aApP", *tail) != NULL;
}

/* The look of a value with a unit behind it: a number or a clock, or it is text. */
static enum plmi_look look_with_unit(const char *cell, size_t value_n)
{
    char value[64];
    if (value_n >= sizeof value) {
        return PLMI_LOOK_TEXT;
    }
    memcpy(value, cell, value_n);
    value[value_n] = '\0';
    enum plmi_look look = plmi_cell_look(value);
    return look == PLMI_LOOK_NUMBER || look == PLMI_LOOK_CLOCK ? look : PLMI_LOOK_TEXT;
}

enum plmi_look plmi_cell_look(const char *cell)
{
    double ignored;
    struct plmi_cell_unit unit;
    if (plmi_cell_empty(cell)) {
        return PLMI_LOOK_EMPTY;
    }
    size_t n = strlen(cell);
    if (plmi_cell_unit_split(&unit, cell, n)) {
        return look_with_unit(cell, unit.value_n);
    }
    cell += strspn(cell, " \t");
    if (plmi_number_parse(cell, strlen(cell), '.', &ignored) || plmi_number_parse(cell, strlen(cell), ',', &ignored)) {
        return PLMI_LOOK_NUMBER;
    }
    const char *unsigned_cell = cell + (n > 0 && (*cell == '-' || *cell == '+'));
    struct digit_runs first = digit_runs(unsigned_cell);
    if (is_clock(&first) && clock_tail(first.end)) {
        return PLMI_LOOK_CLOCK;
    }
    bool date = is_date(&first);
    if (date && first.end[strspn(first.end, " ")] == '\0') {
        return PLMI_LOOK_DATE;
    }
    if (date && strchr(" T,", *first.end) != NULL) {
        const char *rest = first.end + strspn(first.end, " T,");
        struct digit_runs second = digit_runs(rest);
        return is_clock(&second) && clock_tail(second.end) ? PLMI_LOOK_DATE_CLOCK : PLMI_LOOK_TEXT;
    }
    return PLMI_LOOK_TEXT;
}
