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

/* A carried mix and the ambient pressures [bar] down to which it keeps its limits. */
struct plmi_carried {
    struct plm_mix mix;
    double po2_down_to_bar, density_down_to_bar;
};

/* Ready to be asked depth by depth. */
struct plmi_breathing {
    double vapour_bar;
    bool on_loop;
    double setpoint_bar;                           /* on the loop */
    int count;                                     /* 1 on the loop: the diluent */
    struct plmi_carried carried[PLMI_CARRIED_MAX]; /* most oxygen first */
};

/* The ascent from `gas`, by the rules. */
void plmi_breathing_find(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules);
/* Staying on the mix, mode and set point in force. */
void plmi_breathing_stay(struct plmi_breathing *breathing, const struct plmi_ascent_gas *gas,
                         const struct plm_rules *rules);

/*
 * The mix at ambient_bar: of those within their PO2 limit and the density limit the one with most
 * oxygen; of those within their PO2 limit alone, where none keeps the density; the leanest, where
 * none keeps its PO2. Borrowed.
 */
const struct plm_mix *plmi_breathing_mix(const struct plmi_breathing *breathing, double ambient_bar);

/* Inspired inert gas of a mix at ambient_bar. */
struct plmi_inspired plmi_breathing_inspired(const struct plmi_breathing *breathing, const struct plm_mix *mix,
                                             double ambient_bar);

/* [bar] ambient pressure at which the inert gas has a kink: on the loop it is none above; -INFINITY on open circuit. */
double plmi_breathing_kink_bar(const struct plmi_breathing *breathing);

#endif
