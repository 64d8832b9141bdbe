/*
 * Dives with decompression for tests.
 * Must not compute what a test expects.
 * SPDX-License-Identifier: MIT
 */
#include "support/climbed.h"

#include <math.h>

#include "review/scene/owed.h"
#include "support/reviewed.h"

/* How far the dive has come. */
struct way {
    struct made_dive made;
    double time_s, depth_m, step_s;
};

static void breathe(struct way *way, const struct climb *climb, double o2_frac)
{
    if (climb->setpoint_bar > 0) {
        made_loop(&way->made, o2_frac, climb->he_frac, climb->setpoint_bar);
    } else {
        made_open(&way->made, o2_frac, climb->he_frac);
    }
}

static struct way bottom(const struct climb *climb, double o2_frac, double depth_m, double bottom_s)
{
    struct way way = {.made = made_start(1.0), .step_s = climb->step_s > 0 ? climb->step_s : 5};
    breathe(&way, climb, o2_frac);
    made_sample(&way.made, 0, 0);
    leg(&way.made, &way.time_s, &way.depth_m, depth_m, 60.0 * ceil(depth_m / 20), way.step_s);
    leg(&way.made, &way.time_s, &way.depth_m, depth_m, bottom_s - way.time_s, way.step_s);
    return way;
}

/* The schedule of the dive as meant. */
static void meant(struct plmi_schedule *out, const struct climb *climb)
{
    struct way way = bottom(climb, climb->o2_frac, climb->depth_m, climb->bottom_min * 60);
    struct plm_rules rules = way.made.rules;
    struct plm_dive *dive = made_finish(&way.made);
    struct plm_trace *trace = made_replay(dive, &rules);
    struct plm_replay_options options = plm_replay_options_default(&rules);
    struct plm_review_input input = {.dive = dive, .trace = trace, .replay = &options};
    struct plm_review_scene scene = plmi_review_scene_of(&input);
    plmi_review_schedule(out, &scene, scene.count - 1);
    plm_trace_free(trace);
    plm_dive_free(dive);
}

static void go_up(struct way *way, double to_m, double rate_m_min)
{
    if (way->depth_m > to_m) {
        leg(&way->made, &way->time_s, &way->depth_m, to_m, (way->depth_m - to_m) / rate_m_min * 60, way->step_s);
    }
}

/* At the rates of schedules: 9 m/min up to 6 m, from there 6 m/min. */
static void go_up_as_scheduled(struct way *way, double to_m)
{
    go_up(way, fmax(to_m, 6), 9);
    go_up(way, to_m, 6);
}

static void stops(struct way *way, const struct climb *climb, const struct plmi_schedule *schedule)
{
    for (int i = 0; i < schedule->stop_count; i++) {
        double stop_m = schedule->stops[i].depth_m, wait_s = ceil(schedule->stops[i].wait_s) + 1;
        if (fabs(stop_m - climb->stop_m) < 0.01) {
            wait_s = fmax(0, wait_s + climb->stop_s);
        }
        if (fabs(stop_m - climb->second_stop_m) < 0.01) {
            wait_s = fmax(0, wait_s + climb->second_stop_s);
        }
        if (wait_s > 0) {
            go_up_as_scheduled(way, stop_m);
            leg(&way->made, &way->time_s, &way->depth_m, stop_m, wait_s, way->step_s);
        }
    }
}

struct made_dive climb_make(const struct climb *climb)
{
    struct plmi_schedule schedule;
    meant(&schedule, climb);
    double o2_frac = climb->other_o2_frac > 0 ? climb->other_o2_frac : climb->o2_frac;
    struct way way = bottom(climb, o2_frac, climb->depth_m + climb->deeper_m, climb->bottom_min * 60 + climb->longer_s);
    if (climb->ascent_setpoint_bar > 0) {
        made_setpoint(&way.made, climb->ascent_setpoint_bar);
    }
    if (climb->rate_m_min > 0) {
        go_up(&way, climb->rate_to_m, climb->rate_m_min);
    }
    stops(&way, climb, &schedule);
    go_up(&way, 0, climb->last_rate_m_min > 0 ? climb->last_rate_m_min : 6);
    leg(&way.made, &way.time_s, &way.depth_m, 0, 60, way.step_s);
    return way.made;
}
