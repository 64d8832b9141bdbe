/*
 * What the cursor reads, as short text: differences of whole numbers in letters. Must not round; the curves are
 * rounded.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/debrief.h"
#include "syntax/markup.h"

/* A value is written again instead of repeated from this many on. */
#define REPEATS_LEAST 3

/* What a script can hold to the unit; more is shown as this. */
#define MOST 9e15

/* Base 32, least digits first; 32 says that more follow. */
static void digits_add(struct plmi_text *out, unsigned long long number)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    do {
        unsigned digit = (unsigned)(number & 31);
        number >>= 5;
        plmi_text_add(out, &letters[digit | (number > 0 ? 32u : 0u)], 1);
    } while (number > 0);
}

static void difference_add(struct plmi_text *out, long long difference)
{
    digits_add(out, difference < 0 ? ((unsigned long long)-difference << 1 | 1) : (unsigned long long)difference << 1);
}

static size_t repeats_count(const double *values, size_t at, size_t count)
{
    size_t repeats = 0;
    while (at + 1 + repeats < count && values[at + 1 + repeats] <= values[at] &&
           values[at + 1 + repeats] >= values[at]) {
        repeats++;
    }
    return repeats;
}

static void values_add(struct plmi_text *out, const double *values, size_t count, double per_unit)
{
    long long last = 0;
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(values[i])) {
            plmi_text_add(out, "~", 1);
            continue;
        }
        long long value = llround(fmax(fmin(values[i] * per_unit, MOST), -MOST));
        difference_add(out, value - last);
        last = value;
        size_t repeats = repeats_count(values, i, count);
        if (repeats >= REPEATS_LEAST) {
            plmi_text_add(out, "*", 1);
            digits_add(out, repeats);
            i += repeats;
        }
    }
}

void plmi_html_cursor_steps(struct plmi_text *out, const struct plmi_curves *curves)
{
    const double *time_s = curves->column[PLMI_CURVES_TIME];
    long long last_ms = 0, shown = 0;
    size_t repeats = 0;
    plmi_text_puts(out, " data-steps=\"");
    for (size_t i = 0; i <= curves->count; i++) {
        long long step = i < curves->count ? llround(time_s[i] * 1e3) - last_ms : -1;
        if (i > 0 && step == shown) {
            repeats++;
        } else {
            if (repeats > 0) {
                plmi_text_add(out, "*", 1);
                digits_add(out, repeats);
                repeats = 0;
            }
            if (i < curves->count) {
                difference_add(out, step - shown);
            }
            shown = step;
        }
        last_ms += step;
    }
    plmi_text_puts(out, "\"");
}

static void cell_begin(struct plmi_text *out, const char *name, const char *unit, int digits)
{
    plmi_text_printf(out, "<span data-name=\"%s\" data-digits=\"%d\" data-unit=\"%s%s\"", name, digits,
                     unit[0] != '\0' ? " " : "", unit);
}

static void cell_end(struct plmi_text *out, const char *name, const double *values, size_t count, double per_unit)
{
    plmi_text_puts(out, " data-values=\"");
    values_add(out, values, count, per_unit);
    plmi_text_printf(out, "\">%s <b>-</b></span>\n", name);
}

static void breathed_write(struct plmi_text *out, const struct plmi_curves *curves)
{
    cell_begin(out, "breathing", "", 0);
    plmi_text_puts(out, " data-words=\"");
    for (size_t i = 0; i < curves->breathed_count; i++) {
        plmi_text_puts(out, i > 0 ? "|" : "");
        plmi_markup_text(out, curves->breathed[i]);
    }
    plmi_text_puts(out, "\"");
    cell_end(out, "breathing", curves->column[PLMI_CURVES_BREATHED], curves->count, 1);
}

void plmi_html_cursor_values(struct plmi_text *out, const struct plmi_curves *curves)
{
    static const struct {
        const char *name, *unit;
        enum plmi_curves_column column;
        int digits;
    } rows[] = {
        {"depth", "m", PLMI_CURVES_DEPTH, 1},           {"ceiling", "m", PLMI_CURVES_CEILING, 1},
        {"water to it", "m", PLMI_CURVES_CLEARANCE, 2}, {"gradient", "%", PLMI_CURVES_GRADIENT, 1},
        {"compartment", "", PLMI_CURVES_LEADING, 0},    {"surfacing gradient", "%", PLMI_CURVES_SURFACING, 1},
        {"oxygen", "bar", PLMI_CURVES_PO2, 2},          {"set point", "bar", PLMI_CURVES_SETPOINT, 2},
        {"cell 1", "bar", PLMI_CURVES_CELL, 2},         {"cell 2", "bar", PLMI_CURVES_CELL + 1, 2},
        {"cell 3", "bar", PLMI_CURVES_CELL + 2, 2},     {"cell 4", "bar", PLMI_CURVES_CELL + 3, 2},
        {"cell 5", "bar", PLMI_CURVES_CELL + 4, 2},     {"CNS", "%", PLMI_CURVES_CNS, 1},
        {"ascent", "m/min", PLMI_CURVES_RATE, 1},       {"density", "g/L", PLMI_CURVES_DENSITY, 2},
    };
    static const double per_unit[] = {1, 10, 100};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (!curves->known[rows[i].column]) {
            continue;
        }
        cell_begin(out, rows[i].name, rows[i].unit, rows[i].digits);
        cell_end(out, rows[i].name, curves->column[rows[i].column], curves->count, per_unit[rows[i].digits]);
    }
    breathed_write(out, curves);
}
