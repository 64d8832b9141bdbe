/*
 * Lines before the header: "Start: 2031-05-06 09:30", "Surface pressure;1013 mbar". What fits no key is passed over.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/preamble.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "dive/stated.h"
#include "import/format/tokens.h"
#include "import/table/own.h"

#define B(concept) PLMI_BIT(concept)

/* One line taken apart; value is what stands behind the key. */
struct line {
    struct plmi_header_cell key;
    const char *name, *value;
    long line;
    struct plmi_diags *diags;
};

typedef void (*take)(struct plmi_table_plan *plan, const struct line *line);

/* A number and its unit, in ours; NaN where there is none. */
static double measured(const struct line *line, enum plmi_dimension dimension)
{
    char text[64];
    size_t n = strspn(line->value, "+-0123456789.,eE");
    double value;
    if (n == 0 || n >= sizeof text) {
        return (double)NAN;
    }
    memcpy(text, line->value, n);
    text[n] = '\0';
    if (!plmi_number_parse(text, n, '.', &value) && !plmi_number_parse(text, n, ',', &value)) {
        return (double)NAN;
    }
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, line->value + n);
    const struct plmi_unit *unit = line->key.unit;
    for (size_t i = 0; i < tokens.count; i++) {
        const struct plmi_unit *named = plmi_unit_of_word(tokens.token[i], dimension);
        unit = named == NULL ? unit : named;
    }
    return unit == NULL ? value : plmi_unit_convert(unit, value);
}

/* A date in which day and month could change places. */
static bool doubtful(const struct plmi_table_plan *plan, const char *text)
{
    int parts[3];
    bool year_first = false;
    return plan->date_order == PLMI_DATE_ORDER_UNKNOWN && plmi_date_parts(text, parts, &year_first) && !year_first &&
           parts[0] <= 12 && parts[1] <= 12 && parts[0] != parts[1] && text[strcspn(text, "-/.")] != '.';
}

static void take_start(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.doubtful_date = doubtful(plan, line->value) ? line->value : plan->preamble.doubtful_date;
    struct plm_stamp stamp;
    int64_t time_ms;
    struct plm_stamp *start = &plan->preamble.start;
    if (plmi_stamp_parse(line->value, plan->date_order, &stamp)) {
        bool date_again = start->known && start->has_clock && !stamp.has_clock;
        if (start->has_clock && !stamp.has_clock) {
            stamp.local_ms += start->local_ms;
            stamp.has_clock = true;
        }
        *start = date_again ? *start : stamp;
    } else if (plmi_daytime_parse(line->value, &time_ms)) {
        /* A clock before its date waits as a time on day 0; known by has_clock alone. */
        start->local_ms += start->has_clock ? 0 : time_ms;
        start->has_clock = true;
    }
}

/* A number of a line as it can be; one that cannot is left aside. */
static double stated(struct plmi_table_plan *plan, const struct line *line, enum plmi_stated what, double value)
{
    double settled = plmi_stated_settle(what, value, line->diags, line->line);
    plan->partial = plan->partial || (!isnan(value) && isnan(settled));
    return settled;
}

static void take_surface(struct plmi_table_plan *plan, const struct line *line)
{
    double bar = measured(line, PLMI_DIMENSION_PRESSURE);
    if (plmi_stated_possible(PLMI_TOLD_SURFACE, bar / 1000)) {
        bar /= 1000; /* a bare number of millibar */
    }
    plan->preamble.surface_bar = stated(plan, line, PLMI_TOLD_SURFACE, bar);
}

static void take_altitude(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.altitude_m = stated(plan, line, PLMI_TOLD_ALTITUDE, measured(line, PLMI_DIMENSION_LENGTH));
}

static void take_water(struct plmi_table_plan *plan, const struct line *line)
{
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, line->value);
    for (size_t i = 0; i < tokens.count; i++) {
        if (strcmp(tokens.token[i], "salt") == 0 || strcmp(tokens.token[i], "sea") == 0) {
            plan->preamble.water_kg_m3 = 1025;
        } else if (strcmp(tokens.token[i], "fresh") == 0) {
            plan->preamble.water_kg_m3 = 1000;
        } else if (strcmp(tokens.token[i], "en13319") == 0) {
            plan->preamble.water_kg_m3 = 1019.7162;
        }
    }
    double kg_m3 = stated(plan, line, PLMI_TOLD_WATER, measured(line, PLMI_DIMENSION_NONE));
    plan->preamble.water_kg_m3 = isnan(kg_m3) ? plan->preamble.water_kg_m3 : kg_m3;
}

