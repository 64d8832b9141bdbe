/*
 * A body in the water, one second at a time. Must not know of stops, nor of records.
 * SPDX-License-Identifier: MIT
 */
#include "generate/field_body.h"

#include <math.h>
#include <stdlib.h>

#include "base/arena.h"
#include "gas/mix.h"
#include "tissue/oxygen.h"

static const double water_kg_m3 = 1019.7162, vapour_bar = 0.0627, air_n2_frac = 0.7902, surface_bar = 1.01325;
static const double turn = 6.283185307179586;

double gen_body_ambient_bar(const struct gen_body *body, double depth_m)
{
    return plm_ambient_bar(body->gf.surface_bar, depth_m, water_kg_m3);
}

void gen_body_init(struct gen_body *body, const struct gen_dive *dive, const struct gen_nature *nature,
                   struct gen_lived *lived, uint64_t seed)
{
    *body = (struct gen_body){
        .dive = dive,
        .nature = nature,
        .lived = lived,
        .random = gen_random_named(seed, dive->name),
        .model = plm_zhl16_get(2),
        .gf = {dive->gf_low_pct / 100, dive->gf_high_pct / 100, dive->surface_bar, (double)NAN},
        .afloat = true,
    };
    if (!(body->gf.surface_bar > 0)) {
        body->gf.surface_bar = surface_bar;
    }
    body->loop.po2_bar = dive->setpoint_count > 0 ? dive->setpoints[0].bar : (double)NAN;
    body->tissue = plm_tissue_saturated(body->gf.surface_bar, vapour_bar, air_n2_frac);
    plmi_decay_init(&body->decay, body->model);
}

static bool is_counterdiffusion(const struct plm_mix *before, const struct plm_mix *after)
{
    double fall = before->he_frac - after->he_frac, rise = after->n2_frac - before->n2_frac;
    return fall > 1e-9 && rise > 0.2 * fall;
}

void gen_body_breathe(struct gen_body *body, enum plm_mode mode, struct plm_mix mix, double setpoint_bar)
{
    struct gen_course *course = &body->lived->course;
    if (course->event_count == GEN_EVENTS) {
        body->failed = true;
        return;
    }
    if (course->event_count > 0 && is_counterdiffusion(&body->breathed.mix, &mix)) {
        body->lived->counterdiffusion = true;
    }
    body->breathed = (struct gen_event){body->time_s, mode, mix, setpoint_bar};
    course->events[course->event_count++] = body->breathed;
}

static struct plmi_inspired inspired(const struct gen_body *body, double depth_m, double loop_bar)
{
    double ambient_bar = gen_body_ambient_bar(body, depth_m);
    return body->breathed.mode == PLM_MODE_CLOSED
               ? plmi_inspired_loop(&body->breathed.mix, ambient_bar, loop_bar, vapour_bar)
               : plmi_inspired_open(&body->breathed.mix, ambient_bar, vapour_bar);
}

bool gen_body_is_clear(const struct gen_body *body, const struct plm_tissue *tissue, double depth_m)
{
    return plmi_ceiling_bar(tissue, body->model, &body->gf, NULL) <= gen_body_ambient_bar(body, depth_m) + 1e-9;
}

/* Is to_m allowed after the way there, at the rates of schedules? */
static bool is_clear_there(const struct gen_body *body, const struct plm_tissue *tissue, double from_m, double to_m)
{
    double rate_m_min = to_m < 6 ? 6 : 9;
    struct plm_tissue there = *tissue;
    struct plmi_inspired a = inspired(body, from_m, body->breathed.setpoint_bar);
    struct plmi_inspired b = inspired(body, to_m, body->breathed.setpoint_bar);
    struct plmi_leg leg = {60 * fabs(from_m - to_m) / rate_m_min, a.n2_bar, b.n2_bar, a.he_bar, b.he_bar};
    struct plmi_decay decay;
    plmi_decay_init(&decay, body->model);
    plmi_tissue_step(&there, &leg, &decay);
    return gen_body_is_clear(body, &there, to_m);
}

