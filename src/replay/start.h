/*
 * The doses of a day that a start state holds, one by one.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_START_H
#define PLM_REPLAY_START_H

#include <plimsoll/replay.h>

/* Adds the newest dose; without room the two oldest become one, as young as the younger. */
void plmi_start_recent_add(struct plm_start *start, const struct plm_recent_dose *dose);

#endif
