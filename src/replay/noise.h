/*
 * The depth noise of a record: swell, breath and the recorder's steps, measured and not assumed.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_NOISE_H
#define PLM_REPLAY_NOISE_H

#include "replay/trace.h"

/*
 * [m] 1.4826 times the median distance of depths from a straight line through each minute in which the depth hardly
 * changes, in the water alone; the deviation of normal noise. Too few points of a minute make a line fit too well: each
 * distance counts sqrt(n / (n - 2)) times.
 *   surface_m  [m] minutes with a sample shallower than this are left out
 * Returns: NaN where no minute of the record is such, with five samples or more.
 * Source: 1.4826 makes the median distance that of a normal deviation (1 / 0.6745); what is level is convention.
 */
double plmi_noise_measure_m(const struct plm_point *points, size_t count, double surface_m);

/* Settles noise and where it is from into trace->assumed: as measured, and no less than the step of the recorder (the
 * rule tolerance_depth_m where its step is not known). After the points have their depths. */
void plmi_noise_settle(struct plm_trace *trace, const struct plm_dive_info *info, const struct plm_rules *rules);

#endif