static void take_units(struct plmi_table_plan *plan, const struct line *line)
{
    struct plmi_tokens tokens;
    plmi_tokens_split(&tokens, line->value);
    for (size_t i = 0; i < tokens.count; i++) {
        plan->preamble.imperial = plan->preamble.imperial || strcmp(tokens.token[i], "imperial") == 0;
    }
}

static void take_interval(struct plmi_table_plan *plan, const struct line *line)
{
    double seconds = stated(plan, line, PLMI_TOLD_SAMPLING, measured(line, PLMI_DIMENSION_TIME));
    plan->preamble.interval_s = isnan(seconds) ? plan->preamble.interval_s : seconds;
}

static void take_diver(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.diver = line->value;
}

static void take_recorder(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.recorder = plan->preamble.recorder == NULL ? line->value : plan->preamble.recorder;
}

static void take_site(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.site = line->value;
}

static void take_number(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.number = line->value;
}

static void take_notes(struct plmi_table_plan *plan, const struct line *line)
{
    plan->preamble.notes = line->value;
}

/* First fit wins. */
static const struct {
    uint64_t all, none;
    take take;
    const char *what;
} KEYS[] = {
    {B(SURFACE) | B(PRESSURE), B(INTERVAL), take_surface, "Surface pressure"},
    {B(AMBIENT) | B(PRESSURE), 0, take_surface, "Surface pressure"},
    {B(ALTITUDE), 0, take_altitude, "Altitude"},
    {B(INTERVAL), B(SURFACE), take_interval, "Sample interval"},
    {B(SAMPLE) | B(RATE), 0, take_interval, "Sample interval"},
    {B(UNITS), 0, take_units, "Units"},
    {B(DENSITY), 0, take_water, "Water"},
    {B(WATER), B(TEMP), take_water, "Water"},
    {B(RECORDER), B(NUMBER) | B(DATE), take_recorder, "Recorder"},
    {B(DIVER), 0, take_diver, "Diver"},
    {B(SITE), 0, take_site, "Site"},
    {B(NOTES), 0, take_notes, "Notes"},
    {B(DIVE) | B(NUMBER), 0, take_number, "Number of the dive"},
    {B(DATE), B(END), take_start, "Start"},
    {B(START), B(DEPTH) | B(TEMP) | B(PRESSURE), take_start, "Start"},
    {B(CLOCK), B(END), take_start, "Start"},
};

/* Takes a row apart at the first ':' or '=' of its first cell, or between its first two cells; false where there is no
 * key. */
static bool line_read(struct plmi_table_plan *plan, const struct plmi_head_row *row, struct line *line)
{
    const char *key = plmi_head_cell(row, 0);
    key += strspn(key, "#/;*! \t");
    size_t n = strcspn(key, ":=");
    bool inside = key[n] != '\0';
    const char *value = inside ? key + n + 1 : plmi_head_cell(row, 1);
    if (inside && plmi_cell_empty(value)) {
        value = plmi_head_cell(row, 1);
    }
    value += strspn(value, " \t");
    bool comment = plmi_head_cell(row, 0)[0] == '#' && !inside;
    if (n == 0 || n > 60 || comment || plmi_cell_empty(value)) {
        return false;
    }
    const char *copy = plmi_plan_text(plan, "%.*s", (int)n, key);
    line->name = copy;
    line->key = plmi_header_read(copy);
    line->value = value;
    return true;
}

void plmi_plan_preamble(struct plmi_table_plan *plan, struct plmi_diags *diags)
{
    size_t end = plan->head.header == PLMI_NO_ROW ? plan->head.data : plan->head.header;
    for (size_t i = 0; i < end; i++) {
        struct line line = {.line = plan->head.rows[i].line, .diags = diags};
        if (!line_read(plan, &plan->head.rows[i], &line)) {
            continue;
        }
        if (plmi_plan_own_line(plan, line.name, line.value)) {
            plmi_plan_fact(plan, line.name, line.value,
                           plmi_plan_text(plan, "line %ld, before the header", plan->head.rows[i].line));
            continue;
        }
        for (size_t k = 0; k < sizeof KEYS / sizeof KEYS[0]; k++) {
            if ((line.key.concepts & KEYS[k].all) == KEYS[k].all && (line.key.concepts & KEYS[k].none) == 0) {
                KEYS[k].take(plan, &line);
                plmi_plan_fact(plan, KEYS[k].what, line.value,
                               plmi_plan_text(plan, "line %ld, before the header", plan->head.rows[i].line));
                break;
            }
        }
    }
    if (!plan->preamble.start.known) {
        plan->preamble.start = (struct plm_stamp){0};
    }
}
