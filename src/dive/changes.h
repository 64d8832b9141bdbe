/*
 * Recorders that write a sample only when the depth has changed, known by their samples.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_CHANGES_H
#define PLM_DIVE_CHANGES_H

#include <plimsoll/dive.h>
#include <plimsoll/rules.h>

/*
 * Settles info->change_m and change_step_s by the samples under water: NaN both where the record does not show that its
 * recorder writes changes alone.
 * Returns: false without memory.
 */
bool plmi_changes_find(struct plm_dive_info *info, const struct plm_rules *rules, const struct plm_sample *samples,
                       size_t count);

/*
 * Whether a recorder that writes changes alone had nothing to write between two samples: depth differs by no more than
 * its least change and what a diver who sets off swims in one of its steps (rules->silent_rate_m_min).
 *   before_m, after_m  [m] depths of the two
 * Returns: false for every other recorder.
 */
bool plmi_silence_is_level(const struct plm_dive_info *info, const struct plm_rules *rules, double before_m,
                           double after_m);

#endif