double gen_body_rest_s(const struct gen_body *body, struct plm_tissue *tissue, double stay_m, double to_m)
{
    struct plmi_decay decay;
    plmi_decay_init(&decay, body->model);
    struct plmi_inspired lung = inspired(body, stay_m, body->breathed.setpoint_bar);
    struct plmi_leg leg = {5, lung.n2_bar, lung.n2_bar, lung.he_bar, lung.he_bar};
    double waited_s = 0;
    for (; waited_s < 7200 && !is_clear_there(body, tissue, stay_m, to_m); waited_s += leg.dt_s) {
        plmi_tissue_step(tissue, &leg, &decay);
    }
    return waited_s;
}

double gen_body_clear_in_s(const struct gen_body *body, double stay_m, double to_m)
{
    struct plm_tissue tissue = body->tissue;
    return gen_body_rest_s(body, &tissue, stay_m, to_m);
}

double gen_body_owed_s(const struct gen_body *body)
{
    struct plm_tissue tissue = body->tissue;
    double stop_m = 0, owed_s = 0;
    while (!gen_body_is_clear(body, &tissue, stop_m)) {
        stop_m += 3;
    }
    for (; stop_m > 0; stop_m -= 3) {
        owed_s += gen_body_rest_s(body, &tissue, stop_m, stop_m - 3);
    }
    return owed_s;
}

/* Slow wandering of deviation 1 that forgets itself in so many seconds. */
static void wander(double *value, struct gen_random *random, double forget_s)
{
    *value += -*value / forget_s + sqrt(2 / forget_s) * gen_random_normal(random);
    *value = fmax(-2, fmin(2, *value));
}

/* A head at the surface: between two depths, never twice the same. */
static double bobbing_m(const struct gen_body *body)
{
    const struct gen_nature *nature = body->nature;
    double share = 0.5 + 0.3 * sin(turn * body->time_s / (nature->wave_s * 1.3)) + 0.12 * body->wander;
    return nature->bob_m + (nature->head_m - nature->bob_m) * fmax(0, fmin(1, share));
}

/* Where the body is, when it means to be at wanted_m. */
static double found_m(struct gen_body *body)
{
    const struct gen_nature *nature = body->nature;
    if (!nature->alive) {
        return body->wanted_m;
    }
    wander(&body->wander, &body->random, 90);
    wander(&body->haste, &body->random, 20);
    if (body->wanted_m <= 0) {
        return body->afloat || nature->bob_s <= 0 ? 0 : bobbing_m(body);
    }
    /* Swell dies away with depth: half of it is left at 10 m. */
    double swell_m = nature->wave_m * 10 / (10 + body->wanted_m) * sin(turn * body->time_s / nature->wave_s);
    double breath_m = 0.04 * sin(turn * body->time_s / 5.3);
    double wander_m = (body->ascending ? nature->wander_m : nature->bottom_m) * body->wander;
    double share = fmin(1, body->wanted_m / 2);
    return fmax(0, body->wanted_m + share * (swell_m + breath_m + wander_m));
}

static void loop_second(struct gen_body *body, double before_m)
{
    if (body->breathed.mode != PLM_MODE_CLOSED) {
        return;
    }
    double after_bar = gen_body_ambient_bar(body, body->actual_m);
    double aim_bar = body->breathed.setpoint_bar + (body->time_s < body->hold_until_s ? body->astray_bar : 0);
    if (body->nature->alive) {
        gen_loop_step(&body->loop, gen_body_ambient_bar(body, before_m), after_bar, body->breathed.mix.o2_frac,
                      aim_bar);
    } else {
        body->loop.po2_bar = fmin(aim_bar, after_bar);
    }
}

static void load(struct gen_body *body, double before_m, double before_loop_bar)
{
    struct plmi_inspired a = inspired(body, before_m, before_loop_bar);
    struct plmi_inspired b = inspired(body, body->actual_m, body->loop.po2_bar);
    struct plmi_leg leg = {1, a.n2_bar, b.n2_bar, a.he_bar, b.he_bar};
    plmi_tissue_step(&body->tissue, &leg, &body->decay);
    double anchor_bar = plmi_ceiling_constant_bar(&body->tissue, body->model, body->gf.low_frac, NULL);
    if (anchor_bar > body->gf.surface_bar && !(anchor_bar <= body->gf.anchor_bar)) {
        body->gf.anchor_bar = anchor_bar;
    }
    struct gen_lived *lived = body->lived;
    lived->cns_pct += plmi_cns_pct(a.o2_bar, b.o2_bar, 1.0 / 60);
    lived->cns_day_pct += plmi_cns_day_pct(a.o2_bar, b.o2_bar, 1.0 / 60);
    lived->otu += plmi_otu(a.o2_bar, b.o2_bar, 1.0 / 60);
}

