/*
 * A diver goes down, stays, and comes up by the ceiling that the model lays on the tissues.
 * Must not know how any of it is recorded.
 * SPDX-License-Identifier: MIT
 */
#include "generate/course.h"

#include <math.h>
#include <stdlib.h>

#include <plimsoll/rules.h>

#include "base/arena.h"
#include "gas/mix.h"
#include "generate/loop.h"
#include "generate/random.h"
#include "tissue/tissue.h"

#define AFLOAT_S     10 /* at the surface before the descent */
#define AFTERWARDS_S 60
#define LONGEST_S    100000

static const double step_m = 3;
static const double water_kg_m3 = 1019.7162; /* EN 13319 */
static const double vapour_bar = 0.0627;
static const double move_m_min = 12;        /* down from level to level */
static const double planned_last_m_min = 3; /* nobody plans to rush the last metres */

struct diver {
    const struct gen_dive *dive;
    bool exact;
    struct gen_random random;
    const struct plm_zhl16 *model;
    struct plm_tissue tissue;
    struct plmi_decay decay;
    struct plmi_gf gf;
    struct gen_event breathed; /* in force */
    struct gen_loop loop;
    double time_s;
    double wanted_m, actual_m;  /* meant; and with what swell and breath do to it */
    double wander, amplitude_m; /* a slow wandering of deviation 1, and how much of it shows */
    int level, setpoint, deco;  /* next ones */
    bool ascending, stopped;    /* a first stop was reached */
    double stop_m, hold_m;      /* where to, and how much deeper it is held */
    double arrived_s, leave_s;  /* at the stop; and when it is left, NaN not yet */
    bool moving, cut_done, safety_done;
    double speed_m_min;
};

static double ambient_bar(const struct diver *diver, double depth_m)
{
    return plm_ambient_bar(diver->gf.surface_bar, depth_m, water_kg_m3);
}

static void breathe(struct diver *diver, struct gen_course *course)
{
    if (course->event_count == GEN_EVENTS) {
        return;
    }
    diver->breathed.time_s = diver->time_s;
    if (diver->breathed.mode == PLM_MODE_OPEN) {
        diver->breathed.setpoint_bar = (double)NAN;
    }
    course->events[course->event_count++] = diver->breathed;
}

static void diver_init(struct diver *diver, const struct gen_dive *dive, enum gen_way way, uint64_t seed,
                       const struct plm_tissue *start)
{
    struct plm_rules rules = plm_rules_default();
    double surface_bar = dive->surface_bar > 0 ? dive->surface_bar : rules.surface_default_bar;
    *diver = (struct diver){
        .dive = dive,
        .exact = way == GEN_AS_PLANNED,
        .random = gen_random_named(seed, dive->name),
        .model = plm_zhl16_get(rules.model),
        .gf = {dive->gf_low_pct / 100, dive->gf_high_pct / 100, surface_bar, (double)NAN},
        .breathed = {0, dive->mode, dive->mix, (double)NAN},
        .stop_m = (double)INFINITY,
        .arrived_s = (double)NAN,
        .leave_s = (double)NAN,
    };
    plmi_decay_init(&diver->decay, diver->model);
    diver->tissue = start != NULL ? *start : plm_tissue_saturated(surface_bar, vapour_bar, rules.air_n2_frac);
    if (dive->setpoint_count > 0) {
        diver->breathed.setpoint_bar = dive->setpoints[0].bar;
        diver->loop.po2_bar = dive->setpoints[0].bar;
        diver->setpoint = 1;
    }
}

/* The next set point, where its moment has come. */
static void setpoint_look(struct diver *diver, struct gen_course *course)
{
    const struct gen_dive *dive = diver->dive;
    if (diver->setpoint >= dive->setpoint_count || diver->breathed.mode == PLM_MODE_OPEN) {
        return;
    }
    const struct gen_setpoint *next = &dive->setpoints[diver->setpoint];
    bool now = next->when == GEN_DOWN ? !diver->ascending && diver->wanted_m >= next->depth_m : diver->stopped;
    if (now) {
        diver->setpoint++;
        diver->breathed.setpoint_bar = next->bar;
        breathe(diver, course);
    }
}

