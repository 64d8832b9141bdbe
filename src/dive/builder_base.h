/*
 * What a dive's builder is made of, and how its files report, for the files of this floor and nobody else.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_DIVE_BUILDER_BASE_H
#define PLM_DIVE_BUILDER_BASE_H

#include <plimsoll/dive_builder.h>

#include "base/diags.h"
#include "dive/recording.h"

#define PLMI_NO_MIX UINT32_MAX

struct plm_dive_builder {
    struct plm_dive *dive; /* grows; handed over by _finish */
    struct plm_rules rules;
    struct plmi_diags diags;
    struct plm_setting now; /* in force for the next sample; now.mix may be PLMI_NO_MIX */
    bool setting_fresh;     /* now differs from the last of dive->settings */
    bool copied;            /* made of a dive: what it reported once is not reported again */
    uint32_t assumed_mix;   /* air that the dive took for a gas not recorded; PLMI_NO_MIX none */
    bool mode_assumed;      /* open circuit was taken for a mode not recorded */
    bool no_memory;
    size_t beyond_samples, beyond_events; /* that rules.samples_max has no room for */
    uint32_t beyond_line;                 /* where the first of them is */
};

/* The caller of the builder folds, over the whole file. */
void plmi_builder_tell(struct plm_dive_builder *builder, enum plm_level level, enum plm_diag_id id, uint32_t line,
                       const char *format, ...) PLMI_PRINTF(5, 6);
/* Something of the recording is left out: the dive is partial, and a warning tells why. */
void plmi_builder_lose(struct plm_dive_builder *builder, enum plm_diag_id id, uint32_t line, const char *format, ...)
    PLMI_PRINTF(4, 5);
/* Keeps a sample among the odd ones of the dive. */
void plmi_builder_odd(struct plm_dive_builder *builder, const struct plm_sample *sample, bool dropped);
/* Marks the builder as out of memory. Returns: MEMORY. */
enum plm_status plmi_builder_no_memory(struct plm_dive_builder *builder);
/* Puts a sample at the surface that nobody recorded before sample i. Returns: false without memory. */
bool plmi_builder_surface_put(struct plm_dive_builder *builder, size_t i, int64_t time_ms, uint32_t setting);

#endif
