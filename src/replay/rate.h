/*
 * The rate of ascent at each point, fitted so that the steps of a recorder don't shout.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_RATE_H
#define PLM_REPLAY_RATE_H

#include "replay/trace.h"

/*
 * Fills rate_m_min, its standard error and relative_rate_pct_min of all points: the slope of a straight line fitted by
 * least squares to the depths within a window about the point. Near the ends of the record the window is moved inside
 * it, not cut. Where the samples in the window span less than half of it, the sample before it is taken in too (the one
 * behind it where there is none before): one interval where sampling is coarser than the window. NaN only for a record
 * without duration. Time grows with the count of points alone. noise_m  [m] deviation of each depth, taken as
 * independent; the error of a slope is it by the root of the sum of squared times about their mean
 */
void plmi_rates_find(struct plm_point *points, size_t count, double window_s, double bar_per_m, double noise_m);

#endif
