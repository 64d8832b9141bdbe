/*
 * What a dive and its builder are made of, for the files of this floor and nobody else.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_RECORDING_H
#define PLM_DIVE_RECORDING_H

#include <plimsoll/dive_builder.h>

#include "base/arena.h"
#include "base/diags.h"

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

#define PLMI_NO_MIX UINT32_MAX

struct plm_dive_builder {
    struct plm_dive *dive; /* grows; handed over by _finish */
    struct plm_rules rules;
    struct plmi_diags diags;
    struct plm_setting now; /* in force for the next sample; now.mix may be PLMI_NO_MIX */
    bool setting_fresh;     /* now differs from the last of dive->settings */
    bool copied;            /* made of a dive: what it told is not told again */
    uint32_t assumed_mix;   /* air that the dive took for a gas not recorded; PLMI_NO_MIX none */
    bool mode_assumed;      /* open circuit was taken for a mode not recorded */
    bool no_memory;
    double step_m_s;                      /* [m/s] fastest change of depth met */
    uint32_t step_line;                   /* where */
    size_t beyond_samples, beyond_events; /* that rules.samples_max has no room for */
    uint32_t beyond_line;                 /* where the first of them is */
};

/* Reports without folding: the caller of the builder folds over the whole file. */
void plmi_builder_tell(struct plm_dive_builder *builder, enum plm_level level, enum plm_diag_id id, uint32_t line,
                       const char *format, ...) PLMI_PRINTF(5, 6);
/* Marks the builder as out of memory. Returns: MEMORY. */
enum plm_status plmi_builder_no_memory(struct plm_dive_builder *builder);
/* Puts the checks of the whole dive, in the order of builder_finish.c. */
enum plm_status plmi_builder_check(struct plm_dive_builder *builder);
/* Whether there is room for one more of so many samples or events, by the rule samples_max; an edited copy always has
 * it. */
bool plmi_builder_has_room(struct plm_dive_builder *builder, size_t count, size_t *beyond, uint32_t line);
/*
 * Ends the record where it cannot be followed: where rules->samples_max has no room for more, at a gap in the water
 * longer than rules->gap_max_min, and at rules->dive_max_h from the first sample in the water on. What is behind is
 * taken away and told, as is what was recorded at the surface that long before the dive. Through a gap that begins at
 * the surface the diver is taken to have stayed there.
 * Returns: false without memory.
 */
bool plmi_builder_end(struct plm_dive_builder *builder);
/* A sample at the surface that nobody recorded. */
struct plm_sample plmi_builder_surface(int64_t time_ms, uint32_t setting);
/* Puts events in the order of time; stable. false without memory: they stay as they were. */
bool plmi_events_order(struct plm_event *events, size_t count);
/* [m] the step of the recorded depths; NaN where they don't show one. */
double plmi_depth_step_m(const struct plm_sample *samples, size_t count);
/* [ms] the median distance of samples; -1 without memory, 0 for fewer than two. */
int64_t plmi_usual_step_ms(const struct plm_sample *samples, size_t count);

#endif
