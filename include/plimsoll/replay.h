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

#ifdef __cplusplus
extern "C" {
#endif

/* Oxygen doses of one dive within the last 24 h. */
struct plm_recent_dose {
    double age_s; /* [s] since the dive ended */
    double otu, cns_day_pct, esot;
    double cns_beyond_min; /* as in struct plm_trace_summary */
};
#define PLM_RECENT_DOSES 16

/* What the diver carries into the dive. */
struct plm_start {
    bool residual; /* false: saturated with air at the surface, all else zero */
    /* on going under water; where carried, it stands still until then from the begin of the record on */
    struct plm_tissue tissue;
    double anchor_bar; /* NaN usually */
    double cns_pct;    /* left at the start */
    /* taken in the 24 h before: dives count whole by the time they ended in the water */
    double otu_day, cns_day_pct, esot_day;
    double
        cns_beyond_min; /* beyond the table of oxygen limits in these 24 h: above 0 the clocks are at least so much */
    int otu_run_days;   /* days of the run without a day off, this dive's day included; 0: not known */
    double otu_run;     /* taken in that run before this dive */
    double surface_interval_s; /* NaN unknown */
    const char *from;          /* "dive 1", "the ledger"; borrowed, copied by replay; NULL: "an earlier dive" */
    /* What the day's totals are made of, oldest first; kept by plm_start_after and _rest. None beside totals that are
     * not zero: they count as one dose taken when the surface interval began. More dives than there is room for: the
     * oldest two become one. */
    size_t recent_count;
    struct plm_recent_dose recent[PLM_RECENT_DOSES];
};

struct plm_replay_options {
    const struct plm_rules *rules;  /* never NULL */
    const struct plm_start *start;  /* NULL: saturated */
    double surface_bar, altitude_m; /* [bar], [m] for a log that tells no surface pressure; NaN: none given */
    double water_kg_m3;             /* density by which depth was shown, before the log's and the rule's; NaN */
    bool schedules;                 /* fills tts_s and no_stop_s */
    /* the recorder's tolerance: depth * scale + shift, at least 0; {1, 0} usual */
    double depth_scale, depth_shift_m;
    /* [m] greatest depth of the plan that the dive is held against, 0 none: both leave their bottoms by the lesser of
     * the two greatest depths */
    double planned_max_m;
    int cell; /* [from 1] a loop's oxygen by this cell alone, where it reads anything; 0: by the median of all */
};

/* Options with rules and no overrides. */
PLM_API struct plm_replay_options plm_replay_options_default(const struct plm_rules *rules);

/*
 * Replays a dive.
 *
 * Surface pressure: the log's; else options surface_bar; else altitude_m by the standard atmosphere; else the log's
 * altitude; else the rule. Settings of sample i (mode, mix, set point) hold over the leg to sample i + 1; of samples at
 * one time the last holds: a step. Depth runs linearly between samples. Oxygen of a loop by the rule `oxygen`:
 *   auto      the median of the living cells, else logged PO2, else the set point in force; a sample without
 * measurement between two that have one on the same stretch of loop lies on the line between them; before the first and
 * after the last one the set point is taken, or where none is in force the nearest measurement is held measured  the
 * same, but the nearest measurement is held before any set point is taken setpoint  the set point where one is in
 * force, else as measured A semi-closed loop holds no set point. Where nothing is known the mix is breathed as on open
 * circuit, with a warning. Measurements off the loop are not looked at. A leg is split where the loop's PO2 meets
 * ambient pressure and where its inert gas runs out. CNS percent carried into the dive is added as it is left at the
 * start; within a record nothing decays, at the surface neither.
 *
 * Returns: OK and *out (the caller frees), INPUT or MEMORY reported and *out NULL.
 */
PLM_API enum plm_status plm_replay(struct plm_trace **out, const struct plm_dive *dive,
                                   const struct plm_replay_options *options, const struct plm_diag_sink *sink);

/*
 * The state after interval_s on air at surface_bar after a trace left the water (plm_dive_wet): tissues off-gas on the
 * exact solution, CNS decays. What is recorded after that adds its doses; its time is part of the interval.
 *   interval_s [s] >= 0; INFINITY: at rest
 * Returns: a state with from = NULL: the caller names it.
 */
PLM_API struct plm_start plm_start_after(const struct plm_trace *trace, double interval_s, double surface_bar,
                                         const struct plm_rules *rules);
/* The same from a start state, for days without dives. */
PLM_API struct plm_start plm_start_rest(const struct plm_start *start, double interval_s, double surface_bar,
                                        const struct plm_rules *rules);

#ifdef __cplusplus
}
#endif

#endif
