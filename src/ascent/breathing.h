/*
 * What a diver breathes on the way up: the mix at each depth, and the inert gas of it.
 * Must not know of tissues.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_BREATHING_H
#define PLM_ASCENT_BREATHING_H

#include <plimsoll/rules.h>

#include "ascent/from.h"
#include "gas/mix.h"

/* A mix at hand and the ambient pressures [bar] between which it keeps its limits: of oxygen from lean_up_to_bar to
 * po2_down_to_bar, of density down to density_down_to_bar. */
struct plmi_carried {
    struct plm_mix mix;
    double lean_up_to_bar, po2_down_to_bar, density_down_to_bar;
};

/* What is carried, and the mix breathed where the ascent begins. */
#define PLMI_MIXES_MAX (PLMI_CARRIED_MAX + 1)

/* Ready to be asked depth by depth. */
struct plmi_breathing {
    double vapour_bar;
    bool on_loop;
    double setpoint_bar;                         /* on the loop */
    struct plm_mix breathed;                     /* where the ascent begins; the diluent on the loop */
    int count;                                   /* 1 on the loop: the diluent */
    struct plmi_carried carried[PLMI_MIXES_MAX]; /* most oxygen first */
};

/* The ascent from `gas`, by the rules. */
void plmi_breathing_find(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules);
/* Staying on the mix, mode and set point in force. */
void plmi_breathing_stay(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules);

/*
 * The mix at ambient_bar: of those within their oxygen and density limits the one with most oxygen; of those within
 * their oxygen limits alone, where none keeps the density; where none keeps its oxygen, the one breathed where the
 * ascent begins, as that was breathed in fact. Borrowed.
 */
const struct plm_mix *plmi_breathing_mix(const struct plmi_breathing *breathing, double ambient_bar);

/*
 * The deepest stretch between two ambient pressures, from_bar the higher, in which no mix keeps its oxygen limits.
 *   gap_from_bar, gap_to_bar  [out] the stretch
 * Returns: false where there is none; on the loop there is none.
 */
bool plmi_breathing_gap(const struct plmi_breathing *breathing, double from_bar, double to_bar, double *gap_from_bar,
                        double *gap_to_bar);

/* Inspired inert gas of a mix at ambient_bar. */
struct plmi_inspired plmi_breathing_inspired(const struct plmi_breathing *breathing, const struct plm_mix *mix,
                                             double ambient_bar);

/* [bar] ambient pressure at which the inert gas has a kink: on the loop it is none above; -INFINITY on open circuit. */
double plmi_breathing_kink_bar(const struct plmi_breathing *breathing);

#endif
