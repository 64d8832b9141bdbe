/*
 * The list that looks at two records add to, and moments and depths of one record by the other.
 * SPDX-License-Identifier: MIT
 */
#include "team/comparison.h"

#include <math.h>

#include "base/clock.h"

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
    const char *copy =
        text->failed ? NULL : plmi_arena_text(list->arena, text->bytes != NULL ? text->bytes : "", text->count);
    plmi_text_free(text);
    return copy;
}

bool plmi_difference_say(struct plmi_difference_list *list, struct plm_difference *difference, struct plmi_text *a,
                         struct plmi_text *b, struct plmi_text *sentence)
{
    const char *said_a = kept(list, a), *said_b = kept(list, b), *said = kept(list, sentence);
    if (said_a == NULL || said_b == NULL || said == NULL) {
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
