/*
 * A diver on the way up, leg by leg: where, with which tissue, anchor and mix.
 * Must not decide when to leave: schedule.c and no_stop.c do.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_WALK_H
#define PLM_ASCENT_WALK_H

#include "ascent/breathing.h"
#include "tissue/tissue.h"

/* A straight leg, cut where the inspired gas has a kink and where the rate of ascent changes. */
#define PLMI_TRAVEL_LEGS 3

/* The way to the next depth. */
struct plmi_travel {
    double to_depth_m, to_ambient_bar, dt_s;
    int leg_count;
    struct plmi_leg leg[PLMI_TRAVEL_LEGS];
    const struct plmi_factors *factors[PLMI_TRAVEL_LEGS]; /* borrowed of the walk */
};

struct plmi_walk {
    const struct plm_zhl16 *model;
    const struct plm_rules *rules;
    struct plmi_breathing breathing;
    double surface_bar, bar_per_m;
    double band_m, kink_m; /* where the rate changes, and the gas; not below the surface: nowhere */
    double gf_low, gf_high;
    /* where the diver is */
    double depth_m, ambient_bar;
    double anchor_bar; /* the surface where there is none */
    struct plm_tissue tissue;
    /* factors of a leg of one stop step, and of other legs */
    struct plmi_factors step, half_step, odd[PLMI_TRAVEL_LEGS];
    int waited_for; /* compartment of the last wait, -1 none */
};

/* Fields of the start that cannot be: false. */
bool plmi_walk_can_start(const struct plmi_ascent_from *from, const struct plm_rules *rules);
void plmi_walk_start(struct plmi_walk *walk, const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                     const struct plm_rules *rules);
/* The next depth above: a multiple of the stop step, the last stop, or the surface; and the way to it on `mix`. */
void plmi_walk_ahead(struct plmi_walk *walk, const struct plm_mix *mix, struct plmi_travel *travel);
/* What the travel makes of a tissue. */
void plmi_walk_travel(const struct plmi_travel *travel, struct plm_tissue *tissue);
/* The diver is there: depth and ambient pressure; tissue as given. */
void plmi_walk_arrive(struct plmi_walk *walk, const struct plmi_travel *travel, const struct plm_tissue *tissue);
/* [bar] `anchor_bar`, or the ceiling at GF low of these limits where that is deeper. */
double plmi_walk_anchor(const struct plmi_walk *walk, const struct plmi_limits *limits, double anchor_bar);
/* [bar] the anchor at the end of a travel from here that ends with these limits: the deepest of the way. */
double plmi_walk_anchor_ahead(struct plmi_walk *walk, const struct plmi_travel *travel,
                              const struct plmi_limits *at_end);
/* [bar] the anchor at the end of a stay that begins with this tissue and anchor, on constant inspired pressures: the
 * deepest ceiling at GF low on the way there. Where no ceiling deepens it is `anchor_bar` itself. */
double plmi_walk_anchor_staying(const struct plmi_walk *walk, const struct plm_tissue *tissue,
                                const struct plmi_inspired *inspired, double anchor_bar, double dt_s);
/* GF in force at ambient_bar with this anchor. */
double plmi_walk_gf(const struct plmi_walk *walk, double anchor_bar, double ambient_bar);

#endif
