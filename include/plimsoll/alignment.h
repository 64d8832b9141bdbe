/*
 * Two records laid over each other: clock, drift, depth offset and scale, found from the profiles alone,
 * and whether they are one dive at all. Uses neither names nor start stamps.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ALIGNMENT_H
#define PLM_ALIGNMENT_H

#include <stdbool.h>

#include <plimsoll/api.h>
#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How record b lies over record a, and the evidence for and against one dive. */
struct plm_alignment {
    bool same_dive;
    double record_offset_s; /* [s] a's record time at b's record time 0                           */
    double clock_offset_s;  /* [s] to add to b's clock at b's start; from the stamps where both are
                               known (clock_known), else record_offset_s                          */
    bool clock_known;
    double clock_drift_ppm; /* a's seconds in a million of b's, less a million                    */
    double depth_scale;     /* a = depth_scale * b + depth_offset_m                               */
    double depth_offset_m;
    double overlap_s;      /* common time under water                                            */
    double apart_median_m; /* |a - b| after alignment: half of the samples are nearer            */
    double apart_p90_m;
    double likeness;          /* correlation of the small ups and downs (periods of 30 s to 5 min);
                                 NaN where the records show none                                    */
    double likeness_expected; /* what one diver's two records would show, from noise and steps      */
};

/*
 * Lays b over a.
 * Returns: OK, or MEMORY reported. Records that cannot be compared (no common time under water) come back OK
 *          with same_dive false and overlap_s 0.
 * Tested:  clock offsets of 3 h, drifts of 60 ppm, depth offsets of 0.4 m, scales of 1 %, sampling of 1 to 10 s,
 *          depth steps of 0.1 and 0.3 m, gaps.
 * Leaves out: drifts that change within a dive.
 */
PLM_API enum plm_status plm_alignment_find(struct plm_alignment *out, const struct plm_dive *a,
                                           const struct plm_dive *b, const struct plm_diag_sink *sink);

#ifdef __cplusplus
}
#endif

#endif
