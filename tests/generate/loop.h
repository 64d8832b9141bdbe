/*
 * Oxygen in a rebreather's loop: what ascents, descents, the diver and the valve do to it.
 * A plain picture of one, made up for the generator; not part of the library's physics.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_LOOP_H
#define PLM_GENERATE_LOOP_H

#include <stdbool.h>

struct gen_loop {
    double po2_bar;
    bool valve_open;
};

/* One second later: ambient pressure went from before_bar to after_bar. diluent_o2_frac fills the loop on the way down.
 */
void gen_loop_step(struct gen_loop *loop, double before_bar, double after_bar, double diluent_o2_frac,
                   double setpoint_bar);

#endif
