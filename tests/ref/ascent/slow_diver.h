/*
 * A slow diver: goes down and up second by second, with Runge-Kutta steps and the definitions as they
 * stand in plimsoll-model(7). Written apart: calls no floor of the library; constants alone are shared.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REF_ASCENT_SLOW_DIVER_H
#define PLM_REF_ASCENT_SLOW_DIVER_H

#include <plimsoll/tissue.h>
#include <stdbool.h>

#define SLOW_STOPS 200

struct slow_mix {
    double o2, he;
};

struct slow_diver {
    const struct plm_zhl16 *model;
    double surface_bar, bar_per_m, vapour_bar;
    double gf_low, gf_high;
    double step_m, last_m, rate_m_s;
    double shallow_rate_m_s, shallow_m; /* another rate from this depth up */
    double po2_max_bar, density_max_g_l;
    bool on_loop;
    double setpoint_bar;
    int mix_count;
    struct slow_mix mixes[4]; /* the first is breathed going down; the diluent on the loop */
    /* what changes */
    double depth_m, anchor_bar; /* the surface: none */
    double n2[PLM_COMPARTMENTS], he[PLM_COMPARTMENTS];
    /* the way up */
    double tts_s;
    double depths_m[SLOW_STOPS], waits_s[SLOW_STOPS];
    int stop_count;
};

/* From a saturated start down at 20 m/min and on the bottom, both on the first mix. */
void slow_go_down(struct slow_diver *d, double depth_m, double bottom_s);
/* Stays at the depth for a time, on the first mix. */
void slow_stay(struct slow_diver *d, double stay_s);
/* The way up by the rules, filling tts_s and the stops. False when it takes longer than max_s. */
bool slow_go_up(struct slow_diver *d, double max_s);
/* The same without a single wait of a second or more. */
bool slow_is_direct(const struct slow_diver *d);
/* Largest tension over GF high at the surface [bar]; <= 0 may surface. */
double slow_surfacing_over_bar(const struct slow_diver *d);

#endif
