/*
 * What the standard has no element for and our own exports keep in applicationdata: water, steps of depth, uses of
 * mixes, events that no waypoint can hold. Must not take anything that a waypoint tells.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/own.h"

#include <math.h>
#include <string.h>

#include "import/format/breathing.h"
#include "import/uddf/references.h"
#include "import/uddf/values.h"

bool plmi_uddf_own_generator(const char *name)
{
    return strcmp(name, "plimsoll") == 0;
}

/* The number of an attribute; NaN where it is missing, or no number (reported). */
static double number_of(struct plmi_reader *reader, const char *const *attributes, const char *name, long line,
                        long column)
{
    const char *text = plmi_xml_attribute(attributes, name);
    return text == NULL ? (double)NAN : plmi_uddf_number(reader, text, name, line, column);
}

static void take_dive(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    struct plm_dive_builder *builder = reader->dive.track.builder;
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    double water_kg_m3 = number_of(reader, attributes, "water_kg_m3", line, column);
    info->water_kg_m3 = isnan(water_kg_m3) ? info->water_kg_m3 : water_kg_m3;
    info->depth_step_m = number_of(reader, attributes, "depth_step_m", line, column);
    reader->dive.diver = plm_dive_builder_text(builder, plmi_xml_attribute(attributes, "diver"));
}

static void take_mix(struct plmi_reader *reader, const char *const *attributes)
{
    const char *ref = plmi_xml_attribute(attributes, "ref");
    const char *word = plmi_xml_attribute(attributes, "use");
    uint32_t mix = ref == NULL ? PLMI_UDDF_NONE : plmi_uddf_mix_of_id(reader, ref);
    enum plm_mix_use use = PLM_MIX_USE_ANY;
    uint32_t index;
    if (mix == PLMI_UDDF_NONE || word == NULL || !plmi_uddf_mix_use(reader, &reader->dive.track, mix, &index)) {
        return;
    }
    plmi_mix_use_parse(word, &use);
    if (use != PLM_MIX_USE_ANY) {
        plm_dive_builder_carry(reader->dive.track.builder, index, use, (double)NAN);
    }
}

static void take_event(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    const char *word = plmi_xml_attribute(attributes, "kind");
    double time_s = number_of(reader, attributes, "time_s", line, column);
    enum plm_event_kind kind;
    if (word == NULL || !plm_event_kind_find(word, &kind) || !(fabs(time_s) < 4e9)) {
        plmi_uddf_lose(reader, PLM_LEVEL_WARNING, PLM_DIAG_XML_ELEMENT, line, column,
                       "an event without a time or a kind that is known; dropped");
        return;
    }
    const struct plm_event event = {
        .time_ms = llround(time_s * 1000.0),
        .kind = kind,
        .value = number_of(reader, attributes, "value", line, column),
        .value2 = number_of(reader, attributes, "value2", line, column),
        .text = plmi_xml_attribute(attributes, "text"),
        .line = (uint32_t)line,
    };
    if (plm_dive_builder_event(reader->dive.track.builder, &event) != PLM_STATUS_OK) {
        plmi_uddf_fail(reader, PLM_STATUS_MEMORY);
    }
}

void plmi_uddf_own_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                        long line, long column)
{
    if (reader->dive.track.builder == NULL || !plmi_uddf_inside(reader, PLMI_UDDF_applicationdata)) {
        return;
    }
    if (element == PLMI_UDDF_plimsoll) {
        take_dive(reader, attributes, line, column);
    } else if (element == PLMI_UDDF_carriedmix) {
        take_mix(reader, attributes);
    } else if (element == PLMI_UDDF_recordedevent) {
        take_event(reader, attributes, line, column);
    }
}