/* Is the way free to depth_m with these tissues? */
static bool is_clear(const struct diver *diver, const struct plm_tissue *tissue, double depth_m)
{
    /* There is no swell to be lifted by when the diver is at the surface. */
    double margin_m = depth_m > 0 ? diver->dive->margin_m : diver->dive->margin_m * 0.4;
    double free_bar = ambient_bar(diver, depth_m - margin_m);
    if (depth_m <= 0) {
        return plmi_ceiling_constant_bar(tissue, diver->model, diver->gf.high_frac, NULL) <= free_bar;
    }
    return plmi_ceiling_bar(tissue, diver->model, &diver->gf, NULL) <= free_bar;
}

static double next_stop_m(double depth_m)
{
    return step_m * (ceil(depth_m / step_m - 1e-9) - 1);
}

/* The shallowest stop with a free way, not deeper than the one made for. */
static double free_stop_m(const struct diver *diver)
{
    double stop_m = diver->stop_m;
    double at_m = isinf(stop_m) ? next_stop_m(diver->wanted_m) : next_stop_m(stop_m);
    for (; at_m >= 0 && is_clear(diver, &diver->tissue, at_m); at_m -= step_m) {
        stop_m = at_m;
    }
    return isinf(stop_m) ? step_m * ceil(diver->wanted_m / step_m) : stop_m;
}

static struct plmi_leg leg_of(const struct diver *diver, double before_m, double after_m, double before_loop_bar,
                              double dt_s)
{
    double before_bar = ambient_bar(diver, before_m), after_bar = ambient_bar(diver, after_m);
    const struct plm_mix *mix = &diver->breathed.mix;
    struct plmi_inspired a, b;
    if (diver->breathed.mode == PLM_MODE_CLOSED) {
        a = plmi_inspired_loop(mix, before_bar, before_loop_bar, vapour_bar);
        b = plmi_inspired_loop(mix, after_bar, diver->loop.po2_bar, vapour_bar);
    } else {
        a = plmi_inspired_open(mix, before_bar, vapour_bar);
        b = plmi_inspired_open(mix, after_bar, vapour_bar);
    }
    return (struct plmi_leg){dt_s, a.n2_bar, b.n2_bar, a.he_bar, b.he_bar};
}

/* [s] until the way to the next stop is free, staying here. */
static double clear_in_s(const struct diver *diver)
{
    struct plm_tissue tissue = diver->tissue;
    struct plmi_decay decay;
    plmi_decay_init(&decay, diver->model);
    double at_m = diver->wanted_m, to_m = next_stop_m(diver->stop_m), waited_s = 0;
    struct plmi_leg leg = leg_of(diver, at_m, at_m, diver->loop.po2_bar, 5);
    for (; waited_s < 7200 && !is_clear(diver, &tissue, to_m); waited_s += leg.dt_s) {
        plmi_tissue_step(&tissue, &leg, &decay);
    }
    return waited_s;
}

/* The mix that the next switch brings, or NULL. */
static const struct gen_deco *deco_next(const struct diver *diver)
{
    return diver->breathed.mode == PLM_MODE_OPEN && diver->deco < diver->dive->deco_count
               ? &diver->dive->deco[diver->deco]
               : NULL;
}

/* A switch keeps the diver at its depth for a minute. */
static double held_for_switch_m(struct diver *diver, struct gen_course *course, double to_m)
{
    const struct gen_deco *next = deco_next(diver);
    if (next == NULL || diver->wanted_m < next->depth_m - 0.5) {
        return to_m;
    }
    if (diver->stop_m != next->depth_m || isnan(diver->arrived_s)) {
        return fmax(to_m, next->depth_m);
    }
    double here_s = diver->time_s - diver->arrived_s;
    if (here_s >= 20 && diver->breathed.mix.o2_frac != next->mix.o2_frac) {
        diver->breathed.mix = next->mix;
        breathe(diver, course);
    }
    if (here_s >= 60) {
        diver->deco++;
        return to_m;
    }
    return next->depth_m;
}

