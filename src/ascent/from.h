/*
 * Where an ascent begins: the state of the diver, the place, and what can be breathed. A plain value.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_FROM_H
#define PLM_ASCENT_FROM_H

#include <plimsoll/gas.h>
#include <plimsoll/tissue.h>

#define PLMI_CARRIED_MAX 16

/* What the diver breathes on the way up. */
struct plmi_ascent_gas {
    /* CLOSED: loop on setpoint_bar with diluent; OPEN: best carried mix; SEMICLOSED: as open on mix */
    enum plm_mode mode;
    struct plm_mix mix;  /* in force at the start; diluent on the loop */
    double setpoint_bar; /* loop only */
    int carried_count;   /* open-circuit mixes carried; 0: only mix */
    struct plm_mix carried[PLMI_CARRIED_MAX];
    double carried_po2_max_bar[PLMI_CARRIED_MAX]; /* NaN: rules->deco_po2_max_bar */
};

struct plmi_ascent_from {
    struct plm_tissue tissue;
    double depth_m, surface_bar, water_kg_m3;
    double anchor_bar; /* NaN: none yet */
    struct plmi_ascent_gas gas;
};

#endif
