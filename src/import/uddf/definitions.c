/*
 * Mixes, tanks, cells, sites, models and divers that dives refer to.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/definitions.h"

#include <plimsoll/card.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/figure.h"
#include "base/number.h"
#include "import/uddf/own.h"
#include "import/uddf/values.h"

/* More than this no logbook has; each new one is looked for among the others. */
#define MIXES_MOST  1000
#define THINGS_MOST 5000

/* Whether there is room for one more; tells and stops where there is none. */
static bool room(struct plmi_reader *reader, size_t count, size_t most, const char *what, long line)
{
    if (count < most) {
        return true;
    }
    plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, line, 0, "more than %zu %s; reading stops there", most,
                   what);
    plmi_uddf_fail(reader, PLM_STATUS_LIMIT);
    return false;
}

static const char *keep(struct plmi_reader *reader, const char *text)
{
    const char *copy = plmi_arena_text(&reader->definitions.arena, text, strlen(text));
    if (copy == NULL) {
        plmi_uddf_no_memory(reader);
    }
    return copy == NULL ? "" : copy;
}

static const char *id_of(struct plmi_reader *reader, const char *const *attributes)
{
    const char *id = plmi_xml_attribute(attributes, "id");
    return id == NULL ? "" : keep(reader, id);
}

static void open_mix(struct plmi_reader *reader, const char *const *attributes, long line)
{
    struct plmi_uddf_definitions *definitions = &reader->definitions;
    if (!room(reader, definitions->mix_count, MIXES_MOST, "mixes", line)) {
        return;
    }
    const char *id = id_of(reader, attributes);
    if (!plmi_array_grow((void **)&definitions->mixes, &definitions->mix_capacity, definitions->mix_count,
                         sizeof *definitions->mixes)) {
        plmi_uddf_no_memory(reader);
        return;
    }
    struct plmi_uddf_mix *mix = &definitions->mixes[definitions->mix_count];
    *mix = (struct plmi_uddf_mix){.id = id, .name = "", .line = (uint32_t)line, .po2_max_bar = (double)NAN};
    mix->parts = (struct plmi_mix_parts){(double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN};
    for (size_t i = 0; i < definitions->mix_count; i++) {
        if (id[0] != '\0' && strcmp(definitions->mixes[i].id, id) == 0) {
            definitions->mixes[i].doubled = true;
            plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_REFERENCE, line, 0,
                           "the id '%.60s' stands for two mixes, here and in line %lu", id,
                           (unsigned long)definitions->mixes[i].line);
        }
    }
    definitions->mix_open = ++definitions->mix_count;
}

static void open_thing(struct plmi_reader *reader, enum plmi_uddf_kind kind, const char *const *attributes, long line)
{
    struct plmi_uddf_definitions *definitions = &reader->definitions;
    if (!room(reader, definitions->thing_count, THINGS_MOST, "sites, tanks, cells, recorders and models", line)) {
        return;
    }
    const char *id = id_of(reader, attributes);
    if (!plmi_array_grow((void **)&definitions->things, &definitions->thing_capacity, definitions->thing_count,
                         sizeof *definitions->things)) {
        plmi_uddf_no_memory(reader);
        return;
    }
    struct plmi_uddf_thing *thing = &definitions->things[definitions->thing_count];
    *thing = (struct plmi_uddf_thing){.kind = kind,
                                      .id = id,
                                      .name = "",
                                      .altitude_m = (double)NAN,
                                      .water_kg_m3 = (double)NAN,
                                      .gf_low_pct = (double)NAN,
                                      .gf_high_pct = (double)NAN,
                                      .mix_ref = ""};
    definitions->thing_open = ++definitions->thing_count;
    if (kind == PLMI_UDDF_KIND_CELL && reader->cell_count < PLM_CELLS) {
        reader->cell_refs[reader->cell_count++] = id;
    }
}

