/*
 * The grammar of column names. A name is words and units in any order; a rule asks for words that must and must not be
 * there.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/header.h"

#include <string.h>

#include "import/format/tokens.h"

#define B(concept) PLMI_BIT(concept)

static const struct plmi_meaning_info MEANINGS[PLMI_MEANING_COUNT] = {
    [PLMI_MEANING_UNKNOWN] = {"not understood", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_OTHER] = {"not read", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_TIME] = {"time", PLMI_DIMENSION_TIME, false},
    [PLMI_MEANING_DATE] = {"date", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_CLOCK] = {"time of day", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_DATE_CLOCK] = {"date and time of day", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_DEPTH] = {"depth", PLMI_DIMENSION_LENGTH, false},
    [PLMI_MEANING_PRESSURE] = {"depth by pressure", PLMI_DIMENSION_PRESSURE, false},
    [PLMI_MEANING_TEMP] = {"temperature", PLMI_DIMENSION_TEMP, false},
    [PLMI_MEANING_MODE] = {"breathing mode", PLMI_DIMENSION_NONE, true},
    [PLMI_MEANING_O2] = {"oxygen of the mix", PLMI_DIMENSION_FRACTION, true},
    [PLMI_MEANING_HE] = {"helium of the mix", PLMI_DIMENSION_FRACTION, true},
    [PLMI_MEANING_GAS] = {"mix by name", PLMI_DIMENSION_NONE, true},
    [PLMI_MEANING_SETPOINT] = {"set point", PLMI_DIMENSION_PRESSURE, true},
    [PLMI_MEANING_PO2] = {"oxygen pressure", PLMI_DIMENSION_PRESSURE, false},
    [PLMI_MEANING_CELL] = {"oxygen cell", PLMI_DIMENSION_PRESSURE, false},
    [PLMI_MEANING_DIVE] = {"number of the dive", PLMI_DIMENSION_NONE, false},
    [PLMI_MEANING_EVENTS] = {"recorded events", PLMI_DIMENSION_NONE, false},
};

const struct plmi_meaning_info *plmi_meaning_info(enum plmi_meaning meaning)
{
    return &MEANINGS[meaning];
}

/* The first rule that fits tells the meaning: all words of one of `any` groups there, none of `none`. */
struct rule {
    uint64_t all;
    uint64_t any; /* 0: no demand */
    uint64_t none;
    enum plmi_meaning meaning;
};

#define ASIDE                                                                                                   \
    (B(MAX) | B(MIN) | B(MEAN) | B(DECO) | B(DOSE) | B(RATE) | B(HEADING) | B(BATTERY) | B(PULSE) | B(EVENT) |  \
     B(NOTES) | B(END) | B(INTERVAL) | B(OTHER) | B(DIVER) | B(RECORDER) | B(SITE) | B(ALTITUDE) | B(DENSITY) | \
     B(TANK))

static const struct rule RULES[] = {
    {0, ASIDE, 0, PLMI_MEANING_OTHER},
    {B(AIR), 0, 0, PLMI_MEANING_OTHER},
    {B(SURFACE), 0, 0, PLMI_MEANING_OTHER},
    {B(DATE), B(CLOCK) | B(TIME), 0, PLMI_MEANING_DATE_CLOCK},
    {B(DATE), 0, 0, PLMI_MEANING_DATE},
    {B(CLOCK), 0, 0, PLMI_MEANING_CLOCK},
    {B(TIME), 0, 0, PLMI_MEANING_TIME},
    {B(SET), 0, 0, PLMI_MEANING_SETPOINT},
    {B(DEPTH), 0, 0, PLMI_MEANING_DEPTH},
    {B(TEMP), 0, 0, PLMI_MEANING_TEMP},
    {B(CELL), B(NUMBER) | B(PO2) | B(O2), B(TANK), PLMI_MEANING_CELL},
    {B(PO2), B(NUMBER), 0, PLMI_MEANING_CELL},
    {B(PO2), 0, 0, PLMI_MEANING_PO2},
    {B(O2) | B(PARTIAL), 0, 0, PLMI_MEANING_PO2},
    {B(PARTIAL), 0, 0, PLMI_MEANING_OTHER},
    {B(O2), 0, B(PRESSURE), PLMI_MEANING_O2},
    {B(HE), 0, B(PRESSURE), PLMI_MEANING_HE},
    {B(N2), 0, 0, PLMI_MEANING_OTHER},
    {B(MODE), 0, 0, PLMI_MEANING_MODE},
    {B(GAS), 0, B(PRESSURE), PLMI_MEANING_GAS},
    {B(PRESSURE), 0, B(O2) | B(HE) | B(GAS), PLMI_MEANING_PRESSURE},
    {B(DIVE), 0, 0, PLMI_MEANING_DIVE},
    {0, B(NUMBER) | B(SAMPLE) | B(PRESSURE) | B(HE) | B(O2), 0, PLMI_MEANING_OTHER},
};