static struct gen_second second_of(const struct gen_body *body)
{
    double ambient_bar = gen_body_ambient_bar(body, body->actual_m);
    struct plmi_inspired lung = inspired(body, body->actual_m, body->loop.po2_bar);
    bool loop = body->breathed.mode == PLM_MODE_CLOSED;
    const struct plm_mix *mix = &body->breathed.mix;
    double inert_bar = ambient_bar - lung.o2_bar, inert_frac = 1 - mix->o2_frac;
    double n2_bar = inert_frac > 0 ? inert_bar * mix->n2_frac / inert_frac : 0;
    return (struct gen_second){
        .over_points =
            plmi_gradient_pct(&body->tissue, body->model, ambient_bar, NULL) - 100 * plmi_gf_at(&body->gf, ambient_bar),
        .ceiling_m = plm_depth_m(body->gf.surface_bar, plmi_ceiling_bar(&body->tissue, body->model, &body->gf, NULL),
                                 water_kg_m3),
        .po2_bar = lung.o2_bar,
        .density_g_l = loop ? plmi_density_loop_g_l(mix, ambient_bar, body->loop.po2_bar)
                            : plmi_density_open_g_l(mix, ambient_bar),
        .narcotic_m = plmi_end_m(n2_bar, lung.o2_bar, body->gf.surface_bar, plm_bar_per_m(water_kg_m3), false),
    };
}

static bool corner_add(struct gen_body *body)
{
    struct gen_course *course = &body->lived->course;
    void *corners = course->corners;
    if (!plmi_array_grow(&corners, &course->corner_capacity, course->corner_count, sizeof *course->corners)) {
        return false;
    }
    course->corners = corners;
    course->corners[course->corner_count++] = (struct gen_corner){body->time_s, body->wanted_m};
    return true;
}

/* Writes this second down. */
static bool told(struct gen_body *body)
{
    struct gen_lived *lived = body->lived;
    struct gen_course *course = &lived->course;
    if (course->count == course->capacity) {
        size_t more = course->capacity == 0 ? 4096 : course->capacity * 2;
        double *depth_m = realloc(course->depth_m, more * sizeof *depth_m);
        course->depth_m = depth_m != NULL ? depth_m : course->depth_m;
        double *loop_bar = realloc(course->loop_bar, more * sizeof *loop_bar);
        course->loop_bar = loop_bar != NULL ? loop_bar : course->loop_bar;
        struct gen_second *seconds = realloc(lived->seconds, more * sizeof *seconds);
        lived->seconds = seconds != NULL ? seconds : lived->seconds;
        if (depth_m == NULL || loop_bar == NULL || seconds == NULL) {
            return false;
        }
        course->capacity = more;
    }
    course->depth_m[course->count] = body->actual_m;
    course->loop_bar[course->count] = body->breathed.mode == PLM_MODE_CLOSED ? body->loop.po2_bar : (double)NAN;
    lived->seconds[course->count++] = second_of(body);
    return true;
}

void gen_body_second(struct gen_body *body, double to_m, double rate_m_min)
{
    double most_m = rate_m_min / 60, way_m = to_m - body->wanted_m;
    double move_m = fabs(way_m) <= most_m + 1e-9 ? way_m : copysign(most_m, way_m);
    bool corner = fabs(move_m - body->slope_m_s) > 1e-6 || body->lived->course.count == 0;
    if (corner && !corner_add(body)) {
        body->failed = true;
    }
    if (body->lived->course.count == 0 && !told(body)) {
        body->failed = true;
    }
    double before_m = body->actual_m, before_loop_bar = body->loop.po2_bar;
    body->slope_m_s = move_m;
    body->wanted_m += move_m;
    body->time_s++;
    body->actual_m = found_m(body);
    loop_second(body, before_m);
    load(body, before_m, before_loop_bar);
    body->failed = body->failed || !told(body) || body->time_s > 40000;
}

void gen_body_wait(struct gen_body *body, double for_s)
{
    for (double s = 0; s < for_s && !body->failed; s++) {
        gen_body_second(body, body->wanted_m, 1);
    }
}
