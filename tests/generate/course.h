/*
 * What a diver really did, second by second: depth, oxygen in the loop, what was breathed.
 * The truth that recorders then see through their own errors; writes no file.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_COURSE_H
#define PLM_GENERATE_COURSE_H

#include <stddef.h>

#include <plimsoll/tissue.h>

#include "generate/description.h"

#define GEN_EVENTS 32

/* What is breathed from a time on. setpoint_bar NaN on open circuit. */
struct gen_event {
    double time_s;
    enum plm_mode mode;
    struct plm_mix mix;
    double setpoint_bar;
};

/* Where a leg begins or ends. */
struct gen_corner {
    double time_s, depth_m;
};

struct gen_course {
    double *depth_m;  /* [count] one a second                */
    double *loop_bar; /* [count] PO2 in the loop; NaN open   */
    size_t count, capacity;
    struct gen_event events[GEN_EVENTS]; /* the first at time 0     */
    int event_count;
    struct gen_corner *corners; /* of the dive as planned  */
    size_t corner_count, corner_capacity;
    struct plm_tissue end; /* at the last second                  */
};

/* As dived, with swell and mishaps, or as planned: still water, nothing goes wrong, stops of whole minutes. */
enum gen_way { GEN_AS_DIVED, GEN_AS_PLANNED };

/*
 * start: tissues before the dive; NULL: saturated.
 * Returns: false without memory. Free with gen_course_free in any case.
 */
bool gen_course_find(struct gen_course *out, const struct gen_dive *dive, enum gen_way way, uint64_t seed,
                     const struct plm_tissue *start);
void gen_course_free(struct gen_course *course);

#endif
