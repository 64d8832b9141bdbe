/*
 * What references name: mixes by id or by name, and the things of other definitions.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/references.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "import/format/breathing.h"

const struct plmi_uddf_thing *plmi_uddf_thing_find(const struct plmi_reader *reader, const char *id, bool any_kind,
                                                   enum plmi_uddf_kind kind)
{
    for (size_t i = 0; i < reader->definitions.thing_count; i++) {
        const struct plmi_uddf_thing *thing = &reader->definitions.things[i];
        if ((any_kind || thing->kind == kind) && thing->id[0] != '\0' && strcmp(thing->id, id) == 0) {
            return thing;
        }
    }
    return NULL;
}

uint32_t plmi_uddf_mix_of_id(const struct plmi_reader *reader, const char *id)
{
    for (uint32_t i = 0; i < reader->definitions.mix_count; i++) {
        if (strcmp(reader->definitions.mixes[i].id, id) == 0 && !reader->definitions.mixes[i].doubled) {
            return i;
        }
    }
    return PLMI_UDDF_NONE;
}

/* A mix by a name that no other has. */
static uint32_t by_name(const struct plmi_reader *reader, const char *ref)
{
    uint32_t found = PLMI_UDDF_NONE;
    for (size_t i = 0; i < reader->definitions.mix_count; i++) {
        if (strcmp(reader->definitions.mixes[i].name, ref) == 0) {
            if (found != PLMI_UDDF_NONE) {
                return PLMI_UDDF_NONE;
            }
            found = (uint32_t)i;
        }
    }
    return found;
}

/* The mix of the card that a name of the file stands for: written alike but for case, named by its parts, or the only
 * one.
 */
static uint32_t of_card(struct plmi_reader *reader, const char *ref, long line, long column)
{
    const struct plmi_uddf_definitions *definitions = &reader->definitions;
    const double same = 1e-6;
    double o2_frac = 0, he_frac = 0;
    bool parts = plmi_mix_name_parse(ref, &o2_frac, &he_frac);
    uint32_t found = definitions->mix_count == 1 ? 0 : PLMI_UDDF_NONE;
    for (uint32_t i = 0; i < definitions->mix_count; i++) {
        const struct plmi_uddf_mix *mix = &definitions->mixes[i];
        bool alike = parts && fabs(mix->parts.o2 - o2_frac) < same && fabs(mix->parts.he - he_frac) < same;
        if (plmi_text_same(mix->id, ref)) {
            return i;
        }
        found = alike ? i : found;
    }
    if (found == PLMI_UDDF_NONE) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_MIX_UNKNOWN, line, column,
                       "the mix '%.60s' is not defined, and the card names none so; the dive is not read", ref);
    } else {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, line, column,
                       "the mix '%.60s' is not defined; the card's '%.60s' is taken", ref,
                       definitions->mixes[found].name);
    }
    return found;
}

uint32_t plmi_uddf_mix_find(struct plmi_reader *reader, const char *ref, long line, long column)
{
    if (ref == NULL || ref[0] == '\0') {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_MIX_UNKNOWN, line, column,
                       "a change of mix names no mix; the dive is not read");
        return PLMI_UDDF_NONE;
    }
    for (size_t i = 0; i < reader->definitions.mix_count; i++) {
        const struct plmi_uddf_mix *mix = &reader->definitions.mixes[i];
        if (strcmp(mix->id, ref) == 0) {
            if (mix->doubled) {
                plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_REFERENCE, line, column,
                               "'%.60s' stands for two mixes; the dive is not read", ref);
                return PLMI_UDDF_NONE;
            }
            return (uint32_t)i;
        }
    }
    uint32_t named = by_name(reader, ref);
    if (reader->definitions.mix_count == 0) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_MIX_UNKNOWN, line, column,
                       "the mix '%.60s' is not defined, nor is any other (a dive card can: [mixes]); the dive is not "
                       "read",
                       ref);
    } else if (reader->definitions.from_card) {
        named = of_card(reader, ref, line, column);
    } else if (named == PLMI_UDDF_NONE) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_MIX_UNKNOWN, line, column,
                       "the mix '%.60s' is not defined; the dive is not read", ref);
    } else {
        plmi_diags_add(reader->diags, PLM_LEVEL_WARNING, PLM_DIAG_MIX_GUESSED, line, column,
                       "'%.60s' is the name of a mix, not its id; that mix is taken", ref);
    }
    return named;
}

bool plmi_uddf_mix_use(struct plmi_reader *reader, struct plmi_uddf_track *track, uint32_t at, uint32_t *index)
{
    struct plmi_uddf_mix *mix = &reader->definitions.mixes[at];
    if (!mix->settled) {
        mix->settled = true;
        mix->usable =
            plmi_mix_parts_settle(&mix->parts, mix->name[0] != '\0' ? mix->name : mix->id, mix->line, reader->diags);
    }
    if (!mix->usable) {
        reader->partial = true;
        return false;
    }
    if (track->mix_index[at] == PLMI_UDDF_NONE) {
        enum plm_status status =
            plm_dive_builder_mix(track->builder, mix->id, mix->name, mix->parts.o2, mix->parts.he, (double)NAN,
                                 (double)NAN, (double)NAN, mix->use, mix->line, &track->mix_index[at]);
        if (status != PLM_STATUS_OK) {
            track->mix_index[at] = PLMI_UDDF_NONE;
            if (status == PLM_STATUS_MEMORY) {
                plmi_uddf_fail(reader, status);
            }
            return false;
        }
    }
    *index = track->mix_index[at];
    return true;
}
