/*
 * Oxygen in a rebreather's loop, second by second. Must not know of depth.
 * SPDX-License-Identifier: MIT
 */
#include "generate/loop.h"

static const double taken_bar_s = 0.0022; /* some 0.8 L/min out of 6 L: made up */
static const double given_bar_s = 0.0100; /* by the open valve: made up */
static const double band_bar = 0.015;     /* the valve works this far about the set point */
static const double vapour_bar = 0.0627;

void gen_loop_step(struct gen_loop *loop, double before_bar, double after_bar, double diluent_o2_frac,
                   double setpoint_bar)
{
    if (after_bar > before_bar) {
        loop->po2_bar += diluent_o2_frac * (after_bar - before_bar);
    } else {
        loop->po2_bar *= after_bar / before_bar;
    }
    if (loop->po2_bar < setpoint_bar - band_bar) {
        loop->valve_open = true;
    } else if (loop->po2_bar > setpoint_bar + band_bar) {
        loop->valve_open = false;
    }
    loop->po2_bar += (loop->valve_open ? given_bar_s : 0) - taken_bar_s;
    if (loop->po2_bar > after_bar - vapour_bar) {
        loop->po2_bar = after_bar - vapour_bar;
    }
}
