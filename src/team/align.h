/*
 * The steps of laying one series over another: candidates, robust fit, likeness.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_ALIGN_H
#define PLM_TEAM_ALIGN_H

#include <plimsoll/alignment.h>

#include "team/series.h"

#define PLMI_LAGS 6

/*
 * Time offsets (a's time at b's time 0) at which the profiles lie best over each other on a common time base,
 * best first, at least a minute apart.
 *   lags_s [out] at most PLMI_LAGS
 * Returns: how many; 0 where there is nothing to compare, -1 without memory.
 */
int plmi_align_lags(double lags_s[PLMI_LAGS], const struct plmi_series *a, const struct plmi_series *b);

/* a(t) = scale * b + shift_m at t = time * (1 + drift) + offset_s. */
struct plmi_fit {
    double offset_s, drift, scale, shift_m;
    double spread_m; /* robust spread of what is left */
    double cost;     /* lower is better; INFINITY where nothing could be fitted */
};

/* Refines all four from a starting offset by reweighted least squares. No allocation. */
void plmi_align_fit(struct plmi_fit *fit, double lag_s, const struct plmi_series *a, const struct plmi_series *b);

/* How far the two lie apart [m] with b as it is recorded, laid over a at that offset: the mean, as cost is. INFINITY
 * where there is too little to compare. */
double plmi_align_apart_m(double lag_s, const struct plmi_series *a, const struct plmi_series *b);

struct plmi_likeness {
    double overlap_s, apart_median_m, apart_p90_m, correlation, expected;
};

/* What is left between the two after the fit. Returns: false without memory. */
bool plmi_align_likeness(struct plmi_likeness *out, const struct plmi_fit *fit, const struct plmi_series *a,
                         const struct plmi_series *b);

/* The whole: clock_known is false and clock_offset_s is 0. Returns: false without memory. */
bool plmi_align_series(struct plm_alignment *out, const struct plmi_series *a, const struct plmi_series *b);

#endif