static enum plmi_meaning by_rule(uint64_t concepts)
{
    for (size_t i = 0; i < sizeof RULES / sizeof RULES[0]; i++) {
        const struct rule *rule = &RULES[i];
        if ((concepts & rule->all) == rule->all && (rule->any == 0 || (concepts & rule->any) != 0) &&
            (concepts & rule->none) == 0) {
            return rule->meaning;
        }
    }
    return PLMI_MEANING_UNKNOWN;
}

/* A word with a number behind it, as "cell2"; the word alone is looked up. */
static const struct plmi_word *numbered_word(const char *token, int *number)
{
    char stem[32];
    size_t n = strlen(token);
    size_t digits = 0;
    while (digits < n && token[n - 1 - digits] >= '0' && token[n - 1 - digits] <= '9') {
        digits++;
    }
    if (digits == 0 || digits > 2 || n - digits == 0 || n >= sizeof stem) {
        return NULL;
    }
    memcpy(stem, token, n - digits);
    stem[n - digits] = '\0';
    const struct plmi_word *word = plmi_word_find(stem);
    if (word != NULL) {
        *number = 0;
        for (const char *at = token + n - digits; *at != '\0'; at++) {
            *number = *number * 10 + (*at - '0');
        }
    }
    return word;
}

static bool all_digits(const char *token)
{
    return token[strspn(token, "0123456789")] == '\0';
}

/* Units that may as well be words ("min", "m") wait until the meaning is known. */
struct reading {
    struct plmi_header_cell cell;
    const char *units[4];
    size_t unit_count;
};

static void read_token(struct reading *reading, const char *token)
{
    struct plmi_header_cell *cell = &reading->cell;
    const struct plmi_word *word = plmi_word_find(token);
    bool unit = plmi_unit_of_word(token, PLMI_DIMENSION_NONE) != NULL;
    if (all_digits(token)) {
        cell->number = cell->number == 0 && strlen(token) < 3
                           ? (token[0] - '0') * (token[1] == '\0' ? 1 : 10) + (token[1] == '\0' ? 0 : token[1] - '0')
                           : cell->number;
        cell->concepts |= B(NUMBER);
        return;
    }
    if (unit && reading->unit_count < sizeof reading->units / sizeof reading->units[0]) {
        reading->units[reading->unit_count++] = token;
        return;
    }
    if (word == NULL) {
        word = numbered_word(token, &cell->number);
        cell->concepts |= word != NULL ? B(NUMBER) : 0;
    }
    if (word == NULL) {
        cell->unknown_words++;
        return;
    }
    cell->concepts |= word->concepts;
}

static enum plmi_time_form time_form(const char *const *units, size_t count)
{
    char letters[5] = "";
    for (size_t i = 0; i < count && i < 4; i++) {
        const struct plmi_unit *unit = plmi_unit_of_word(units[i], PLMI_DIMENSION_TIME);
        letters[i] = unit == NULL ? '-' : unit->name[0];
    }
    if (strcmp(letters, "ms") == 0) {
        return PLMI_TIME_FORM_MIN_SEC;
    }
    if (strcmp(letters, "hm") == 0) {
        return PLMI_TIME_FORM_HOUR_MIN;
    }
    return strcmp(letters, "hms") == 0 ? PLMI_TIME_FORM_HOUR_MIN_SEC : PLMI_TIME_FORM_UNKNOWN;
}

/* Units wait for their dimension; those that don't fit are words after all, or unknown. */
static void settle_units(struct reading *reading)
{
    struct plmi_header_cell *cell = &reading->cell;
    enum plmi_dimension dimension = MEANINGS[cell->meaning].dimension;
    bool depth = cell->meaning == PLMI_MEANING_DEPTH;
    for (size_t i = 0; i < reading->unit_count; i++) {
        const struct plmi_unit *unit =
            dimension == PLMI_DIMENSION_NONE ? NULL : plmi_unit_of_word(reading->units[i], dimension);
        if (unit == NULL && depth) {
            unit = plmi_unit_of_word(reading->units[i], PLMI_DIMENSION_PRESSURE);
        }
        const struct plmi_word *word = unit == NULL ? plmi_word_find(reading->units[i]) : NULL;
        if (unit != NULL) {
            cell->unit = cell->unit == NULL ? unit : cell->unit;
        } else if (word != NULL) {
            cell->concepts |= word->concepts;
        } else if (cell->meaning != PLMI_MEANING_OTHER && cell->meaning != PLMI_MEANING_UNKNOWN) {
            cell->unknown_words++;
        }
    }
}

