/*
 * What one recorder made of a dive: its clock, its steps, its cells, its gaps.
 * Knows no file format.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_RECORD_H
#define PLM_GENERATE_RECORD_H

#include "generate/course.h"

struct gen_sample {
    double time_s, depth_m, temp_c;
    double cell_bar[GEN_CELLS];
    int event;    /* index of what is breathed, as the recorder has it */
    bool changed; /* ... from this sample on                           */
};

struct gen_record {
    const struct gen_dive *dive;
    const struct gen_recorder *recorder;
    int64_t start_ms; /* by the recorder's clock                           */
    double begin_s;   /* second of the course at which its time is 0       */
    int zone_min;
    const char *plan_file; /* named by a card; "" none                          */
    struct gen_event events[GEN_EVENTS];
    struct gen_sample *samples;
    size_t count;
};

/* Returns: false without memory. Free with gen_record_free in any case. */
bool gen_record_find(struct gen_record *out, const struct gen_dive *dive, const struct gen_course *course,
                     const struct gen_recorder *recorder, const struct gen_log *log, uint64_t seed);
/* The corners of a planned course as samples, exact. */
bool gen_record_plan(struct gen_record *out, const struct gen_dive *dive, const struct gen_course *course,
                     const struct gen_recorder *recorder);
void gen_record_free(struct gen_record *record);

#endif
