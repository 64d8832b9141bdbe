/*
 * The replay of one dive: what the model says at every sample, and over the whole. A frozen value.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TRACE_H
#define PLM_TRACE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <plimsoll/api.h>
#include <plimsoll/gas.h>
#include <plimsoll/tissue.h>

#ifdef __cplusplus
extern "C" {
#endif

struct plm_trace; /* opaque, immutable */

/* The model at one sample; point i belongs to sample i of the dive. NaN where a value does not exist. */
struct plm_point {
    int64_t time_ms;             /* [ms] as the sample's                                        */
    double depth_m, ambient_bar; /* as recorded; by the surface pressure and water in force     */
    enum plm_mode mode;
    int leading;                   /* 1..16, compartment with the largest gradient                */
    uint32_t line;                 /* source line, 0 none                                         */
    double o2_frac, he_frac;       /* the mix in force; the diluent on a loop                     */
    double setpoint_bar;           /* in force, NaN none                                          */
    double po2_bar;                /* inspired oxygen that the model took                         */
    double ceiling_m, clearance_m; /* 0 where none; depth - ceiling, negative above it            */
    double gradient_pct, surfacing_gradient_pct;
    double cns_pct, cns_day_pct, otu, esot; /* cumulative, carried state included in cns only   */
    double tts_s, no_stop_s;                /* NaN without schedules; INFINITY: never clears               */
    double density_g_l, end_m;
    double rate_m_min; /* positive while ascending, fitted over rules->ascent_window_s about the sample, one interval
                          where sampling is coarser; NaN for a record without duration */
    double rate_error_m_min;      /* standard error of the rate, from the depth noise and the sampling; NaN with it */
    double relative_rate_pct_min; /* the rate in percent of ambient pressure a minute            */
    double anchor_bar;            /* NaN: none                                                   */
    double no_limit_ceiling_m;    /* ceiling of the bare M-values (gradient factor 1), 0 where none */
    struct plm_tissue tissue;
};

#define PLM_LAST_ASCENTS 3 /* from 10, 6 and 3 m */

#define PLM_PO2_BANDS 6 /* minutes above 1.0, 1.2, 1.3, 1.4, 1.5, 1.6 bar */

struct plm_trace_summary {
    double duration_s; /* of the whole record                                         */
    double max_depth_m, max_depth_at_s;
    double mean_depth_m;           /* from descent_start to surfaced, weighted by time            */
    bool ends_in_water;            /* the record ends before the diver is at the surface          */
    double surfacing_gradient_pct; /* at surface pressure, at the point surfaced; NaN for a record that ends in the
                                      water                                                                      */
    int surfacing_leading;         /* 1..16; 0 with NaN                                           */
    double peak_gradient_pct, peak_at_s, peak_depth_m;
    int peak_leading;
    double min_clearance_m, min_clearance_at_s; /* over samples with a ceiling; NaN: there never was one */
    double deepest_ceiling_m;
    double cns_pct, cns_day_pct, otu, esot;                      /* at the end                                   */
    double max_po2_bar, max_po2_at_s, min_po2_bar, min_po2_at_s; /* over legs: at a switch on either side of it */
    double po2_band_min[PLM_PO2_BANDS];
    double cns_beyond_min; /* above the last row of the table of limits, by more than the rule cns_beyond_bar:
                              counted there at the last row, so that the clocks are the least that they can be */
    double max_density_g_l, max_density_at_s, density_note_min, density_caution_min, max_end_m;
    size_t bottom_end;    /* point at which the bottom is left: where the ascent of more than 2 m/min sets in that
                             passes rules->bottom_frac of the greatest depth for the last time; of the planned one where
                             that is less (plm_replay_options) */
    size_t descent_start; /* last point at the surface before the bottom                 */
    /* the last surfacing: the end of the rise to the surface, where the diver is then for the rule surface_hold_s, or
     * until the record ends; the last point if none */
    size_t surfaced;
    bool reaches_surface; /* there is such a surfacing, and nothing under water after it */
    /* [s] from the last time at each depth to rules->surface_depth_m, on straight lines between samples, deepest first;
     * NaN: never so deep, or the record ends in the water */
    double last_ascent_from_m[PLM_LAST_ASCENTS], last_ascent_s[PLM_LAST_ASCENTS];
    /* upward between two samples, from the end of the bottom on; NaN none. One false depth makes it. */
    double fastest_step_m_min, fastest_step_at_s;
};

/* Everything that was assumed for the replay. Texts are static or owned by the trace. */
struct plm_assumed {
    /* "log", "command line", "altitude 420 m", "altitude 420 m by the log", "standard" */
    double surface_bar;
    const char *surface_from;
    double water_kg_m3;
    const char *water_from; /* "command line", "log", "rule" */
    /* deviation of the recorded depths about the diver's way: swell, breath and steps; at least the recorder's step */
    double depth_noise_m;
    const char *depth_noise_from; /* "log": measured there; "step of the recorder", "rule" */
    const char *model;            /* "ZH-L16C" */
    double gf_low_pct, gf_high_pct;
    /* "saturated with air at the surface", "carried from dive 1, surface interval 3 h 40 min", ... */
    const char *start_from;
    double surface_interval_s; /* NaN: none */
    double start_cns_pct;
    /* "open circuit", "measured cells", "logged PO2", "set point", or several joined by ", " */
    const char *oxygen_from;
    bool gas_assumed;        /* air for want of any */
    bool semiclosed_assumed; /* semi-closed without measured PO2: supply mix as open circuit */
    bool oxygen_alone;       /* a loop whose diluent is pure oxygen: it holds that alone, whatever is set or measured */
};

/* One point for each sample of the dive; *count as the dive's. */
PLM_API const struct plm_point *plm_trace_points(const struct plm_trace *trace, size_t *count);
/* The figures over the whole dive; never NULL. */
PLM_API const struct plm_trace_summary *plm_trace_summary_get(const struct plm_trace *trace);
/* What was assumed; never NULL. */
PLM_API const struct plm_assumed *plm_trace_assumed(const struct plm_trace *trace);
/* Frees the trace. NULL is allowed. */
PLM_API void plm_trace_free(struct plm_trace *trace);

#ifdef __cplusplus
}
#endif

#endif
