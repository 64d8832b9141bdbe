/*
 * Random dives with what is breathed written down anew from the definitions: the second opinion on the replay.
 * Uses nothing of the library but the builder (to hand the dive over) and the half-times.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REF_REPLAY_SCENARIO_H
#define PLM_REF_REPLAY_SCENARIO_H

#include <plimsoll/dive.h>
#include <plimsoll/rules.h>
#include <stdint.h>

#define SCENARIO_LEGS_MAX 40

struct scenario_sample {
    double time_s, depth_m;
    enum plm_mode mode;
    double o2_frac, he_frac, setpoint_bar; /* NaN: none */
    double cell_bar[3], logged_bar;        /* NaN: unknown */
};

struct scenario {
    uint64_t seed;
    double surface_bar, water_kg_m3, vapour_bar;
    int oxygen_rule; /* 0 auto, 1 measured, 2 setpoint */
    int count;
    struct scenario_sample samples[SCENARIO_LEGS_MAX + 1];
};

/* Open and closed circuit, switches, altitude, set points above ambient, cells that drop out, steps in no time,
 * stretches at the surface. */
void scenario_make(struct scenario *scenario, uint64_t seed);
/* The same dive for the program; the caller frees. */
struct plm_dive *scenario_dive(const struct scenario *scenario);
struct plm_rules scenario_rules(const struct scenario *scenario);

double scenario_ambient_bar(const struct scenario *scenario, int leg, double t_s);
/* Oxygen that the loop is at, before clips; NaN off the loop or where nothing is known. */
double scenario_loop_bar(const struct scenario *scenario, int leg, double t_s);
/* Inspired gases at time t_s of a leg. */
struct scenario_breath {
    double n2_bar, he_bar, o2_bar;
};
struct scenario_breath scenario_breathe(const struct scenario *scenario, int leg, double t_s);
/* Times of kinks inside a leg, sorted, found by bisection on the clips; returns how many. */
int scenario_kinks(const struct scenario *scenario, int leg, double kinks_s[4]);

#endif
