/*
 * A diver on the way up, leg by leg: where, with which tissue, anchor and mix.
 * Must not decide when to leave: schedule.c and no_stop.c do.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/walk.h"
#include "ascent/way.h"

/* [m] depths nearer than this are the same. */
static const double same_depth_m = 1e-9;

static bool is_mix(const struct plm_mix *mix)
{
    return mix->o2_frac > 0.0 && mix->o2_frac <= 1.0 && mix->he_frac >= 0.0 && mix->he_frac <= 1.0 &&
           mix->n2_frac >= 0.0 && mix->n2_frac <= 1.0;
}

static bool is_tissue(const struct plm_tissue *tissue)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double n2_bar = tissue->n2_bar[i], he_bar = tissue->he_bar[i];
        if (!(n2_bar >= 0.0 && n2_bar < 1e4 && he_bar >= 0.0 && he_bar < 1e4)) {
            return false;
        }
    }
    return true;
}

static bool is_gas(const struct plmi_ascent_gas *gas)
{
    if (!is_mix(&gas->mix) || gas->carried_count < 0 || gas->carried_count > PLMI_CARRIED_MAX) {
        return false;
    }
    for (int i = 0; i < gas->carried_count; i++) {
        if (!is_mix(&gas->carried[i])) {
            return false;
        }
    }
    return gas->mode != PLM_MODE_CLOSED || (gas->setpoint_bar >= 0.0 && gas->setpoint_bar < 1e4);
}

bool plmi_walk_can_start(const struct plmi_ascent_from *from, const struct plm_rules *rules)
{
    return from->depth_m < 1e5 && from->depth_m > -1e3 && from->surface_bar > 0.0 && from->surface_bar < 1e3 &&
           from->water_kg_m3 > 1.0 && from->water_kg_m3 < 1e5 && rules->stop_step_m >= 0.1 &&
           rules->last_stop_m >= 0.1 && rules->schedule_rate_m_min > 0.0 && rules->schedule_shallow_rate_m_min > 0.0 &&
           is_gas(&from->gas) && is_tissue(&from->tissue);
}

void plmi_walk_start(struct plmi_walk *walk, const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                     const struct plm_rules *rules)
{
    walk->model = model;
    walk->rules = rules;
    plmi_breathing_find(&walk->breathing, &from->gas, rules);
    walk->surface_bar = from->surface_bar;
    walk->bar_per_m = plm_bar_per_m(from->water_kg_m3);
    walk->band_m = plmi_way_band_m(rules);
    walk->kink_m = (plmi_breathing_kink_bar(&walk->breathing) - from->surface_bar) / walk->bar_per_m;
    walk->gf_low = rules->gf_low_pct / 100.0;
    walk->gf_high = rules->gf_high_pct / 100.0;
    walk->depth_m = fmax(0.0, from->depth_m);
    walk->ambient_bar = walk->surface_bar + walk->depth_m * walk->bar_per_m;
    walk->anchor_bar = fmax(walk->surface_bar, from->anchor_bar);
    walk->tissue = from->tissue;
    walk->waited_for = -1;
    walk->step.dt_s = walk->half_step.dt_s = 0.0;
    for (int i = 0; i < PLMI_TRAVEL_LEGS; i++) {
        walk->odd[i].dt_s = 0.0;
    }
}

static double next_depth_m(const struct plm_rules *rules, double depth_m)
{
    if (depth_m <= rules->last_stop_m + same_depth_m) {
        return 0.0;
    }
    double step_m = rules->stop_step_m;
    double next_m = (ceil((depth_m - same_depth_m) / step_m) - 1.0) * step_m;
    return fmax(next_m, rules->last_stop_m);
}

static void make_factors(struct plmi_factors *factors, const struct plmi_walk *walk, double dt_s)
{
    if (factors->dt_s != dt_s) {
        plmi_factors_find(factors, walk->model, dt_s);
    }
}

static struct plmi_leg leg_between(const struct plmi_inspired *start, const struct plmi_inspired *end, double dt_s)
{
    return (struct plmi_leg){dt_s, start->n2_bar, end->n2_bar, start->he_bar, end->he_bar};
}

/* The depths of the way to to_m, ends included, deepest first. Returns: how many. */
static int way_points(const struct plmi_walk *walk, double to_m, double points_m[PLMI_TRAVEL_LEGS + 1])
{
    double turns_m[] = {fmax(walk->band_m, walk->kink_m), fmin(walk->band_m, walk->kink_m)};
    int count = 0;
    points_m[count++] = walk->depth_m;
    for (int i = 0; i < 2; i++) {
        if (turns_m[i] > to_m + same_depth_m && turns_m[i] < points_m[count - 1] - same_depth_m) {
            points_m[count++] = turns_m[i];
        }
    }
    points_m[count++] = to_m;
    return count;
}