bool plmi_uddf_definitions_open(struct plmi_reader *reader, enum plmi_uddf_element element,
                                const char *const *attributes, long line)
{
    if (reader->dive.active || reader->definitions_done) {
        return false;
    }
    switch (element) {
    case PLMI_UDDF_gasdefinitions: reader->definitions.gases_seen = true; return true;
    case PLMI_UDDF_mix: open_mix(reader, attributes, line); return true;
    case PLMI_UDDF_site: open_thing(reader, PLMI_UDDF_KIND_SITE, attributes, line); return true;
    case PLMI_UDDF_tank: open_thing(reader, PLMI_UDDF_KIND_TANK, attributes, line); return true;
    case PLMI_UDDF_o2sensor: open_thing(reader, PLMI_UDDF_KIND_CELL, attributes, line); return true;
    case PLMI_UDDF_divecomputer: open_thing(reader, PLMI_UDDF_KIND_COMPUTER, attributes, line); return true;
    case PLMI_UDDF_buehlmann: open_thing(reader, PLMI_UDDF_KIND_MODEL, attributes, line); return true;
    case PLMI_UDDF_tankdata: open_thing(reader, PLMI_UDDF_KIND_TANKDATA, attributes, line); return true;
    default: return false;
    }
}

static double *part_of(struct plmi_mix_parts *parts, enum plmi_uddf_element element)
{
    switch (element) {
    case PLMI_UDDF_o2: return &parts->o2;
    case PLMI_UDDF_he: return &parts->he;
    case PLMI_UDDF_n2: return &parts->n2;
    case PLMI_UDDF_ar: return &parts->ar;
    case PLMI_UDDF_h2: return &parts->h2;
    default: return NULL;
    }
}

/* maximumpo2 is pascal, and bar in an example of the standard's own: each value is taken by itself. */
static double po2_max_bar(struct plmi_reader *reader, const char *text, long line, long column)
{
    double value = plmi_uddf_number(reader, text, "maximumpo2", line, column);
    bool pa = value >= 5000 || reader->exact;
    double bar = pa ? plmi_uddf_bar_of_pa(text, value) : value;
    if (!(bar > 0 && bar <= 10)) {
        if (!isnan(bar)) {
            plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_PO2, line, column,
                           "a maximumpo2 of %s is neither pascal nor bar; value dropped",
                           plmi_figure_short(value, 3).text);
        }
        return (double)NAN;
    }
    if (!pa) {
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_UNIT_GUESSED, line, column,
                       "a maximumpo2 of %s is read as bar", plmi_figure_short(value, 3).text);
    }
    return bar;
}

static void close_in_mix(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                         long column)
{
    struct plmi_uddf_mix *mix = &reader->definitions.mixes[reader->definitions.mix_open - 1];
    double *part = part_of(&mix->parts, element);
    if (part != NULL) {
        *part = plmi_uddf_number(reader, text, "part of a mix", line, column);
    } else if (element == PLMI_UDDF_name) {
        mix->name = keep(reader, text);
    } else if (element == PLMI_UDDF_maximumpo2) {
        mix->po2_max_bar = po2_max_bar(reader, text, line, column);
    }
}

/* A gradient factor is a fraction, and percent in some files: each value is taken by itself. */
static double factor_pct(struct plmi_reader *reader, const char *text, long line, long column)
{
    const int percent_tens = 2;
    double value = plmi_uddf_number(reader, text, "a gradient factor", line, column), percent;
    if (!(value <= 1 || reader->exact)) {
        if (!isnan(value)) {
            plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_UNIT_GUESSED, line, column,
                           "a gradient factor of %s is read as percent", plmi_figure_short(value, 3).text);
        }
        return value;
    }
    return plmi_number_parse_scaled(text, strlen(text), '.', percent_tens, &percent) ? percent : value * 100;
}