/* What stands in brackets behind a name, where it is one short word that nobody knows: a unit as like as not. */
static bool unknown_in_brackets(const char *text, struct plmi_tokens *inside)
{
    const size_t longest = 5;
    const char *open = strpbrk(text, "([");
    if (open == NULL) {
        return false;
    }
    plmi_tokens_split(inside, open);
    const char *word = inside->count == 1 ? inside->token[0] : "";
    int number = 0;
    bool degrees = strcmp(word, "deg") == 0 || strcmp(word, "grad") == 0;
    return word[0] != '\0' && strlen(word) <= longest && !all_digits(word) && !degrees &&
           plmi_word_find(word) == NULL && numbered_word(word, &number) == NULL &&
           plmi_unit_of_word(word, PLMI_DIMENSION_NONE) == NULL;
}

/* A unit that the name has and the meaning does not. */
static void find_unknown_unit(struct plmi_header_cell *cell, const struct plmi_tokens *tokens, const char *text)
{
    struct plmi_tokens inside;
    const char *found = NULL;
    if (MEANINGS[cell->meaning].dimension == PLMI_DIMENSION_NONE || cell->unit != NULL ||
        cell->form != PLMI_TIME_FORM_UNKNOWN) {
        return;
    }
    for (size_t i = 0; i < tokens->count; i++) {
        found = plmi_unit_is_foreign(tokens->token[i]) ? tokens->token[i] : found;
    }
    if (found == NULL && unknown_in_brackets(text, &inside)) {
        found = inside.token[0];
    }
    if (found != NULL && strlen(found) < sizeof cell->unknown_unit) {
        memcpy(cell->unknown_unit, found, strlen(found) + 1);
    }
}

struct plmi_header_cell plmi_header_read(const char *text)
{
    struct plmi_tokens tokens;
    struct reading reading = {0};
    struct plmi_header_cell *cell = &reading.cell;
    if (strcmp(text, PLMI_HEADER_EVENTS) == 0) {
        cell->meaning = PLMI_MEANING_EVENTS;
        return *cell;
    }
    plmi_tokens_split(&tokens, text);
    for (size_t i = 0; i < tokens.count; i++) {
        read_token(&reading, tokens.token[i]);
    }
    cell->unknown_words += (int)tokens.dropped;
    cell->meaning = by_rule(cell->concepts);
    settle_units(&reading);
    cell->meaning = by_rule(cell->concepts);
    if (cell->meaning == PLMI_MEANING_TIME || cell->meaning == PLMI_MEANING_CLOCK) {
        cell->form = time_form(reading.units, reading.unit_count);
        cell->unit = cell->form != PLMI_TIME_FORM_UNKNOWN ? NULL : cell->unit;
    }
    if (cell->meaning == PLMI_MEANING_DEPTH && cell->unit != NULL &&
        plmi_unit_dimension(cell->unit) == PLMI_DIMENSION_PRESSURE) {
        cell->meaning = PLMI_MEANING_PRESSURE;
    }
    if (cell->meaning == PLMI_MEANING_O2 && cell->unit == NULL && reading.unit_count == 1 &&
        plmi_unit_of_word(reading.units[0], PLMI_DIMENSION_PRESSURE) != NULL) {
        cell->meaning = PLMI_MEANING_OTHER; /* "O2 (bar)": a tank as likely as a partial pressure */
    }
    find_unknown_unit(cell, &tokens, text);
    return *cell;
}

bool plmi_header_is_unit(const char *text)
{
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, text);
    for (size_t i = 0; i < tokens.count; i++) {
        if (plmi_unit_of_word(tokens.token[i], PLMI_DIMENSION_NONE) == NULL && strcmp(tokens.token[i], "deg") != 0 &&
            !plmi_unit_is_foreign(tokens.token[i])) {
            return false;
        }
    }
    return tokens.count > 0;
}

bool plmi_header_is_foreign_unit(const char *text)
{
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, text);
    return tokens.count == 1 && plmi_unit_is_foreign(tokens.token[0]);
}

const struct plmi_unit *plmi_header_unit(const char *text, enum plmi_meaning meaning)
{
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, text);
    for (size_t i = 0; i < tokens.count; i++) {
        enum plmi_dimension dimension = MEANINGS[meaning].dimension;
        const struct plmi_unit *unit =
            dimension == PLMI_DIMENSION_NONE ? NULL : plmi_unit_of_word(tokens.token[i], dimension);
        if (unit == NULL && meaning == PLMI_MEANING_DEPTH) {
            unit = plmi_unit_of_word(tokens.token[i], PLMI_DIMENSION_PRESSURE);
        }
        if (unit != NULL) {
            return unit;
        }
    }
    return NULL;
}
