/*
 * Divides a dive into its parts.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/parts.h"

#include <math.h>
#include <stdlib.h>

#include "base/arena.h"

#define REST_S \
    60.0 /* [s] a band of depth passed faster than this is no stop; the shortest stop of schedules. Convention */

/* Ends the part before `end`; parts without points are none, and ways next to each other are one. */
static bool add(struct plm_review_parts *parts, enum plmi_review_part part, size_t end)
{
    struct plmi_review_part_at *last = parts->count > 0 ? &parts->items[parts->count - 1] : NULL;
    if (end <= (last == NULL ? 0 : last->end)) {
        return true;
    }
    if (last != NULL && last->part == PLMI_PART_WAY && part == PLMI_PART_WAY) {
        last->end = end;
        return true;
    }
    void *items = parts->items;
    if (!plmi_array_grow(&items, &parts->capacity, parts->count, sizeof *parts->items)) {
        return false;
    }
    parts->items = items;
    parts->items[parts->count++] = (struct plmi_review_part_at){part, end};
    return true;
}

static size_t bottom_begin(const struct plm_review_scene *scene)
{
    double depth_m = scene->rules->bottom_frac * scene->summary->max_depth_m;
    size_t first = 0;
    while (first < scene->summary->bottom_end && scene->points[first].depth_m < depth_m) {
        first++;
    }
    return first;
}

/* The number of the stop that a depth is nearest to. */
static double band_of(const struct plm_review_scene *scene, double depth_m)
{
    return floor(depth_m / scene->rules->stop_step_m + 0.5);
}

/* [last - first + 1] whether the diver comes there for the last time into a band above. Returns: NULL without memory.
 */
static bool *cuts_find(const struct plm_review_scene *scene, size_t first, size_t last)
{
    bool *cuts = calloc(last - first + 1, sizeof *cuts);
    double deepest_m = scene->points[last].depth_m;
    for (size_t i = last; cuts != NULL && i > first; i--) {
        double before_m = fmax(deepest_m, scene->points[i - 1].depth_m);
        cuts[i - first] = band_of(scene, before_m) > band_of(scene, deepest_m);
        deepest_m = before_m;
    }
    return cuts;
}

/* From the end of the bottom until the diver is at the surface. */
static bool add_ascent(struct plm_review_parts *parts, const struct plm_review_scene *scene, size_t first, size_t last)
{
    bool *cuts = cuts_find(scene, first, last);
    bool added = cuts != NULL;
    for (size_t begin = first, i = first + 1; added && i <= last; i++) {
        if (!cuts[i - first] && i < last) {
            continue;
        }
        bool rest = plmi_review_time_s(scene, i) - plmi_review_time_s(scene, begin) >= REST_S;
        added = add(parts, rest ? PLMI_PART_STOP : PLMI_PART_WAY, i);
        begin = i;
    }
    free(cuts);
    return added;
}

enum plm_status plmi_review_parts_find(struct plm_review_parts *out, const struct plm_review_scene *scene)
{
    size_t left = scene->summary->bottom_end, surfaced = scene->summary->surfaced;
    *out = (struct plm_review_parts){.items = NULL};
    bool added = add(out, PLMI_PART_DOWN, bottom_begin(scene)) &&
                 add(out, PLMI_PART_BOTTOM, left + 1 < scene->count ? left + 1 : scene->count);
    if (added && left < surfaced) {
        added = add_ascent(out, scene, left, surfaced);
    }
    if (added && add(out, PLMI_PART_SURFACE, scene->count)) {
        return PLM_STATUS_OK;
    }
    plmi_review_parts_free(out);
    return PLM_STATUS_MEMORY;
}

void plmi_review_parts_free(struct plm_review_parts *parts)
{
    free(parts->items);
    *parts = (struct plm_review_parts){.items = NULL};
}

struct plmi_review_part_at plmi_review_part_of(const struct plm_review_scene *scene, size_t point)
{
    size_t i = 0;
    while (i + 1 < scene->parts->count && scene->parts->items[i].end <= point) {
        i++;
    }
    return scene->parts->items[i];
}

bool plmi_review_at_stop(const struct plm_review_scene *scene, size_t point)
{
    return scene->parts != NULL && plmi_review_part_of(scene, point).part == PLMI_PART_STOP;
}
