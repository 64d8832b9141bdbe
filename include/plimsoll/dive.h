/*
 * The recording of one dive: a frozen value. Samples, settings, mixes, events; nothing computed.
 * Everything returned is owned by the dive and lives as long as it does.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_H
#define PLM_DIVE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>
#include <plimsoll/gas.h>
#include <plimsoll/stamp.h>

#ifdef __cplusplus
extern "C" {
#endif

#define PLM_CELLS 5

struct plm_dive;  /* opaque, immutable */
struct plm_rules; /* rules.h */

/* One sample. NaN where a measurement is unknown. */
struct plm_sample {
    int64_t time_ms;            /* [ms] since the start of the dive, never going back; equal times are a step */
    double depth_m;             /* [m] >= 0 */
    double temp_c;              /* [C] */
    double po2_bar;             /* [bar] loop PO2 as logged (not a cell) */
    double cell_bar[PLM_CELLS]; /* [bar] measured cells */
    uint32_t setting;           /* index of the settings in force from this sample on */
    uint32_t line;              /* [from 1] line in the source; 0: made up by the builder */
};

/* What was breathed from a sample until the next change. */
struct plm_setting {
    enum plm_mode mode;
    uint32_t mix;        /* index; the diluent on a loop */
    double setpoint_bar; /* [bar] NaN: none recorded */
};

enum plm_mix_use { PLM_MIX_USE_ANY, PLM_MIX_USE_DILUENT, PLM_MIX_USE_BAILOUT, PLM_MIX_USE_DECO };

struct plm_dive_mix {
    struct plm_mix mix;
    const char *id, *name; /* as the source says; "" if unnamed */
    enum plm_mix_use use;  /* ANY: not stated */
    bool carried;          /* carried on open circuit: may be chosen by schedules */
    double po2_max_bar;    /* NaN: not stated */
};

/* Recorded events that are shown and never computed with. */
enum plm_event_kind {
    PLM_EVENT_ALARM,
    PLM_EVENT_MARKER,
    PLM_EVENT_HEADING,
    PLM_EVENT_STOP,
    PLM_EVENT_TANK_PRESSURE,
    PLM_EVENT_CNS,
    PLM_EVENT_OTU,
    PLM_EVENT_GRADIENT,
    PLM_EVENT_NO_STOP,
    PLM_EVENT_SETPOINT,
    PLM_EVENT_NOTE,
    PLM_EVENT_PULSE,
    PLM_EVENT_BATTERY,
    PLM_EVENT_COUNT
};

/* "alarm", "tank-pressure": a stable kebab-case word; never NULL. */
PLM_API const char *plm_event_kind_text(enum plm_event_kind kind);
/* The kind of such a word. Returns: false where there is none. */
PLM_API bool plm_event_kind_find(const char *word, enum plm_event_kind *kind);

struct plm_event {
    int64_t time_ms;
    enum plm_event_kind kind;
    double value;     /* [deg], [bar], [%], [s], [bpm] by kind; stop: depth [m]; NaN none */
    double value2;    /* stop: [s] its duration; NaN none */
    const char *text; /* alarm word, marker, tank or cell name; "" none */
    uint32_t line;
};

/* A sample at a depth that no diver can have swum to and from, which is no part of the dive, or that is doubtful, which
 * is. */
struct plm_odd_sample {
    int64_t time_ms; /* [ms] as plm_sample has it */
    double depth_m;  /* [m] as recorded */
    uint32_t line;   /* [from 1] in the source */
    bool dropped;    /* it is not among the samples of the dive; else it was taken as recorded */
};

#define PLM_ODD_SAMPLES 8

/* What the source says about the whole dive; NaN, NULL or known=false where it says nothing. */
struct plm_dive_info {
    const char *file, *format; /* as named on the command line; reader's name */
    char sha256[65];           /* of the source's bytes, "" unknown */
    uint32_t line;             /* where the dive begins */
    int index;                 /* [from 1] within its source */
    const char *id;            /* the source's own, or NULL */
    const char *number;        /* the diver's own count, or NULL */
    const char *diver, *recorder, *site, *notes;
    struct plm_stamp start;
    /* [%] gradient factors of the recorder or the diver, both or none; by_card: a dive card states them, not the log */
    double gf_low_pct, gf_high_pct;
    bool gf_by_card;
    double surface_bar;  /* [bar] */
    double altitude_m;   /* [m] */
    double water_kg_m3;  /* density by which the recorder shows depth */
    double depth_step_m; /* [m] step of the recorded depths found in the data */
    /* A recorder that writes a sample only when the depth has changed, found in the data; NaN: it writes by a clock, or
     * the data does not tell. */
    double change_m;           /* [m] the least change that it writes */
    double change_step_s;      /* [s] time between its samples while depth changes */
    double surface_interval_s; /* [s] before this dive; INFINITY: desaturated; NaN: not stated */
    int group;                 /* [from 1] repetition group: tissues never carry from one to the next */
    bool gas_known;            /* false: no breathing gas recorded at the start, air taken */
    bool mode_known;           /* false: no breathing mode recorded: a loop by set points or cells, else open */
    bool partial;              /* something that the source tells of the dive could not be used; it was reported */
    size_t odd_count;          /* samples dropped or doubtful for their depth; each was reported */
    size_t odd_dropped;        /* those of them that were dropped */
    struct plm_odd_sample odd[PLM_ODD_SAMPLES]; /* the first of them by time, odd_count at most */
    bool ends_in_water; /* the record ends before the diver is at the surface: what came after is not known */
};

/* The facts about the whole dive; never NULL. */
PLM_API const struct plm_dive_info *plm_dive_info_get(const struct plm_dive *dive);
/* All samples in the order of time; *count is at least 2. */
PLM_API const struct plm_sample *plm_dive_samples(const struct plm_dive *dive, size_t *count);
/* All settings in the order of their beginning; *count is at least 1. */
PLM_API const struct plm_setting *plm_dive_settings(const struct plm_dive *dive, size_t *count);
/* All mixes, by the index that settings hold; *count is at least 1. */
PLM_API const struct plm_dive_mix *plm_dive_mixes(const struct plm_dive *dive, size_t *count);
/* All events in the order of time; *count can be 0. */
PLM_API const struct plm_event *plm_dive_events(const struct plm_dive *dive, size_t *count);
/* The plan kept with the dive, or NULL; a dive that was not dived. Owned by the dive. */
PLM_API const struct plm_dive *plm_dive_plan(const struct plm_dive *dive);
/* [ms] from where to where the diver is under water, by the samples around: from the last at the surface before, to
 * where the head is at the surface for good: not deeper than the rule surface_depth_m for surface_hold_s, or until the
 * record ends. All of it where never. */
PLM_API void plm_dive_wet(const struct plm_dive *dive, const struct plm_rules *rules, int64_t *from_ms, int64_t *to_ms);
/* [m] The greatest depth of its samples. */
PLM_API double plm_dive_max_depth_m(const struct plm_dive *dive);
/* Frees the dive, its texts and its plan. NULL is allowed. */
PLM_API void plm_dive_free(struct plm_dive *dive);

#ifdef __cplusplus
}
#endif

#endif