void plmi_walk_ahead(struct plmi_walk *walk, const struct plm_mix *mix, struct plmi_travel *travel)
{
    double points_m[PLMI_TRAVEL_LEGS + 1], step_m = walk->rules->stop_step_m;
    double to_m = next_depth_m(walk->rules, walk->depth_m);
    travel->to_depth_m = to_m;
    travel->to_ambient_bar = walk->surface_bar + to_m * walk->bar_per_m;
    travel->dt_s = 0.0;
    travel->leg_count = walk->depth_m > to_m ? way_points(walk, to_m, points_m) - 1 : 0;
    struct plmi_inspired start = plmi_breathing_inspired(&walk->breathing, mix, walk->ambient_bar);
    for (int i = 0; i < travel->leg_count; i++) {
        double way_m = points_m[i] - points_m[i + 1];
        bool is_step = fabs(way_m - step_m) < same_depth_m;
        double dt_s = (is_step ? step_m : way_m) / plmi_way_rate_m_s(walk->rules, points_m[i]);
        double end_bar = walk->surface_bar + points_m[i + 1] * walk->bar_per_m;
        struct plmi_inspired end = plmi_breathing_inspired(&walk->breathing, mix, end_bar);
        struct plmi_factors *factors = is_step ? &walk->step : &walk->odd[i];
        make_factors(factors, walk, dt_s);
        travel->leg[i] = leg_between(&start, &end, dt_s);
        travel->factors[i] = factors;
        travel->dt_s += dt_s;
        start = end;
    }
}

void plmi_walk_travel(const struct plmi_travel *travel, struct plm_tissue *tissue)
{
    for (int i = 0; i < travel->leg_count; i++) {
        plmi_tissue_apply(tissue, &travel->leg[i], travel->factors[i]);
    }
}

void plmi_walk_arrive(struct plmi_walk *walk, const struct plmi_travel *travel, const struct plm_tissue *tissue)
{
    walk->depth_m = travel->to_depth_m;
    walk->ambient_bar = travel->to_ambient_bar;
    walk->tissue = *tissue;
}

double plmi_walk_anchor(const struct plmi_walk *walk, const struct plmi_limits *limits, double anchor_bar)
{
    if (!plmi_limits_exceeded(limits, walk->gf_low, anchor_bar)) {
        return anchor_bar;
    }
    return fmax(anchor_bar, plmi_limits_constant_bar(limits, walk->gf_low, NULL));
}

/* [bar] the ceiling at GF low after a share of a leg; factors are for that share of its time. */
static double low_within_bar(const struct plmi_walk *walk, const struct plm_tissue *start, const struct plmi_leg *whole,
                             double share, struct plmi_factors *factors)
{
    struct plmi_leg part = *whole;
    part.dt_s = share * whole->dt_s;
    part.n2_end_bar = whole->n2_start_bar + share * (whole->n2_end_bar - whole->n2_start_bar);
    part.he_end_bar = whole->he_start_bar + share * (whole->he_end_bar - whole->he_start_bar);
    make_factors(factors, walk, part.dt_s);
    struct plm_tissue tissue = *start;
    plmi_tissue_apply(&tissue, &part, factors);
    return plmi_ceiling_constant_bar(&tissue, walk->model, walk->gf_low, NULL);
}

/*
 * [bar] the deepest ceiling at GF low over a leg, its start aside. Where the leading compartment
 * turns from taking up to giving off, it is deepest on the way: near the vertex of the parabola
 * through both ends and the middle.
 */
static double low_over_leg_bar(struct plmi_walk *walk, const struct plm_tissue *start, const struct plmi_leg *leg,
                               double end_bar)
{
    double start_bar = plmi_ceiling_constant_bar(start, walk->model, walk->gf_low, NULL);
    double middle_bar = low_within_bar(walk, start, leg, 0.5, &walk->half_step);
    double deepest_bar = fmax(end_bar, middle_bar);
    double rise = end_bar - start_bar;
    double bend = 2.0 * (start_bar - 2.0 * middle_bar + end_bar);
    if (bend < 0.0 && fabs(rise) < -bend) {
        struct plmi_factors factors = {.dt_s = 0.0};
        double share = 0.5 - 0.5 * rise / bend;
        deepest_bar = fmax(deepest_bar, low_within_bar(walk, start, leg, share, &factors));
    }
    return deepest_bar;
}

/* [bar] nearer to the anchor than this the ceiling may have been deepest between the ends of a leg.
 */
static const double near_anchor_bar = 0.02;

double plmi_walk_anchor_ahead(struct plmi_walk *walk, const struct plmi_travel *travel,
                              const struct plmi_limits *at_end)
{
    double anchor_bar = walk->anchor_bar;
    if (!plmi_limits_exceeded(at_end, walk->gf_low, anchor_bar - near_anchor_bar)) {
        return anchor_bar;
    }
    struct plm_tissue tissue = walk->tissue;
    for (int i = 0; i < travel->leg_count; i++) {
        struct plm_tissue start = tissue;
        plmi_tissue_apply(&tissue, &travel->leg[i], travel->factors[i]);
        double end_bar = i == travel->leg_count - 1
                             ? plmi_limits_constant_bar(at_end, walk->gf_low, NULL)
                             : plmi_ceiling_constant_bar(&tissue, walk->model, walk->gf_low, NULL);
        anchor_bar = fmax(anchor_bar, low_over_leg_bar(walk, &start, &travel->leg[i], end_bar));
    }
    return anchor_bar;
}

double plmi_walk_gf(const struct plmi_walk *walk, double anchor_bar, double ambient_bar)
{
    const struct plmi_gf gf = {walk->gf_low, walk->gf_high, walk->surface_bar, anchor_bar};
    return plmi_gf_at(&gf, ambient_bar);
}