/* Where nothing is owed, a while at a shallow depth all the same. */
static double held_for_safety_m(struct diver *diver, double to_m)
{
    const struct gen_safety *safety = &diver->dive->safety;
    if (safety->for_s <= 0 || diver->safety_done || diver->stopped || to_m > 0) {
        return to_m;
    }
    if (diver->stop_m == safety->stop_m && !isnan(diver->arrived_s) &&
        diver->time_s - diver->arrived_s >= safety->for_s) {
        diver->safety_done = true;
    }
    return diver->safety_done ? to_m : safety->stop_m;
}

/* A stop that is not waited out. */
static bool cuts_now(struct diver *diver)
{
    const struct gen_cut *cut = &diver->dive->cut;
    if (diver->exact || cut->left_s <= 0 || diver->stop_m != cut->stop_m || isnan(diver->arrived_s)) {
        return false;
    }
    diver->cut_done = diver->cut_done || clear_in_s(diver) <= cut->left_s;
    return diver->cut_done;
}

/* When a stop that has cleared is left: after a moment; in a plan after whole minutes. */
static void stop_leave(struct diver *diver, double to_m)
{
    if (isnan(diver->leave_s)) {
        double here_s = diver->time_s - diver->arrived_s;
        diver->leave_s = diver->exact ? diver->arrived_s + 60 * ceil(here_s / 60 - 1e-9)
                                      : diver->time_s + gen_random_between(&diver->random, 2, 15);
    }
    if (diver->time_s >= diver->leave_s) {
        diver->stop_m = to_m;
        diver->arrived_s = diver->leave_s = (double)NAN;
        diver->hold_m = diver->exact || to_m <= 0 ? 0 : gen_random_between(&diver->random, 0.05, 0.3);
    }
}

static bool is_owed(const struct diver *diver)
{
    return diver->stop_m > 0 && diver->stop_m != diver->dive->safety.stop_m;
}

/* Chooses the stop that is made for. */
static void stop_look(struct diver *diver, struct gen_course *course)
{
    double to_m = held_for_switch_m(diver, course, free_stop_m(diver));
    to_m = held_for_safety_m(diver, to_m);
    if (cuts_now(diver)) {
        to_m = next_stop_m(diver->stop_m);
    }
    if (isnan(diver->arrived_s)) {
        diver->stop_m = fmin(to_m, diver->stop_m);
        if (fabs(diver->wanted_m - diver->stop_m - diver->hold_m) < 1e-6) {
            diver->arrived_s = diver->time_s;
            diver->stopped = diver->stopped || is_owed(diver);
        }
    } else if (to_m < diver->stop_m) {
        stop_leave(diver, to_m);
    }
}

static bool is_rising(const struct diver *diver)
{
    const struct gen_rise *rise = &diver->dive->rise;
    double since_s = diver->time_s - diver->arrived_s - rise->after_s;
    return !diver->exact && rise->for_s > 0 && diver->stop_m == rise->stop_m && since_s >= 0 && since_s < rise->for_s;
}

/* Rate of the ascent here. */
static double ascent_m_min(const struct diver *diver)
{
    const struct gen_dive *dive = diver->dive;
    const struct gen_fast *fast = &dive->fast;
    if (!diver->exact && fast->rate_m_min > 0 && diver->wanted_m <= fast->from_m && diver->wanted_m > fast->to_m) {
        return fast->rate_m_min;
    }
    if (diver->stop_m <= 0 && diver->wanted_m < 2 * step_m) {
        return diver->exact ? fmin(dive->last_m_min, planned_last_m_min) : dive->last_m_min;
    }
    return diver->wanted_m > 3 * step_m ? dive->ascent_m_min : dive->shallow_m_min;
}

