/*
 * The table of units. Must not guess.
 * Source of all factors: NIST Special Publication 811 (2008), appendix B.8: foot (international), atmosphere
 * (standard), pound-force per square inch, degrees; SI prefixes. "ata" is the standard atmosphere, absolute.
 * Sea-water pressures (fsw, msw) are taken as the depths that they stand for.
 * SPDX-License-Identifier: MIT
 */
#include "base/units.h"

#include <string.h>

#include "base/text.h"

/* 1 psi = 4.4482216152605 N / (0.0254 m)^2; NIST prints 6.894 757 E+03 Pa. */
#define PSI_BAR 0.068947572931683613

#define DEPTH       PLMI_QUANTITY_DEPTH
#define PRESSURE    PLMI_QUANTITY_PRESSURE
#define TEMPERATURE PLMI_QUANTITY_TEMPERATURE
#define TIME        PLMI_QUANTITY_TIME

static const struct plmi_unit units[] = {
    {"m", DEPTH, 0, 1, 1},
    {"metre", DEPTH, 0, 1, 1},
    {"metres", DEPTH, 0, 1, 1},
    {"meter", DEPTH, 0, 1, 1},
    {"meters", DEPTH, 0, 1, 1},
    {"msw", DEPTH, 0, 1, 1},
    {"cm", DEPTH, 0, 1, 100},
    {"mm", DEPTH, 0, 1, 1000},
    {"ft", DEPTH, 0, 3048, 10000},
    {"foot", DEPTH, 0, 3048, 10000},
    {"feet", DEPTH, 0, 3048, 10000},
    {"fsw", DEPTH, 0, 3048, 10000},
    {"bar", PRESSURE, 0, 1, 1},
    {"bars", PRESSURE, 0, 1, 1},
    {"mbar", PRESSURE, 0, 1, 1000},
    {"millibar", PRESSURE, 0, 1, 1000},
    {"hPa", PRESSURE, 0, 1, 1000},
    {"kPa", PRESSURE, 0, 1, 100},
    {"MPa", PRESSURE, 0, 10, 1},
    {"Pa", PRESSURE, 0, 1, 100000},
    {"pascal", PRESSURE, 0, 1, 100000},
    {"psi", PRESSURE, 0, PSI_BAR, 1},
    {"psia", PRESSURE, 0, PSI_BAR, 1},
    {"psig", PRESSURE, 0, PSI_BAR, 1},
    {"ata", PRESSURE, 0, 101325, 100000},
    {"atm", PRESSURE, 0, 101325, 100000},
    {"C", TEMPERATURE, 0, 1, 1},
    {"\xc2\xb0"
     "C",
     TEMPERATURE, 0, 1, 1},
    {"degC", TEMPERATURE, 0, 1, 1},
    {"celsius", TEMPERATURE, 0, 1, 1},
    {"F", TEMPERATURE, -32, 5, 9},
    {"\xc2\xb0"
     "F",
     TEMPERATURE, -32, 5, 9},
    {"degF", TEMPERATURE, -32, 5, 9},
    {"fahrenheit", TEMPERATURE, -32, 5, 9},
    {"K", TEMPERATURE, -273.15, 1, 1},
    {"kelvin", TEMPERATURE, -273.15, 1, 1},
    {"s", TIME, 0, 1, 1},
    {"sec", TIME, 0, 1, 1},
    {"secs", TIME, 0, 1, 1},
    {"second", TIME, 0, 1, 1},
    {"seconds", TIME, 0, 1, 1},
    {"ms", TIME, 0, 1, 1000},
    {"min", TIME, 0, 60, 1},
    {"mins", TIME, 0, 60, 1},
    {"minute", TIME, 0, 60, 1},
    {"minutes", TIME, 0, 60, 1},
    {"h", TIME, 0, 3600, 1},
    {"hr", TIME, 0, 3600, 1},
    {"hour", TIME, 0, 3600, 1},
    {"hours", TIME, 0, 3600, 1},
};

enum { UNIT_COUNT = sizeof units / sizeof units[0] };

const struct plmi_unit *plmi_units(size_t *count)
{
    *count = UNIT_COUNT;
    return units;
}

const struct plmi_unit *plmi_unit_find(enum plmi_quantity quantity, const char *name, size_t n)
{
    char key[16];
    if (n == 0 || n >= sizeof key || memchr(name, '\0', n) != NULL) {
        return NULL;
    }
    memcpy(key, name, n);
    key[n] = '\0';
    const struct plmi_unit *found = NULL;
    for (size_t i = 0; i < UNIT_COUNT && found == NULL; i++) {
        if (units[i].quantity == quantity && plmi_text_same(units[i].name, key)) {
            found = &units[i];
        }
    }
    return found;
}

double plmi_unit_convert(const struct plmi_unit *unit, double value)
{
    return (value + unit->shift) * unit->factor / unit->divisor;
}
