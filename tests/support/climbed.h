/*
 * Dives with decompression for tests: a square bottom, then the stops of the schedule, with one thing changed where a
 * test wants it.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_CLIMBED_H
#define PLM_SUPPORT_CLIMBED_H

#include "support/made_dive.h"

/* What is dived. Zeros mean: nothing changed. */
struct climb {
    double depth_m, bottom_min; /* bottom_min counts from leaving the surface */
    double o2_frac, he_frac;    /* mix or diluent */
    double setpoint_bar;        /* 0: open circuit */
    double step_s;              /* 0: 5 s */
    /* Changes that the schedule does not know of. */
    double deeper_m, longer_s;
    /* the stop at stop_m lasts so much longer; negative: shorter, at least not at all */
    double stop_m, stop_s;
    double second_stop_m, second_stop_s; /* the same of another stop */
    double rate_m_min, rate_to_m;        /* leg off the bottom at this rate, up to this depth; 0: 9 m/min */
    double last_rate_m_min;              /* from the last stop to the surface; 0: 6 m/min */
    double other_o2_frac;                /* this mix instead, all the way */
    double ascent_setpoint_bar;          /* set on leaving the bottom; 0: kept */
};

/* Made, not finished: a minute at the surface stands at the end. */
struct made_dive climb_make(const struct climb *climb);

#endif
