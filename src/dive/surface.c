/*
 * Stays at the surface.
 * Must not judge them.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "dive/surface.h"

struct plmi_surfacings plmi_surfacings_of(const struct plm_sample *samples, size_t count, const struct plm_rules *rules)
{
    return (struct plmi_surfacings){.samples = samples, .count = count, .rules = rules};
}

static bool at_surface(const struct plmi_surfacings *walk, size_t i)
{
    return !(walk->samples[i].depth_m > walk->rules->surface_depth_m);
}

/* The last sample of the stay at the surface that sample i is in. */
static size_t stay_last(const struct plmi_surfacings *walk, size_t i)
{
    while (i + 1 < walk->count && at_surface(walk, i + 1)) {
        i++;
    }
    return i;
}

static double between_s(const struct plmi_surfacings *walk, size_t first, size_t last)
{
    return (double)(walk->samples[last].time_ms - walk->samples[first].time_ms) / 1000.0;
}

/* The end of the rise that comes to the surface at sample i. */
static size_t risen(const struct plmi_surfacings *walk, size_t i)
{
    const struct plm_sample *samples = walk->samples;
    size_t top = i;
    for (size_t k = i + 1; k < walk->count && samples[k].depth_m <= samples[k - 1].depth_m &&
                           between_s(walk, i, k) <= walk->rules->surface_hold_s;
         k++) {
        top = samples[k].depth_m < samples[top].depth_m ? k : top;
    }
    return top;
}

static bool holds(const struct plmi_surfacings *walk, size_t first, size_t last)
{
    return last + 1 == walk->count || between_s(walk, first, last) >= walk->rules->surface_hold_s;
}

bool plmi_surfacing_next(struct plmi_surfacings *walk, size_t *surfaced)
{
    double surface_m = walk->rules->surface_depth_m;
    double under_m = walk->at == 0 ? surface_m : fmax(surface_m, walk->rules->last_stop_m / 2.0);
    walk->under = false;
    for (size_t i = walk->at; i < walk->count; i++) {
        walk->under = walk->under || walk->samples[i].depth_m > under_m;
        if (!walk->under || !at_surface(walk, i)) {
            continue;
        }
        size_t last = stay_last(walk, i);
        if (holds(walk, i, last)) {
            *surfaced = risen(walk, i);
            walk->at = last + 1;
            return true;
        }
        i = last;
    }
    walk->at = walk->count;
    return false;
}

struct plmi_wet plmi_wet_find(const struct plm_sample *samples, size_t count, const struct plm_rules *rules)
{
    struct plmi_surfacings walk = plmi_surfacings_of(samples, count, rules);
    struct plmi_wet wet = {0, count - 1, false};
    while (plmi_surfacing_next(&walk, &wet.to)) {
        wet.surfaced = true;
    }
    if (walk.under || !wet.surfaced) {
        wet.to = count - 1;
        wet.surfaced = false;
    }
    while (wet.from < wet.to && !(samples[wet.from + 1].depth_m > rules->surface_depth_m)) {
        wet.from++;
    }
    wet.from = wet.from == wet.to ? 0 : wet.from;
    return wet;
}
