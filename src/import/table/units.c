/*
 * The words for units beyond the short ones that base/units.c knows.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/units.h"

#include <string.h>

/* All ways of writing a unit: lower case, without accents, parted by blanks. */
struct wording {
    enum plmi_dimension dimension;
    const char *unit;
    const char *words;
};

static const struct wording WORDINGS[] = {
    {PLMI_DIMENSION_TIME, "s",
     "sek sekunde sekunden seconde secondes segundo segundos seg secondo secondi seconden ss"},
    {PLMI_DIMENSION_TIME, "min", "minuten minuto minutos minuti minuut m mm mn"},
    {PLMI_DIMENSION_TIME, "h", "hrs std stunde stunden heures horas ore uur hh"},
    {PLMI_DIMENSION_TIME, "ms", "msec millisecond milliseconds millisekunden"},
    {PLMI_DIMENSION_LENGTH, "m", "metros metro metri mtr mtrs"},
    {PLMI_DIMENSION_LENGTH, "ft", "fuss pieds pies piedi voet"},
    {PLMI_DIMENSION_PRESSURE, "bar", "bara barg"},
    {PLMI_DIMENSION_PRESSURE, "mbar", "mb mbara millibars"},
    {PLMI_DIMENSION_PRESSURE, "atm", "atmosphere atmospheres"},
    {PLMI_DIMENSION_TEMP, "C", "centigrade"},
    {PLMI_DIMENSION_FRACTION, "%", "% pct percent prozent pourcent porcentaje percento procent"},
    {PLMI_DIMENSION_FRACTION, "fraction", "fraction frac fraktion fraccion frazione fractie"},
};

static const enum plmi_quantity QUANTITIES[] = {
    [PLMI_DIMENSION_TIME] = PLMI_QUANTITY_TIME,
    [PLMI_DIMENSION_LENGTH] = PLMI_QUANTITY_DEPTH,
    [PLMI_DIMENSION_PRESSURE] = PLMI_QUANTITY_PRESSURE,
    [PLMI_DIMENSION_TEMP] = PLMI_QUANTITY_TEMPERATURE,
};

/* Fractions have no quantity in base/units.h; the field stands for nothing here. */
static const struct plmi_unit PERCENT = {"%", PLMI_QUANTITY_TIME, 0, 1, 100};
static const struct plmi_unit FRACTION = {"fraction", PLMI_QUANTITY_TIME, 0, 1, 1};

static bool among(const char *words, const char *word)
{
    size_t n = strlen(word);
    for (const char *at = words; at != NULL; at = strchr(at, ' ')) {
        at += *at == ' ';
        if (strncmp(at, word, n) == 0 && (at[n] == ' ' || at[n] == '\0')) {
            return true;
        }
    }
    return false;
}

static const struct plmi_unit *by_name(enum plmi_dimension dimension, const char *name)
{
    if (dimension == PLMI_DIMENSION_FRACTION) {
        return name[0] == '%' ? &PERCENT : &FRACTION;
    }
    return plmi_unit_find(QUANTITIES[dimension], name, strlen(name));
}

const struct plmi_unit *plmi_unit_of_word(const char *word, enum plmi_dimension dimension)
{
    for (size_t i = 0; i < sizeof WORDINGS / sizeof WORDINGS[0]; i++) {
        const struct wording *wording = &WORDINGS[i];
        if ((dimension == PLMI_DIMENSION_NONE || wording->dimension == dimension) && among(wording->words, word)) {
            return by_name(wording->dimension, wording->unit);
        }
    }
    for (int d = PLMI_DIMENSION_TIME; d < PLMI_DIMENSION_FRACTION; d++) {
        const struct plmi_unit *unit = dimension == PLMI_DIMENSION_NONE || (int)dimension == d
                                           ? plmi_unit_find(QUANTITIES[d], word, strlen(word))
                                           : NULL;
        if (unit != NULL) {
            return unit;
        }
    }
    return NULL;
}

enum plmi_dimension plmi_unit_dimension(const struct plmi_unit *unit)
{
    if (unit == &PERCENT || unit == &FRACTION) {
        return PLMI_DIMENSION_FRACTION;
    }
    for (int d = PLMI_DIMENSION_TIME; d < PLMI_DIMENSION_FRACTION; d++) {
        if (QUANTITIES[d] == unit->quantity) {
            return (enum plmi_dimension)d;
        }
    }
    return PLMI_DIMENSION_NONE;
}

bool plmi_unit_is_foreign(const char *word)
{
    return among("mv mvolt millivolt millivolts volt volts ma ohm fathom fathoms fsw", word);
}
