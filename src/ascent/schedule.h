/*
 * From a state to the surface: stops, time to surface, no-stop time, by the rules. Pure; no allocation; deterministic.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_SCHEDULE_H
#define PLM_ASCENT_SCHEDULE_H

#include <stdbool.h>

#include <plimsoll/gas.h>
#include <plimsoll/rules.h>
#include <plimsoll/status.h>
#include <plimsoll/tissue.h>

#define PLMI_STOPS_MAX 170
#define PLMI_CARRIED_MAX 16

/* What the diver breathes on the way up. */
struct plmi_ascent_gas {
    enum plm_mode mode;                            /* CLOSED: loop on setpoint_bar with diluent; OPEN: best carried mix; SEMICLOSED: as open on mix */
    struct plm_mix mix;                            /* in force at the start; diluent on the loop */
    double setpoint_bar;                           /* loop only */
    int carried_count;                             /* open-circuit mixes carried; 0: only mix */
    struct plm_mix carried[PLMI_CARRIED_MAX];
    double carried_po2_max_bar[PLMI_CARRIED_MAX];  /* NaN: rules->deco_po2_max_bar */
};

struct plmi_ascent_from {
    struct plm_tissue tissue;
    double depth_m, surface_bar, water_kg_m3;
    double anchor_bar;                             /* NaN: none yet */
    struct plmi_ascent_gas gas;
};

struct plmi_stop { double depth_m, wait_s, mix_o2_frac, mix_he_frac; };

struct plmi_schedule {
    enum plm_status status;                        /* OK, or UNSOLVABLE: a stop that never clears (rules->schedule_max_h) */
    int stop_count;
    struct plmi_stop stops[PLMI_STOPS_MAX];        /* deepest first; only those with a wait > 0 */
    double tts_s;                                  /* to the surface, waits and travel */
    double stop_total_s;                           /* waits alone */
    struct plm_tissue at_surface;
};

void plmi_schedule_find(struct plmi_schedule *out, const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules);
/* Time to surface alone [s]; INFINITY when a stop never clears. */
double plmi_tts_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules);
/* [s] how long the depth and gas of the start can be kept so that a direct ascent still meets no stop; 0 when stops are owed; capped by rules->no_stop_max_min. */
double plmi_no_stop_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules);

#endif
