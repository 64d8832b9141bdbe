/*
 * The table of looks, and the list they add to.
 * SPDX-License-Identifier: MIT
 */
#include "team/differences.h"

#include <math.h>
#include <stdlib.h>

#include "base/clock.h"

/* From here on a difference of ceilings or of decompression owed is a caution. */
#define BEARS_M   1.0
#define BEARS_MIN 1.0

static const struct {
    const char *word;
    plmi_difference_look *look;
} LOOKS[PLM_DIFFERENCE_COUNT] = {
    [PLM_DIFFERENCE_SETPOINT] = {"setpoint", plmi_differ_setpoint},
    [PLM_DIFFERENCE_MIX] = {"mix", plmi_differ_mix},
    [PLM_DIFFERENCE_MODE] = {"mode", plmi_differ_mode},
    [PLM_DIFFERENCE_MEASURED] = {"measured-po2", plmi_differ_measured},
    [PLM_DIFFERENCE_DEPTH] = {"depth", plmi_differ_depth},
    [PLM_DIFFERENCE_GAP] = {"gap", plmi_differ_gap},
    [PLM_DIFFERENCE_SURFACE] = {"surface-pressure", plmi_differ_surface},
    [PLM_DIFFERENCE_CLOCK] = {"clock", plmi_differ_clock},
    [PLM_DIFFERENCE_DIVER] = {"diver", plmi_differ_diver},
};

const char *plm_difference_kind_text(enum plm_difference_kind kind)
{
    return kind < PLM_DIFFERENCE_COUNT ? LOOKS[kind].word : "unknown";
}

/* What a disagreement weighs: by what it did, and a wrong name by itself. */
static enum plm_severity severity_of(const struct plm_difference *difference)
{
    bool bears = fabs(difference->ceiling_m) >= BEARS_M || fabs(difference->decompression_min) >= BEARS_MIN;
    return bears || difference->kind == PLM_DIFFERENCE_DIVER ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
}

enum plm_status plmi_differences_find(const struct plmi_comparison *comparison, struct plmi_difference_list *list)
{
    for (int kind = 0; kind < PLM_DIFFERENCE_COUNT; kind++) {
        enum plm_status status = LOOKS[kind].look(comparison, list);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    for (size_t i = 0; i < list->count; i++) {
        list->items[i].severity = severity_of(&list->items[i]);
    }
    return PLM_STATUS_OK;
}

struct plm_difference *plmi_difference_add(struct plmi_difference_list *list, enum plm_difference_kind kind,
                                           double from_s, double to_s)
{
    void *items = list->items;
    if (!plmi_array_grow(&items, &list->capacity, list->count, sizeof *list->items)) {
        return NULL;
    }
    list->items = items;
    struct plm_difference *difference = &list->items[list->count++];
    *difference = (struct plm_difference){.kind = kind,
                                          .from_s = from_s,
                                          .to_s = to_s,
                                          .a = "",
                                          .b = "",
                                          .ceiling_m = (double)NAN,
                                          .decompression_min = (double)NAN,
                                          .text = ""};
    return difference;
}

static const char *kept(struct plmi_difference_list *list, struct plmi_text *text)
{
    const char *copy = text->failed ? NULL : plmi_arena_text(list->arena, text->bytes ? text->bytes : "", text->count);
    plmi_text_free(text);
    return copy;
}

bool plmi_difference_say(struct plmi_difference_list *list, struct plm_difference *difference, struct plmi_text *a,
                         struct plmi_text *b, struct plmi_text *sentence)
{
    const char *said_a = kept(list, a), *said_b = kept(list, b), *said = kept(list, sentence);
    if (!said_a || !said_b || !said) {
        return false;
    }
    difference->a = said_a;
    difference->b = said_b;
    difference->text = said;
    return true;
}

void plmi_difference_span(struct plmi_text *out, double from_s, double to_s)
{
    plmi_text_puts(out, "from ");
    plmi_clock_duration(out, from_s);
    plmi_text_puts(out, " to ");
    plmi_clock_duration(out, to_s);
}

double plmi_comparison_time_s(const struct plmi_comparison *comparison, double b_time_s)
{
    return b_time_s * (1.0 + comparison->alignment->clock_drift_ppm * 1e-6) + comparison->alignment->record_offset_s;
}

double plmi_comparison_b_depth_m(const struct plmi_comparison *comparison, double a_time_s, size_t *hint)
{
    const struct plm_alignment *alignment = comparison->alignment;
    double b_time_s = (a_time_s - alignment->record_offset_s) / (1.0 + alignment->clock_drift_ppm * 1e-6);
    double depth_m = plmi_series_depth_m(&comparison->series_b, b_time_s, hint, NULL);
    return alignment->depth_scale * depth_m + alignment->depth_offset_m;
}
