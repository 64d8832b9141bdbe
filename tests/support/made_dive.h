/*
 * Dives made by hand for tests: a thin way over the builder, so that a test reads as its profile.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_MADE_DIVE_H
#define PLM_SUPPORT_MADE_DIVE_H

#include <plimsoll/dive_builder.h>
#include <plimsoll/replay.h>

/* A dive in the making. Every step asserts that the builder took it. */
struct made_dive {
    struct plm_dive_builder *builder;
    struct plm_rules rules;
    uint32_t line;
};

/* Default rules; surface_bar NaN: not told. */
struct made_dive made_start(double surface_bar);
/* Breathing from the next sample on. */
void made_open(struct made_dive *made, double o2_frac, double he_frac);
void made_loop(struct made_dive *made, double o2_frac, double he_frac, double setpoint_bar);
void made_semiclosed(struct made_dive *made, double o2_frac, double he_frac);
void made_setpoint(struct made_dive *made, double setpoint_bar);
/* A mix carried for schedules. */
void made_carried(struct made_dive *made, double o2_frac, double he_frac);
/* Samples. */
struct plm_sample made_blank(double time_s, double depth_m);
void made_sample(struct made_dive *made, double time_s, double depth_m);
void made_sample_po2(struct made_dive *made, double time_s, double depth_m, double po2_bar);
void made_sample_cells(struct made_dive *made, double time_s, double depth_m, double a_bar, double b_bar, double c_bar);
void made_add(struct made_dive *made, const struct plm_sample *sample);
/* The finished dive; the caller frees. */
struct plm_dive *made_finish(struct made_dive *made);
/* The replay of a dive by rules, no overrides; never NULL. The caller frees. */
struct plm_trace *made_replay(const struct plm_dive *dive, const struct plm_rules *rules);

#endif