static void swim(struct diver *diver, double to_m, double rate_m_min)
{
    double most_m = rate_m_min / 60, way_m = to_m - diver->wanted_m;
    diver->moving = fabs(way_m) > 1e-9;
    diver->speed_m_min = diver->moving ? copysign(rate_m_min, way_m) : 0;
    diver->wanted_m += fabs(way_m) <= most_m + 1e-9 ? way_m : copysign(most_m, way_m);
}

static void ascend(struct diver *diver, struct gen_course *course)
{
    stop_look(diver, course);
    double to_m = diver->stop_m + diver->hold_m;
    double rate_m_min = ascent_m_min(diver);
    if (is_rising(diver)) {
        to_m -= diver->dive->rise.by_m;
        rate_m_min = 5;
    }
    swim(diver, to_m, rate_m_min);
}

static void bail_out(struct diver *diver, struct gen_course *course)
{
    const struct gen_dive *dive = diver->dive;
    int best = 0;
    while (best + 1 < dive->deco_count && dive->deco[best + 1].depth_m >= diver->wanted_m) {
        best++;
    }
    diver->breathed.mode = PLM_MODE_OPEN;
    diver->breathed.mix = dive->deco[best].mix;
    diver->deco = best + 1;
    diver->ascending = true;
    breathe(diver, course);
}

/* Down, and from level to level. */
static void stay(struct diver *diver)
{
    const struct gen_dive *dive = diver->dive;
    const struct gen_level *level = &dive->levels[diver->level];
    bool last = diver->level == dive->level_count - 1;
    double until_s = AFLOAT_S + level->until_s + (last && !diver->exact ? dive->overrun_s : 0);
    if (diver->time_s >= until_s) {
        diver->level++;
        diver->ascending = last;
        return;
    }
    if (diver->time_s >= AFLOAT_S) {
        bool up = level->depth_m < diver->wanted_m;
        double down_m_min = diver->level == 0 ? dive->descent_m_min : move_m_min;
        swim(diver, level->depth_m, up ? dive->ascent_m_min : down_m_min);
    }
}

/* What the sea and the lungs make of the depth that is meant. */
static void bob(struct diver *diver)
{
    const struct gen_dive *dive = diver->dive;
    if (diver->exact) {
        diver->actual_m = diver->wanted_m;
        return;
    }
    double goal_m = diver->wanted_m < 1 ? 0.02 : diver->ascending ? 0.1 : 0.3;
    diver->amplitude_m += (goal_m - diver->amplitude_m) / (diver->ascending ? 5 : 20);
    diver->wander += -diver->wander / 50 + sqrt(2.0 / 50) * gen_random_normal(&diver->random);
    double wander = fmax(-2.5, fmin(2.5, diver->wander));
    /* Swell dies away with depth: half of it is left at 10 m. */
    double swell_m = dive->wave_m * 10 / (10 + diver->wanted_m) * sin(6.283185307179586 * diver->time_s / dive->wave_s);
    double breath_m = 0.04 * sin(6.283185307179586 * diver->time_s / 5.3);
    double off_m = diver->amplitude_m * wander + swell_m * 0.7 + breath_m;
    if (!diver->ascending) {
        off_m -= 1.6 * diver->amplitude_m; /* over the terrace, not on it */
    }
    diver->actual_m = diver->wanted_m + off_m * fmin(1, diver->wanted_m / 2);
    diver->actual_m = fmax(0, diver->actual_m);
}

