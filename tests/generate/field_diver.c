/*
 * Down, the bottom, and up from stop to stop as the model lets go. Must not know how any of it is recorded.
 * SPDX-License-Identifier: MIT
 */
#include "generate/field_diver.h"

#include <math.h>
#include <stdlib.h>

#include "generate/field_body.h"

static const double step_m = 3;

struct stages {
    struct gen_body body;
    const struct gen_dive *dive;
    const struct gen_travel *travel;
    const struct gen_mishap *mishap;
    struct gen_mark *mark;
    int deco, setpoint;
    bool held; /* a stop was held */
    bool cut_done, rise_done, again_done, hurries;
};

static void mark_begin(struct stages *at, double value)
{
    at->mark->from_s = at->body.time_s;
    at->mark->value = value;
}

static void mark_end(struct stages *at)
{
    at->mark->to_s = at->body.time_s;
}

/* A set point whose moment has come. */
static void setpoint_look(struct stages *at)
{
    struct gen_body *body = &at->body;
    if (at->setpoint >= at->dive->setpoint_count || body->breathed.mode != PLM_MODE_CLOSED) {
        return;
    }
    const struct gen_setpoint *next = &at->dive->setpoints[at->setpoint];
    bool now = next->when == GEN_FIRST_STOP ? at->held : !body->ascending && body->wanted_m >= next->depth_m;
    if (now) {
        at->setpoint++;
        gen_body_breathe(body, PLM_MODE_CLOSED, body->breathed.mix, next->bar);
    }
}

static void go(struct stages *at, double to_m, double rate_m_min)
{
    while (fabs(at->body.wanted_m - to_m) > 1e-9 && !at->body.failed) {
        gen_body_second(&at->body, to_m, rate_m_min);
        setpoint_look(at);
    }
}

static double some_s(struct stages *at, double least_s)
{
    const struct gen_nature *nature = at->body.nature;
    return nature->alive ? floor(gen_random_between(&at->body.random, least_s, fmax(least_s, nature->late_s)))
                         : least_s;
}

static void start_breathing(struct stages *at)
{
    const struct gen_dive *dive = at->dive;
    bool loop = dive->mode == PLM_MODE_CLOSED;
    bool travel = at->travel->to_m > 0 && !at->mishap->no_travel;
    struct plm_mix mix = travel ? at->travel->mix : dive->mix;
    gen_body_breathe(&at->body, dive->mode, mix, loop ? dive->setpoints[0].bar : (double)NAN);
    at->setpoint = 1;
}

static void descend(struct stages *at)
{
    struct gen_body *body = &at->body;
    start_breathing(at);
    gen_body_wait(body, 10 + some_s(at, 0));
    body->afloat = false;
    body->lived->descent_s = body->time_s;
    if (at->travel->to_m > 0 && !at->mishap->no_travel) {
        go(at, at->travel->to_m, at->dive->descent_m_min);
        gen_body_wait(body, 20 + some_s(at, 0));
        gen_body_breathe(body, PLM_MODE_OPEN, at->dive->mix, (double)NAN);
    }
    if (at->mishap->no_travel) {
        mark_begin(at, 0);
        go(at, step_m, at->dive->descent_m_min);
        gen_body_wait(body, 60);
    }
    go(at, at->dive->levels[0].depth_m, at->dive->descent_m_min);
}

static void astray_begin(struct stages *at)
{
    if (at->mishap->astray.for_s > 0) {
        at->body.astray_bar = at->mishap->astray.by_bar;
        at->body.hold_until_s = at->body.time_s + at->mishap->astray.for_s;
        mark_begin(at, at->mishap->astray.by_bar);
        at->mark->to_s = at->body.hold_until_s;
    }
}

/* Levels one after the other, with the ups and downs of someone who looks at a wall. */
static void bottom(struct stages *at)
{
    struct gen_body *body = &at->body;
    const struct gen_nature *nature = body->nature;
    at->body.lived->bottom_begin_s = body->time_s;
    if (!at->mishap->astray.ascending) {
        gen_body_wait(body, at->mishap->astray.for_s > 0 ? 60 : 0);
        astray_begin(at);
    }
    for (int i = 0; i < at->dive->level_count; i++) {
        const struct gen_level *level = &at->dive->levels[i];
        double begin_s = body->time_s;
        while (body->time_s < 10 + level->until_s && !body->failed) {
            double turns = nature->yoyo_s > 0 ? (body->time_s - begin_s) / nature->yoyo_s : 0;
            double yoyo_m = nature->yoyo_m * (0.5 - 0.5 * cos(6.283185307 * turns));
            gen_body_second(body, level->depth_m - yoyo_m, 6);
            setpoint_look(at);
        }
    }
    at->body.lived->bottom_end_s = body->time_s;
}