static void close_in_thing(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                           long column)
{
    struct plmi_uddf_thing *thing = &reader->definitions.things[reader->definitions.thing_open - 1];
    if (element == PLMI_UDDF_name && plmi_uddf_parent(reader) != PLMI_UDDF_OTHER) {
        thing->name = keep(reader, text);
    } else if (element == PLMI_UDDF_altitude) {
        thing->altitude_m = plmi_uddf_number(reader, text, "an altitude", line, column);
    } else if (element == PLMI_UDDF_density) {
        thing->water_kg_m3 = plmi_uddf_number(reader, text, "a density", line, column);
    } else if (element == PLMI_UDDF_mixref) {
        thing->mix_ref = keep(reader, reader->attribute[0] != '\0' ? reader->attribute : text);
    } else if (element == PLMI_UDDF_gradientfactorlow) {
        thing->gf_low_pct = factor_pct(reader, text, line, column);
    } else if (element == PLMI_UDDF_gradientfactorhigh) {
        thing->gf_high_pct = factor_pct(reader, text, line, column);
    }
}

static void close_name_of_owner(struct plmi_reader *reader, const char *text)
{
    char name[200];
    const char *before = reader->definitions.diver;
    size_t n = before == NULL ? 0 : strlen(before);
    size_t add = strlen(text);
    if (n + add + 2 > sizeof name || add == 0) {
        return;
    }
    (void)snprintf(name, sizeof name, "%s%s%s", n > 0 ? before : "", n > 0 ? " " : "", text);
    reader->definitions.diver = keep(reader, name);
}

bool plmi_uddf_definitions_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text,
                                 long line, long column)
{
    if (reader->dive.active || reader->definitions_done) {
        return false;
    }
    if (element == PLMI_UDDF_mix) {
        reader->definitions.mix_open = 0;
    } else if (element == PLMI_UDDF_site || element == PLMI_UDDF_tank || element == PLMI_UDDF_o2sensor ||
               element == PLMI_UDDF_divecomputer || element == PLMI_UDDF_tankdata || element == PLMI_UDDF_buehlmann) {
        reader->definitions.thing_open = 0;
    } else if (reader->definitions.mix_open > 0) {
        close_in_mix(reader, element, text, line, column);
    } else if (reader->definitions.thing_open > 0) {
        close_in_thing(reader, element, text, line, column);
    } else if ((element == PLMI_UDDF_firstname || element == PLMI_UDDF_lastname) &&
               plmi_uddf_inside(reader, PLMI_UDDF_owner)) {
        close_name_of_owner(reader, text);
    } else if (element == PLMI_UDDF_name && plmi_uddf_parent(reader) == PLMI_UDDF_generator) {
        reader->exact = plmi_uddf_own_generator(text);
    } else {
        return false;
    }
    return true;
}

void plmi_uddf_definitions_from_card(struct plmi_reader *reader)
{
    struct plmi_uddf_definitions *definitions = &reader->definitions;
    const struct plm_card *card = reader->options->card;
    struct plm_dive_mix mix;
    if (card == NULL || (definitions->mix_count > 0 && !definitions->from_card)) {
        return;
    }
    definitions->from_card = true;
    for (size_t i = definitions->mix_count; plm_card_mix(card, i, &mix); i++) {
        const char *name = keep(reader, mix.name);
        if (!plmi_array_grow((void **)&definitions->mixes, &definitions->mix_capacity, i, sizeof *definitions->mixes)) {
            plmi_uddf_no_memory(reader);
            return;
        }
        definitions->mixes[i] =
            (struct plmi_uddf_mix){.id = name, .name = name, .po2_max_bar = mix.po2_max_bar, .use = mix.use};
        definitions->mixes[i].parts =
            (struct plmi_mix_parts){mix.mix.o2_frac, mix.mix.he_frac, mix.mix.n2_frac, (double)NAN, (double)NAN};
        definitions->mix_count = i + 1;
    }
}

void plmi_uddf_definitions_free(struct plmi_reader *reader)
{
    free(reader->definitions.mixes);
    free(reader->definitions.things);
    plmi_arena_free(&reader->definitions.arena);
}
