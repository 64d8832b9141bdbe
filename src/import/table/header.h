/*
 * What a column's name, or the key of a preamble line, means: words and units put together by rules.
 * Looks at names only; the values are weighed in units_guess.h.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_HEADER_H
#define PLM_IMPORT_TABLE_HEADER_H

#include <stdbool.h>

#include "import/table/units.h"
#include "import/table/words.h"

enum plmi_meaning {
    PLMI_MEANING_UNKNOWN, /* no rule fits                                       */
    PLMI_MEANING_OTHER,   /* understood, and not read                           */
    PLMI_MEANING_TIME,
    PLMI_MEANING_DATE,
    PLMI_MEANING_CLOCK,
    PLMI_MEANING_DATE_CLOCK,
    PLMI_MEANING_DEPTH,
    PLMI_MEANING_PRESSURE, /* ambient or gauge, from which depth is computed     */
    PLMI_MEANING_TEMP,
    PLMI_MEANING_MODE,
    PLMI_MEANING_O2,
    PLMI_MEANING_HE,
    PLMI_MEANING_GAS,
    PLMI_MEANING_SETPOINT,
    PLMI_MEANING_PO2,
    PLMI_MEANING_CELL,
    PLMI_MEANING_DIVE,
    PLMI_MEANING_EVENTS, /* as plm_export writes them                          */
    PLMI_MEANING_COUNT
};

/* How a time is written, where its name says so. */
enum plmi_time_form {
    PLMI_TIME_FORM_UNKNOWN,
    PLMI_TIME_FORM_MIN_SEC,
    PLMI_TIME_FORM_HOUR_MIN,
    PLMI_TIME_FORM_HOUR_MIN_SEC
};

struct plmi_header_cell {
    enum plmi_meaning meaning;
    const struct plmi_unit *unit; /* or NULL */
    enum plmi_time_form form;
    int number; /* of a cell, from 1; 0 none */
    int unknown_words;
    char unknown_unit[16]; /* a unit that is named and not one of this meaning, "" none */
    uint64_t concepts;
};

/* The column of events in tables that plm_export wrote. */
#define PLMI_HEADER_EVENTS "recorded_events"

/* One row of the table of meanings. */
struct plmi_meaning_info {
    const char *name;
    enum plmi_dimension dimension;
    bool setting;
};
const struct plmi_meaning_info *plmi_meaning_info(enum plmi_meaning meaning);

struct plmi_header_cell plmi_header_read(const char *text);
/* A cell that holds nothing but a unit, as in a row of units; "" and "-" count as empty. */
bool plmi_header_is_unit(const char *text);
/* Whether a cell of a row of units names one that no column read is in. */
bool plmi_header_is_foreign_unit(const char *text);
/* The unit of such a cell for a meaning, or NULL. */
const struct plmi_unit *plmi_header_unit(const char *text, enum plmi_meaning meaning);

#endif
