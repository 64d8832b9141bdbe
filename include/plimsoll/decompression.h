/*
 * Decompression owed at the end of the bottom phase, done since, and what one more minute there would have cost.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DECOMPRESSION_H
#define PLM_DECOMPRESSION_H

#include <plimsoll/replay.h>

#ifdef __cplusplus
extern "C" {
#endif

#define PLM_STOPS_MAX 512

/*
 * One stop depth: owed by the schedule at the end of the bottom, done between the half-way depths to its neighbours
 * (the surface above the last stop). Done holds the way through that band too; owed is waiting alone.
 */
struct plm_stop {
    double depth_m, owed_s, done_s;
};

/* Most stretches of a way up that no mix covers: the mixes of a schedule bound them. */
#define PLM_UNCOVERED_MAX 18

/*
 * Depths of the way from the end of the bottom to the surface at which no mix is within its oxygen limits, deepest
 * first: neither above its highest oxygen pressure nor below rules->po2_min_bar. Less than 0.1 m is none, nor is what
 * is shallower than rules->surface_depth_m.
 */
struct plm_uncovered {
    int count;
    struct {
        double from_m, to_m;
    } depths[PLM_UNCOVERED_MAX];
};

struct plm_decompression {
    double bottom_end_s, bottom_end_depth_m;
    double tts_s; /* owed, with travel; INFINITY: never clears */
    size_t stop_count;
    /* deepest first; depths owed, or dwelt at for a minute longer than the way through takes */
    struct plm_stop stops[PLM_STOPS_MAX];
    double owed_s, done_s; /* totals over stops */
    /* of done: what the way through the bands of these stops takes at the rates of schedules */
    double way_s;
    /* really spent from the end of the bottom to the surface; NaN for a record that ends in the water */
    double ascent_s;
    /* stops were required: by the schedule at the end of the bottom, under a ceiling at the last stop, or at the
     * surface */
    bool required;
    /* [s] of stops that the state at surfacing asks for, or that at the end of a record in the water; below 1 s it is
     * 0: the ceiling had cleared. INFINITY: never clears */
    double left_owing_s;
    /* [s] from where the ceiling was last below the surface to surfacing; NaN where it never was, had not cleared, or
     * the record ends in the water */
    double cleared_s;
    /* at the end of the bottom; NaN where nothing is owed, even after that minute, or never clears */
    double deco_cost_min_per_min;
    /* on open circuit: there the schedule takes the mix breathed at the end of the bottom, beyond its limits */
    struct plm_uncovered beyond_limits;
    bool bailout;         /* an open-circuit bail-out schedule exists */
    double bailout_tts_s; /* NaN: not on a loop, no mixes carried, or bailout_gaps; INFINITY: never clears */
    /* on the loop: depths at which nothing carried can be breathed on open circuit */
    struct plm_uncovered bailout_gaps;
    double achieved_gf_high_pct; /* the surfacing gradient; both NaN for a record that ends in the water */
    /* lowest GF low, 1..100, with which and the above the dive passes (to 1 mm) and with one less does not; NaN: none
     */
    double achieved_gf_low_pct;
};

/* Owed and done of a replayed dive, by the rules of options. Allocates nothing. Returns: OK. */
PLM_API enum plm_status plm_decompression_find(struct plm_decompression *out, const struct plm_dive *dive,
                                               const struct plm_trace *trace, const struct plm_replay_options *options,
                                               const struct plm_diag_sink *sink);
/*
 * Minutes of decompression that one more minute at that depth would have cost: the time to surface after it less the
 * time to surface now. One value a point from descent_start to bottom_end, NaN elsewhere and where nothing is owed.
 * values[count], count as the trace has.
 * Returns: OK; ARGUMENT for another count.
 */
PLM_API enum plm_status plm_decompression_costs(double *values, size_t count, const struct plm_dive *dive,
                                                const struct plm_trace *trace,
                                                const struct plm_replay_options *options);

#ifdef __cplusplus
}
#endif

#endif
