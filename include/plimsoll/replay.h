/*
 * dive x rules x start state -> trace. Pure but for memory.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_H
#define PLM_REPLAY_H

#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>
#include <plimsoll/trace.h>

/* What the diver carries into the dive. */
struct plm_start {
    bool carried;               /* false: saturated with air at the surface, all else zero */
    struct plm_tissue tissue;
    double anchor_bar;          /* NaN usually */
    double cns_pct;             /* left at the start */
    double otu_day, cns_day_pct, esot_day;   /* taken in the 24 h before */
    int otu_run_days;           /* days with dives before this one's day, back to the last day without; 0: none known */
    double otu_run;             /* taken on those days; and on this dive's own day only by otu_day */
    double surface_interval_s;  /* NaN unknown */
    const char *from;           /* "dive 1", "the ledger"; borrowed, copied by replay */
};

struct plm_replay_options {
    const struct plm_rules *rules;      /* never NULL */
    const struct plm_start *start;      /* NULL: saturated */
    double surface_bar, altitude_m;     /* overrides; NaN: as the log says */
    double water_kg_m3;                 /* override; NaN */
    bool schedules;                     /* fills tts_s and no_stop_s */
    double depth_scale, depth_shift_m;  /* the recorder's tolerance: depth * scale + shift, at least 0; {1, 0} usual */
};

/* Options with rules and no overrides. */
PLM_API struct plm_replay_options plm_replay_options_default(const struct plm_rules *rules);

/* Returns: OK and *out (the caller frees), INPUT or MEMORY reported. */
PLM_API enum plm_status plm_replay(struct plm_trace **out, const struct plm_dive *dive, const struct plm_replay_options *options,
                                   const struct plm_diag_sink *sink);

/*
 * The state after interval_s on air at surface_bar after the end of a trace: tissues off-gas on the exact solution, CNS decays.
 *   interval_s [s] >= 0
 */
PLM_API struct plm_start plm_start_after(const struct plm_trace *trace, double interval_s, double surface_bar, const struct plm_rules *rules);
/* The same from a start state, for days without dives. */
PLM_API struct plm_start plm_start_rest(const struct plm_start *start, double interval_s, double surface_bar, const struct plm_rules *rules);

#endif