/* One second of gas. */
static void load(struct diver *diver, double before_m)
{
    double before_loop_bar = diver->loop.po2_bar;
    if (diver->breathed.mode == PLM_MODE_CLOSED) {
        double after_bar = ambient_bar(diver, diver->actual_m);
        if (diver->exact) {
            diver->loop.po2_bar = fmin(diver->breathed.setpoint_bar, after_bar);
        } else {
            gen_loop_step(&diver->loop, ambient_bar(diver, before_m), after_bar, diver->breathed.mix.o2_frac,
                          diver->breathed.setpoint_bar);
        }
    }
    struct plmi_leg leg = leg_of(diver, before_m, diver->actual_m, before_loop_bar, 1);
    plmi_tissue_step(&diver->tissue, &leg, &diver->decay);
    double anchor_bar = plmi_ceiling_constant_bar(&diver->tissue, diver->model, diver->gf.low_frac, NULL);
    if (anchor_bar > diver->gf.surface_bar && !(anchor_bar <= diver->gf.anchor_bar)) {
        diver->gf.anchor_bar = anchor_bar;
    }
}

static bool course_add(struct gen_course *course, const struct diver *diver)
{
    if (course->count == course->capacity) {
        size_t more = course->capacity == 0 ? 4096 : course->capacity * 2;
        double *depth_m = realloc(course->depth_m, more * sizeof *depth_m);
        course->depth_m = depth_m != NULL ? depth_m : course->depth_m;
        double *loop_bar = realloc(course->loop_bar, more * sizeof *loop_bar);
        course->loop_bar = loop_bar != NULL ? loop_bar : course->loop_bar;
        if (depth_m == NULL || loop_bar == NULL) {
            return false;
        }
        course->capacity = more;
    }
    course->depth_m[course->count] = diver->actual_m;
    course->loop_bar[course->count++] = diver->breathed.mode == PLM_MODE_CLOSED ? diver->loop.po2_bar : (double)NAN;
    return true;
}

static bool corner_add(struct gen_course *course, double time_s, double depth_m)
{
    size_t n = course->corner_count;
    if (n > 0 && course->corners[n - 1].time_s == time_s) {
        return true;
    }
    void *corners = course->corners;
    if (!plmi_array_grow(&corners, &course->corner_capacity, n, sizeof *course->corners)) {
        return false;
    }
    course->corners = corners;
    course->corners[course->corner_count++] = (struct gen_corner){time_s, depth_m};
    return true;
}

/* One second of the dive. Returns: false without memory. */
static bool live(struct diver *diver, struct gen_course *course)
{
    double before_m = diver->actual_m, meant_m = diver->wanted_m;
    double before_m_min = diver->speed_m_min;
    if (diver->dive->bailout_s > 0 && !diver->exact && diver->breathed.mode != PLM_MODE_OPEN &&
        diver->time_s >= AFLOAT_S + diver->dive->bailout_s) {
        bail_out(diver, course);
    }
    if (diver->ascending) {
        ascend(diver, course);
    } else {
        stay(diver);
    }
    if (diver->speed_m_min != before_m_min && !corner_add(course, diver->time_s, meant_m)) {
        return false;
    }
    setpoint_look(diver, course);
    diver->time_s++;
    bob(diver);
    load(diver, before_m);
    return course_add(course, diver);
}

bool gen_course_find(struct gen_course *out, const struct gen_dive *dive, enum gen_way way, uint64_t seed,
                     const struct plm_tissue *start)
{
    *out = (struct gen_course){.count = 0};
    struct diver diver;
    diver_init(&diver, dive, way, seed, start);
    breathe(&diver, out);
    bool done = course_add(out, &diver) && corner_add(out, 0, 0);
    double afterwards_s = 0;
    while (done && afterwards_s < AFTERWARDS_S && diver.time_s < LONGEST_S) {
        done = live(&diver, out);
        afterwards_s += diver.ascending && diver.wanted_m <= 0;
    }
    out->end = diver.tissue;
    return done && diver.time_s < LONGEST_S;
}

void gen_course_free(struct gen_course *course)
{
    free(course->depth_m);
    free(course->loop_bar);
    free(course->corners);
}
