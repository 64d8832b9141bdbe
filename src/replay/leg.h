/*
 * One leg between two samples as exact linear pieces of what is breathed: split wherever a clip sets in.
 * Pure, no allocation.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_LEG_H
#define PLM_REPLAY_LEG_H

#include "gas/mix.h"
#include "replay/loop.h"

/* What is breathed at one moment. */
struct plmi_moment {
    double ambient_bar;
    struct plmi_inspired inspired;
    double density_g_l;
};

/* A stretch of dt_s over which everything in a moment runs linearly. */
struct plmi_piece {
    double dt_s;
    struct plmi_moment start, end;
};

/* A leg cut at two clips at most. */
#define PLMI_PIECES_MAX 3

/* A leg as recorded: ambient pressure runs linearly, oxygen as loop says. */
struct plmi_recorded_leg {
    double dt_s, ambient_start_bar, ambient_end_bar;
    const struct plm_mix *mix;
    struct plmi_loop_leg loop;
    double vapour_bar;
};

/* [bar] nitrogen in the gas breathed, water vapour not taken off: what narcosis and density go by. */
double plmi_moment_n2_bar(const struct plmi_recorded_leg *leg, const struct plmi_moment *moment);
/* The start of a leg. */
struct plmi_moment plmi_leg_start(const struct plmi_recorded_leg *leg);
/* Returns: the number of pieces, at least 1; their lengths add up to dt_s. */
int plmi_pieces_find(struct plmi_piece pieces[PLMI_PIECES_MAX], const struct plmi_recorded_leg *leg);

#endif
