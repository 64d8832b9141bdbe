/*
 * What a dive is made of, for the files of this floor and nobody else.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_RECORDING_H
#define PLM_DIVE_RECORDING_H

#include <plimsoll/dive.h>

#include "base/arena.h"

struct plm_dive {
    struct plmi_arena arena; /* every text */
    struct plm_dive_info info;
    struct plm_sample *samples;
    size_t sample_count, sample_capacity;
    struct plm_setting *settings;
    size_t setting_count, setting_capacity;
    struct plm_dive_mix *mixes;
    size_t mix_count, mix_capacity;
    struct plm_event *events;
    size_t event_count, event_capacity;
    struct plm_dive *plan; /* or NULL */
};

#endif