static void bail_out(struct stages *at)
{
    struct gen_body *body = &at->body;
    int best = 0;
    while (best + 1 < at->dive->deco_count && at->dive->deco[best + 1].depth_m >= body->wanted_m) {
        best++;
    }
    body->lived->left_loop_s = body->time_s;
    gen_body_breathe(body, PLM_MODE_OPEN, at->dive->deco[best].mix, (double)NAN);
    at->deco = best + 1;
    gen_body_wait(body, 20 + some_s(at, 5));
}

static double stop_above_m(const struct stages *at, double stop_m)
{
    return stop_m <= at->body.nature->last_stop_m + 1e-9 ? 0 : stop_m - step_m;
}

static bool is_rushing(const struct stages *at)
{
    const struct gen_mishap *mishap = at->mishap;
    double here_m = at->body.wanted_m;
    return at->hurries || (mishap->rush.through && here_m <= mishap->rush.from_m && here_m > mishap->rush.to_m);
}

/* No stop is passed at which a mix is due. */
static bool is_due(const struct stages *at, double stop_m)
{
    return at->body.breathed.mode == PLM_MODE_OPEN && at->deco < at->dive->deco_count &&
           at->dive->deco[at->deco].depth_m >= stop_m - 1e-9;
}

/* Is the way from here to the next stop the one that is made too fast? */
static bool hurry_begins(const struct stages *at, double to_m)
{
    const struct gen_mishap *mishap = at->mishap;
    double here_m = at->body.wanted_m;
    bool fits = here_m <= mishap->rush.from_m && here_m > mishap->rush.to_m + 1 && here_m - to_m > 2.5;
    return mishap->rush.rate_m_min > 0 && !mishap->rush.through && isnan(at->mark->from_s) &&
           (at->held || at->deco > 0) && fits && (to_m <= 0) == (mishap->rush.to_m < 0);
}

/* Rate of the ascent here on the way to a stop. */
static double ascent_m_min(struct stages *at, double stop_m)
{
    const struct gen_dive *dive = at->dive;
    if (is_rushing(at)) {
        if (isnan(at->mark->from_s)) {
            mark_begin(at, at->mishap->rush.rate_m_min);
        }
        at->mark->to_s = at->body.time_s + 1;
        return at->mishap->rush.rate_m_min;
    }
    double shallow_m_min = stop_m <= 0 ? dive->last_m_min : dive->shallow_m_min;
    double rate_m_min = at->body.wanted_m > 2 * step_m + 0.6 ? dive->ascent_m_min : shallow_m_min;
    return rate_m_min * (1 + at->body.nature->unsteady * at->body.haste);
}

static void rise_to(struct stages *at, double to_m, double stop_m)
{
    at->hurries = at->hurries || hurry_begins(at, to_m);
    while (at->body.wanted_m - to_m > 1e-9 && !at->body.failed) {
        gen_body_second(&at->body, to_m, ascent_m_min(at, stop_m));
        setpoint_look(at);
    }
}

/* The mix that is due at a stop is taken, some seconds late. */
static void switch_look(struct stages *at, double stop_m)
{
    struct gen_body *body = &at->body;
    if (body->breathed.mode != PLM_MODE_OPEN || at->deco >= at->dive->deco_count ||
        at->dive->deco[at->deco].depth_m < stop_m - 1e-9) {
        return;
    }
    gen_body_wait(body, 15 + some_s(at, 0));
    gen_body_breathe(body, PLM_MODE_OPEN, at->dive->deco[at->deco].mix, (double)NAN);
    at->deco++;
    gen_body_wait(body, 30);
}

static void rise_look(struct stages *at, double stop_m)
{
    const struct gen_mishap *mishap = at->mishap;
    if (mishap->rise.for_s <= 0 || at->rise_done || stop_m > 15 || stop_m < 6) {
        return;
    }
    if (gen_body_clear_in_s(&at->body, stop_m, stop_above_m(at, stop_m)) < mishap->rise.for_s + 90) {
        return;
    }
    at->rise_done = true;
    gen_body_wait(&at->body, 20);
    double back_m = at->body.wanted_m;
    mark_begin(at, mishap->rise.by_m);
    go(at, stop_m - mishap->rise.by_m, 5);
    gen_body_wait(&at->body, mishap->rise.for_s);
    go(at, back_m, 5);
    mark_end(at);
}

/* Down once more. Returns: whether the stops begin anew. */
static bool again_look(struct stages *at, double stop_m)
{
    const struct gen_mishap *mishap = at->mishap;
    bool here = at->held ? stop_m <= 18 : stop_m <= 9;
    if (mishap->again.for_s <= 0 || at->again_done || !here) {
        return false;
    }
    at->again_done = true;
    gen_body_wait(&at->body, 20);
    double from_m = at->body.wanted_m;
    mark_begin(at, mishap->again.down_m);
    go(at, from_m + mishap->again.down_m, 15);
    gen_body_wait(&at->body, mishap->again.for_s);
    mark_end(at);
    return true;
}

