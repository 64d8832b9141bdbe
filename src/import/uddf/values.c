/*
 * Numbers of UDDF with the units that files have wrong: bar for pascal, Celsius for kelvin. Every such reading is
 * reported once.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/values.h"

#include <math.h>
#include <string.h>

#include "base/figure.h"
#include "base/number.h"
#include "dive/stated.h"

#define PA_PER_BAR 100000.0
#define PA_TENS    (-5)

double plmi_uddf_bar_of_pa(const char *text, double value)
{
    double bar;
    bool whole = strpbrk(text, ".eE") == NULL && fabs(value) < 1e15; /* then the value is the text's, to the last bit */
    return !whole && plmi_number_parse_scaled(text, strlen(text), '.', PA_TENS, &bar) ? bar : value / PA_PER_BAR;
}

double plmi_uddf_number(struct plmi_reader *reader, const char *text, const char *what, long line, long column)
{
    double value;
    if (plmi_number_parse(text, strlen(text), '.', &value)) {
        return value;
    }
    plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_NUMBER, line, column, "%s '%.40s' is no number; value dropped",
                   what, text);
    return (double)NAN;
}

/* Oxygen pressures are pascal, and in some files bar; the first value tells which, for the whole file. */
double plmi_uddf_po2_bar(struct plmi_reader *reader, const char *text, long line, long column)
{
    const double bar_most = 10;
    const double pa_least = 5000;
    double value = plmi_uddf_number(reader, text, "an oxygen pressure", line, column);
    if (isnan(value) || value == 0) {
        return value;
    }
    if (reader->exact) {
        return plmi_uddf_bar_of_pa(text, value);
    }
    bool bar = value > 0 && value <= bar_most;
    bool pa = value >= pa_least;
    if (!bar && !pa) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_PO2, line, column,
                       "an oxygen pressure of %s is neither pascal nor bar; value dropped",
                       plmi_figure_short(value, 3).text);
        return (double)NAN;
    }
    enum plmi_uddf_scale scale = bar ? PLMI_UDDF_SCALE_TRADE : PLMI_UDDF_SCALE_SI;
    if (reader->po2_scale == PLMI_UDDF_SCALE_UNKNOWN) {
        reader->po2_scale = scale;
        reader->facts[reader->verdict.fact_count++] =
            (struct plm_verdict_fact){"Oxygen pressures", bar ? "bar" : "pascal", "the size of the first value"};
        if (bar) {
            plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, line, column,
                           "oxygen pressures of this file are read as bar; the standard asks for pascal");
        }
    }
    if (reader->po2_scale != scale) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_PO2, line, column,
                       "an oxygen pressure of %s is not in the unit of the others, %s; value dropped",
                       plmi_figure_short(value, 3).text, bar ? "pascal" : "bar");
        return (double)NAN;
    }
    return bar ? value : plmi_uddf_bar_of_pa(text, value);
}

double plmi_uddf_temp_c(struct plmi_reader *reader, const char *text, long line, long column)
{
    const double grain = 1e6; /* so that 283.15 K and 10 C are one double */
    double value = plmi_uddf_number(reader, text, "a temperature", line, column);
    if (isnan(value)) {
        return value;
    }
    if (!reader->exact && value >= -5 && value <= 60) {
        if (!reader->celsius_stated) {
            plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, line, column,
                           "temperatures of this file are read as Celsius; the standard asks for kelvin");
            reader->celsius_stated = true;
        }
        return nearbyint(value * grain) / grain;
    }
    if (!reader->exact && (value < 250 || value > 330)) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_RANGE, line, column,
                       "a temperature of %s is neither kelvin nor Celsius; value dropped",
                       plmi_figure_short(value, 2).text);
        return (double)NAN;
    }
    return nearbyint((value - 273.15) * grain) / grain;
}

double plmi_uddf_tank_bar(struct plmi_reader *reader, const char *text, long line, long column)
{
    double value = plmi_uddf_number(reader, text, "a tank pressure", line, column);
    if (!reader->exact && value > 0 && value < 1000) {
        if (!reader->tank_bar_stated) {
            plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, line, column,
                           "tank pressures of this file are read as bar; the standard asks for pascal");
            reader->tank_bar_stated = true;
        }
        return value;
    }
    return plmi_uddf_bar_of_pa(text, value);
}

double plmi_uddf_surface_bar(struct plmi_reader *reader, const char *text, long line, long column)
{
    double value = plmi_uddf_number(reader, text, "a surface pressure", line, column);
    double bar = value > 0.3 && value < 1.3    ? value
                 : value > 300 && value < 1300 ? value / 1000
                                               : plmi_uddf_bar_of_pa(text, value);
    if (isnan(bar)) {
        return bar;
    }
    if (!plmi_stated_possible(PLMI_TOLD_SURFACE, bar)) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_PRESSURE, line, column,
                       "a surface pressure of %s cannot be; value dropped", plmi_figure_short(value, 3).text);
        return (double)NAN;
    }
    if (value < 1300) {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_UNIT_GUESSED, line, column,
                       "a surface pressure of %s is read as %s; the standard asks for pascal",
                       plmi_figure_short(value, 3).text, value < 1.3 ? "bar" : "mbar");
    }
    return bar;
}
