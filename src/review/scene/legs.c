/*
 * Finds the legs of a plan's ascent.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/legs.h"

#include <math.h>
#include <stdlib.h>

#include "base/arena.h"

#define LINE_M      0.5  /* [m] as near as this to a line is on it */
#define LEAST_M     2.0  /* [m] shortest leg */
#define LEAST_M_MIN 1.0  /* [m/min] slowest leg */
#define MARGIN      0.15 /* share of a leg left out on either side, ... */
#define HOVER_M     1.05 /* [m] ... and at least this, for a diver who hovers about a stop, ... */
#define MARGIN_MOST 0.35 /* ... but no more than this share */

/* The point furthest in depth from the line between two points; first where none is further than LINE_M. */
static size_t furthest(const struct plm_review_scene *scene, size_t first, size_t last)
{
    double start_s = plmi_review_time_s(scene, first), span_s = plmi_review_time_s(scene, last) - start_s;
    double start_m = scene->points[first].depth_m, rise_m = scene->points[last].depth_m - start_m, most_m = LINE_M;
    size_t best = first;
    for (size_t i = first + 1; i < last; i++) {
        double share = span_s > 0 ? (plmi_review_time_s(scene, i) - start_s) / span_s : 0;
        double away_m = fabs(scene->points[i].depth_m - start_m - share * rise_m);
        if (away_m > most_m) {
            most_m = away_m;
            best = i;
        }
    }
    return best;
}

static enum plm_status add(struct plmi_review_legs *legs, const struct plm_review_scene *scene, size_t first,
                           size_t last)
{
    double from_m = scene->points[first].depth_m, to_m = scene->points[last].depth_m;
    double minutes = (plmi_review_time_s(scene, last) - plmi_review_time_s(scene, first)) / 60;
    if (from_m - to_m < LEAST_M || minutes <= 0 || (from_m - to_m) / minutes < LEAST_M_MIN) {
        return PLM_STATUS_OK;
    }
    void *items = legs->items;
    if (!plmi_array_grow(&items, &legs->capacity, legs->count, sizeof *legs->items)) {
        return PLM_STATUS_MEMORY;
    }
    legs->items = items;
    legs->items[legs->count++] = (struct plmi_review_leg){from_m, to_m, (from_m - to_m) / minutes};
    return PLM_STATUS_OK;
}

enum plm_status plmi_review_legs_find(struct plmi_review_legs *out, const struct plm_review_scene *scene,
                                      const struct plmi_review_phases *phases)
{
    *out = (struct plmi_review_legs){.items = NULL};
    size_t first = phases->left, end = scene->summary->surfaced;
    size_t *ends = malloc((scene->count + 1) * sizeof *ends), depth = 0;
    if (ends == NULL) {
        return PLM_STATUS_MEMORY;
    }
    enum plm_status status = PLM_STATUS_OK;
    for (ends[depth++] = end; depth > 0 && first < end && status == PLM_STATUS_OK;) {
        size_t split = furthest(scene, first, ends[depth - 1]);
        if (split != first) {
            ends[depth++] = split;
            continue;
        }
        status = add(out, scene, first, ends[depth - 1]);
        first = ends[--depth];
    }
    free(ends);
    return status;
}

void plmi_review_legs_free(struct plmi_review_legs *legs)
{
    free(legs->items);
    *legs = (struct plmi_review_legs){.items = NULL};
}

struct plmi_review_passage plmi_review_leg_pass(const struct plm_review_scene *scene, const struct plmi_review_leg *leg,
                                                bool fitted)
{
    double length_m = leg->from_m - leg->to_m;
    double margin_m = fmax(MARGIN * length_m, fmin(HOVER_M, MARGIN_MOST * length_m)), upper_m = leg->to_m + margin_m,
           lower_m = leg->from_m - margin_m;
    struct plmi_review_passage passage = {.from_s = plmi_review_last_at_s(scene, lower_m),
                                          .to_s = plmi_review_last_at_s(scene, upper_m)};
    double minutes = (passage.to_s - passage.from_s) / 60;
    passage.rate_m_min = minutes > 0 ? (lower_m - upper_m) / minutes : (double)NAN;
    if (!fitted || isnan(passage.rate_m_min)) {
        return passage;
    }
    double most_m_min = 0;
    size_t first = plmi_review_point_at(scene, passage.from_s), last = plmi_review_point_at(scene, passage.to_s);
    for (size_t i = first; i <= last + 1 && i < scene->count; i++) {
        most_m_min = fmax(most_m_min, scene->points[i].rate_m_min);
    }
    passage.rate_m_min = fmin(passage.rate_m_min, most_m_min);
    return passage;
}
