/*
 * A body in the water: where it is, what it breathes, what its tissues hold. One second at a time.
 * Knows no stops.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_GENERATE_FIELD_BODY_H
#define PLM_GENERATE_FIELD_BODY_H

#include "generate/field_diver.h"
#include "generate/loop.h"
#include "generate/random.h"
#include "tissue/tissue.h"

struct gen_body {
    const struct gen_dive *dive;
    const struct gen_nature *nature;
    struct gen_lived *lived;
    struct gen_random random;
    const struct plm_zhl16 *model;
    struct plm_tissue tissue;
    struct plmi_decay decay;
    struct plmi_gf gf;
    struct gen_event breathed;
    struct gen_loop loop;
    double time_s, wanted_m, actual_m, slope_m_s;
    double wander;       /* slow, deviation 1, within 2 */
    double haste;        /* the same of the speed */
    double astray_bar;   /* the loop's set point is missed by this */
    double hold_until_s; /* of astray_bar */
    bool ascending, afloat, failed;
};

void gen_body_init(struct gen_body *body, const struct gen_dive *dive, const struct gen_nature *nature,
                   struct gen_lived *lived, uint64_t seed);
double gen_body_ambient_bar(const struct gen_body *body, double depth_m);
/* Breathes something else from this second on. */
void gen_body_breathe(struct gen_body *body, enum plm_mode mode, struct plm_mix mix, double setpoint_bar);
/* One second on the way to a depth. */
void gen_body_second(struct gen_body *body, double to_m, double rate_m_min);
/* Seconds at the depth that is meant. */
void gen_body_wait(struct gen_body *body, double for_s);
/* Do the tissues allow depth_m? */
bool gen_body_is_clear(const struct gen_body *body, const struct plm_tissue *tissue, double depth_m);
/* [s] at stay_m, on what is breathed, until to_m is allowed after the way there; at most two hours. tissue is let rest
 * so long. */
double gen_body_rest_s(const struct gen_body *body, struct plm_tissue *tissue, double stay_m, double to_m);
/* The same from the tissues as they are, which stay so. */
double gen_body_clear_in_s(const struct gen_body *body, double stay_m, double to_m);
/* [s] of stops, each 3 m, that the tissues ask for, were the body back at the first of them. */
double gen_body_owed_s(const struct gen_body *body);

#endif
