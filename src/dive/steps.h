/*
 * The steps that a record shows: of depth, and of time.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_STEPS_H
#define PLM_DIVE_STEPS_H

#include <plimsoll/dive.h>

/* [m] the step of the recorded depths; NaN where they don't show one. */
double plmi_depth_step_m(const struct plm_sample *samples, size_t count);
/* [ms] the median distance of samples; -1 without memory, 0 for fewer than two. */
int64_t plmi_usual_step_ms(const struct plm_sample *samples, size_t count);

#endif