/* A stop that is left before it clears. Returns: whether it is left. */
static bool cut_look(struct stages *at, double stop_m)
{
    const struct gen_mishap *mishap = at->mishap;
    double above_m = stop_above_m(at, stop_m);
    if (mishap->cut.left_s <= 0 || at->cut_done || (mishap->cut.last && above_m > 0)) {
        return false;
    }
    double left_s = gen_body_clear_in_s(&at->body, at->body.wanted_m, above_m);
    if (left_s < mishap->cut.least_s) {
        return false;
    }
    for (; left_s > mishap->cut.left_s && !at->body.failed; left_s -= 5) {
        gen_body_wait(&at->body, 5);
    }
    at->cut_done = true;
    mark_begin(at, gen_body_clear_in_s(&at->body, at->body.wanted_m, above_m) / 60);
    mark_end(at);
    return true;
}

/* A stop is held until the next one is free, and a little longer; an exact diver leaves by the minute. */
static void hold(struct stages *at, double stop_m)
{
    struct gen_body *body = &at->body;
    double above_m = stop_above_m(at, stop_m), since_s = body->time_s;
    while (!gen_body_is_clear(body, &body->tissue, above_m) && !body->failed) {
        gen_body_second(body, body->wanted_m, 1);
        setpoint_look(at);
    }
    double here_s = body->time_s - since_s;
    gen_body_wait(body, body->nature->alive ? some_s(at, 1) : 60 * ceil(here_s / 60) - here_s);
}

static double sag_m(struct stages *at, double stop_m)
{
    const struct gen_nature *nature = at->body.nature;
    return nature->alive && stop_m > 0 ? gen_random_between(&at->body.random, nature->sag_low_m, nature->sag_high_m)
                                       : 0;
}

static double level_m(const struct stages *at)
{
    return step_m * ceil(at->body.wanted_m / step_m - 0.25);
}

/* Where nothing is owed, a while at a shallow depth all the same. */
static void safety_look(struct stages *at, double stop_m)
{
    const struct gen_safety *safety = &at->dive->safety;
    if (safety->for_s > 0 && stop_m <= safety->stop_m + 1 && !at->held && !at->again_done) {
        rise_to(at, safety->stop_m, stop_m);
        gen_body_wait(&at->body, safety->for_s);
        at->held = true;
    }
}

/* What there is to do at a stop. Returns: whether the diver went down instead. */
static bool visit(struct stages *at, double stop_m)
{
    bool clear = gen_body_is_clear(&at->body, &at->body.tissue, stop_above_m(at, stop_m));
    if (is_rushing(at) && (at->mishap->rush.through || (clear && !is_due(at, stop_m)))) {
        return false;
    }
    at->hurries = false;
    switch_look(at, stop_m);
    clear = gen_body_is_clear(&at->body, &at->body.tissue, stop_above_m(at, stop_m));
    if (!clear && !at->held) {
        at->held = true;
        setpoint_look(at);
        if (at->mishap->astray.ascending) {
            astray_begin(at);
        }
    }
    if (again_look(at, stop_m)) {
        return true;
    }
    if (!clear) {
        rise_look(at, stop_m);
    }
    if (!clear && !cut_look(at, stop_m)) {
        hold(at, stop_m);
    }
    safety_look(at, stop_m);
    return false;
}

static void ascend(struct stages *at)
{
    struct gen_body *body = &at->body;
    body->ascending = true;
    double stop_m = level_m(at);
    while (stop_m > 0 && !body->failed) {
        if (visit(at, stop_m)) {
            stop_m = level_m(at);
            continue;
        }
        double next_m = stop_above_m(at, stop_m);
        bool rests =
            next_m > 0 && (!gen_body_is_clear(body, &body->tissue, stop_above_m(at, next_m)) || is_due(at, next_m));
        double to_m = next_m + (rests ? sag_m(at, next_m) : 0);
        rise_to(at, fmin(to_m, body->wanted_m), next_m);
        stop_m = next_m;
    }
}

static void surface(struct stages *at)
{
    struct gen_body *body = &at->body;
    body->lived->surfaced_s = body->time_s;
    body->lived->owed_min = gen_body_owed_s(body) / 60;
    gen_body_wait(body, body->nature->alive ? fmax(60, body->nature->bob_s) : 1);
}

bool gen_lived_find(struct gen_lived *out, const struct gen_dive *dive, const struct gen_travel *travel,
                    const struct gen_nature *nature, const struct gen_mishap *mishap, uint64_t seed)
{
    *out = (struct gen_lived){.mark = {(double)NAN, (double)NAN, (double)NAN}, .left_loop_s = (double)NAN};
    struct stages at = {.dive = dive, .travel = travel, .mishap = mishap, .mark = &out->mark};
    gen_body_init(&at.body, dive, nature, out, seed);
    descend(&at);
    bottom(&at);
    if (dive->bailout_s > 0 && nature->alive) {
        bail_out(&at);
    }
    ascend(&at);
    surface(&at);
    out->course.end = at.body.tissue;
    return !at.body.failed;
}

void gen_lived_free(struct gen_lived *lived)
{
    gen_course_free(&lived->course);
    free(lived->seconds);
}
