/*
 * Events in the order of their time; those of one moment stay as they were recorded. Must not drop any.
 * SPDX-License-Identifier: MIT
 */
#include "dive/events_order.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static bool in_order(const struct plm_event *events, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        if (events[i].time_ms < events[i - 1].time_ms) {
            return false;
        }
    }
    return true;
}

/* Merges two runs that stand behind each other in from; the left one wins where times are equal. */
static void merge(const struct plm_event *from, size_t left, size_t middle, size_t right, struct plm_event *to)
{
    size_t a = left;
    size_t b = middle;
    for (size_t i = left; i < right; i++) {
        bool take_left = a < middle && (b >= right || from[a].time_ms <= from[b].time_ms);
        to[i] = take_left ? from[a++] : from[b++];
    }
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

bool plmi_events_order(struct plm_event *events, size_t count)
{
    if (in_order(events, count)) {
        return true;
    }
    struct plm_event *room = count <= SIZE_MAX / sizeof *room ? malloc(count * sizeof *room) : NULL;
    if (room == NULL) {
        return false;
    }
    for (size_t run = 1; run < count; run *= 2) {
        for (size_t left = 0; left < count; left += 2 * run) {
            merge(events, left, least(left + run, count), least(left + 2 * run, count), room);
        }
        memcpy(events, room, count * sizeof *room);
    }
    free(room);
    return true;
}
