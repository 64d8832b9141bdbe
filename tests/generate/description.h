/*
 * What an expedition dived and what its recorders are like, as samples/survey.ini describes it.
 * Holds no physics.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_DESCRIPTION_H
#define PLM_GENERATE_DESCRIPTION_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/gas.h>

#define GEN_NAME      64
#define GEN_LEVELS    8
#define GEN_MIXES     8
#define GEN_SETPOINTS 8
#define GEN_CELLS     3
#define GEN_GAPS      4

struct gen_level {
    double depth_m, until_s;
};

enum gen_when { GEN_AT_START, GEN_DOWN, GEN_FIRST_STOP };

/* A set point chosen at the start, at a depth on the way down, or at the first stop. */
struct gen_setpoint {
    double bar;
    enum gen_when when;
    double depth_m;
};

/* A mix and the depth from which it is breathed on the way up. */
struct gen_deco {
    struct plm_mix mix;
    double depth_m;
};

/* Leaving a stop upward for a while. */
struct gen_rise {
    double stop_m, after_s, by_m, for_s;
};

struct gen_fast {
    double rate_m_min, from_m, to_m;
};

/* Leaving a stop for good, so long before it clears. */
struct gen_cut {
    double stop_m, left_s;
};

/* A stop without need, where none is owed. */
struct gen_safety {
    double stop_m, for_s;
};

struct gen_dive {
    char name[GEN_NAME], diver[GEN_NAME];
    int64_t start_ms; /* local clock                                       */
    enum plm_mode mode;
    struct plm_mix mix; /* the diluent on a loop                             */
    struct gen_level levels[GEN_LEVELS];
    int level_count;
    struct gen_setpoint setpoints[GEN_SETPOINTS];
    int setpoint_count;
    struct gen_deco deco[GEN_MIXES]; /* open circuit, or bail-out                         */
    int deco_count;
    double descent_m_min, ascent_m_min, shallow_m_min, last_m_min;
    double gf_low_pct, gf_high_pct; /* followed by the diver                             */
    double margin_m;                /* water kept below the ceiling                      */
    double surface_bar;             /* 0: the default of the rules, and not logged       */
    double wave_m, wave_s;          /* swell at the surface: half height, period         */
    double surface_c, deep_c;
    struct gen_safety safety;
    /* what went otherwise than planned; 0: nothing */
    double overrun_s, bailout_s;
    struct gen_cut cut;
    struct gen_fast fast;
    struct gen_rise rise;
    bool plan_in_log;
};

struct gen_recorder {
    char name[GEN_NAME];
    double interval_s, step_m, noise_m, depth_offset_m, depth_scale;
    double clock_offset_s, clock_drift_ppm;
    int cells;
    double cell_gain[GEN_CELLS], cell_lag_s[GEN_CELLS], cell_noise_bar;
    double late_s;   /* set points are entered so much later              */
    double jitter_s; /* intervals are off by up to this, whole seconds    */
    double change_m; /* a sample only after so much change of depth; 0: by the clock */
};

struct gen_gap {
    double from_s, to_s;
};

/* One file to be written. */
struct gen_log {
    char file[GEN_NAME];
    char dives[4][GEN_NAME];
    int dive_count;
    char recorder[GEN_NAME];
    char format[GEN_NAME];
    bool gzip;
    double cut_frac; /* damaged: only so much of it is written; 0: whole  */
    struct gen_gap gaps[GEN_GAPS];
    int gap_count;
    char plan[GEN_NAME]; /* of a card: the plan's file                        */
};

struct gen_description {
    char name[GEN_NAME], site[GEN_NAME];
    uint64_t seed;
    int zone_min;
    struct gen_dive *dives;
    size_t dive_count, dive_capacity;
    struct gen_recorder *recorders;
    size_t recorder_count, recorder_capacity;
    struct gen_log *logs;
    size_t log_count, log_capacity;
};

/* Reads a description; says on stderr what is wrong. Free with gen_description_free, also after an error. */
bool gen_description_read(struct gen_description *out, const char *path);
void gen_description_free(struct gen_description *description);
/* NULL: no such thing. */
const struct gen_dive *gen_dive_find(const struct gen_description *description, const char *name);
const struct gen_recorder *gen_recorder_find(const struct gen_description *description, const char *name);
/* The usual values of a dive and of a recorder. */
struct gen_dive gen_dive_default(const char *name);
struct gen_recorder gen_recorder_default(const char *name);

#endif
