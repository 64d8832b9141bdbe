/*
 * The words of the trade as they stand over columns and in preambles, in six languages, and what each speaks of.
 * Knows words only; what a column means is for header.h.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_TABLE_WORDS_H
#define PLM_IMPORT_TABLE_WORDS_H

#include <stddef.h>
#include <stdint.h>

/* What a word speaks of; a word may speak of several things. */
enum plmi_concept {
    PLMI_CONCEPT_TIME,
    PLMI_CONCEPT_DEPTH,
    PLMI_CONCEPT_TEMP,
    PLMI_CONCEPT_PO2,
    PLMI_CONCEPT_O2,
    PLMI_CONCEPT_HE,
    PLMI_CONCEPT_N2,
    PLMI_CONCEPT_CELL,
    PLMI_CONCEPT_SET,
    PLMI_CONCEPT_MODE,
    PLMI_CONCEPT_GAS,
    PLMI_CONCEPT_PRESSURE,
    PLMI_CONCEPT_DATE,
    PLMI_CONCEPT_CLOCK,
    PLMI_CONCEPT_DIVE,
    PLMI_CONCEPT_NUMBER,
    PLMI_CONCEPT_MAX,
    PLMI_CONCEPT_MIN,
    PLMI_CONCEPT_MEAN,
    PLMI_CONCEPT_AIR,
    PLMI_CONCEPT_WATER,
    PLMI_CONCEPT_TANK,
    PLMI_CONCEPT_SURFACE,
    PLMI_CONCEPT_AMBIENT,
    PLMI_CONCEPT_GAUGE,
    PLMI_CONCEPT_PARTIAL,
    PLMI_CONCEPT_FRACTION,
    PLMI_CONCEPT_DECO,
    PLMI_CONCEPT_DOSE,
    PLMI_CONCEPT_RATE,
    PLMI_CONCEPT_HEADING,
    PLMI_CONCEPT_EVENT,
    PLMI_CONCEPT_START,
    PLMI_CONCEPT_END,
    PLMI_CONCEPT_SAMPLE,
    PLMI_CONCEPT_DIVER,
    PLMI_CONCEPT_RECORDER,
    PLMI_CONCEPT_SITE,
    PLMI_CONCEPT_ALTITUDE,
    PLMI_CONCEPT_DENSITY,
    PLMI_CONCEPT_UNITS,
    PLMI_CONCEPT_INTERVAL,
    PLMI_CONCEPT_BATTERY,
    PLMI_CONCEPT_PULSE,
    PLMI_CONCEPT_NOTES,
    PLMI_CONCEPT_OTHER
};

#define PLMI_BIT(concept) (UINT64_C(1) << PLMI_CONCEPT_##concept)

struct plmi_word {
    const char *word;  /* lower case, accents taken off */
    uint64_t concepts; /* 0: a word that adds nothing, as "the" */
};

/* The entry of a word, or NULL where it is not known. */
const struct plmi_word *plmi_word_find(const char *word);
const struct plmi_word *plmi_words(size_t *count);

#endif
