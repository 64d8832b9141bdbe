/*
 * The schedule from a state to the surface: where to wait, and for how long, to the root.
 * Must not judge or keep anything.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/clearing.h"
#include "ascent/schedule.h"
#include "ascent/walk.h"

/* [bar] a compartment over its limit by less is at it. */
static const double at_limit_bar = 1e-11;
/* Waits at one stop in a row, each for the compartment then worst, before it counts as unsolvable;
 * and after which of them a wait is made longer, so that rounding cannot hold the diver. */
#define WAITS_MAX   64
#define WAITS_PLAIN 16

/* The diver at the end of a travel. */
struct arrival {
    struct plm_tissue tissue;
    double anchor_bar, gf_frac;
    double over_bar; /* the worst compartment over its limit there */
    int worst;
};

/* What the travel would come to if the diver left at once. */
static void look_ahead(struct plmi_walk *walk, const struct plmi_travel *travel, struct arrival *arrival)
{
    struct plmi_limits limits;
    arrival->tissue = walk->tissue;
    plmi_walk_travel(travel, &arrival->tissue);
    plmi_limits_find(&limits, &arrival->tissue, walk->model);
    arrival->anchor_bar = plmi_walk_anchor_ahead(walk, travel, &limits);
    double to_bar = travel->to_ambient_bar;
    arrival->gf_frac = plmi_walk_gf(walk, arrival->anchor_bar, to_bar);
    arrival->over_bar = plmi_limits_over_bar(&limits, to_bar, arrival->gf_frac, &arrival->worst);
}

/* Tension after the travel of one gas of one compartment: keep * tension + add. */
struct passage {
    double keep, add;
};

static void pass(struct passage *passage, double start_bar, double end_bar, double gain, double lag)
{
    passage->keep *= 1.0 - gain;
    passage->add += (start_bar - passage->add) * gain + (end_bar - start_bar) * lag;
}

/* One compartment on its way to the next depth. */
static struct plmi_clearing clearing_of(const struct plmi_walk *walk, const struct plmi_travel *travel,
                                        const struct plmi_inspired *inspired, int c, double gf_frac)
{
    const struct plm_zhl16 *model = walk->model;
    struct passage n2 = {1.0, 0.0}, he = {1.0, 0.0};
    for (int i = 0; i < travel->leg_count; i++) {
        const struct plmi_leg *leg = &travel->leg[i];
        const struct plmi_factors *f = travel->factors[i];
        pass(&n2, leg->n2_start_bar, leg->n2_end_bar, f->n2_gain[c], f->n2_lag[c]);
        pass(&he, leg->he_start_bar, leg->he_end_bar, f->he_gain[c], f->he_lag[c]);
    }
    const double ln_2_per_min = 0.69314718055994530942 / 60.0;
    return (struct plmi_clearing){
        .n2_end_bar = n2.keep * inspired->n2_bar + n2.add,
        .n2_gap_bar = n2.keep * (walk->tissue.n2_bar[c] - inspired->n2_bar),
        .n2_k = ln_2_per_min / model->n2_half_time_min[c],
        .he_end_bar = he.keep * inspired->he_bar + he.add,
        .he_gap_bar = he.keep * (walk->tissue.he_bar[c] - inspired->he_bar),
        .he_k = ln_2_per_min / model->he_half_time_min[c],
        .n2_a_bar = model->n2_a_bar[c],
        .n2_b = model->n2_b[c],
        .he_a_bar = model->he_a_bar[c],
        .he_b = model->he_b[c],
        .ambient_bar = travel->to_ambient_bar,
        .gf_frac = gf_frac,
    };
}

/*
 * [s] the wait after which a compartment is clear on arrival. A ceiling that deepens meanwhile makes the anchor deeper
 * and the limit at the next depth larger: then it is clear before the anchor of the beginning says so, found by
 * halving. INFINITY beyond max_s.
 */
static double clear_s(const struct plmi_walk *walk, const struct plmi_travel *travel,
                      const struct plmi_inspired *inspired, struct plmi_clearing clearing, double anchor_bar,
                      double max_s)
{
    double rate, curve, low_s = 0.0, plain_s = plmi_clearing_fall_s(&clearing, max_s);
    double high_s = fmin(plain_s, max_s);
    if (!(plmi_walk_anchor_staying(walk, &walk->tissue, inspired, anchor_bar, high_s) > anchor_bar)) {
        return plain_s;
    }
    for (int i = 0; i <= 60; i++) {
        double t_s = i == 0 ? high_s : 0.5 * (low_s + high_s);
        double met_bar = plmi_walk_anchor_staying(walk, &walk->tissue, inspired, anchor_bar, t_s);
        clearing.gf_frac = plmi_walk_gf(walk, met_bar, travel->to_ambient_bar);
        bool clear = plmi_clearing_over_bar(&clearing, t_s, &rate, &curve) <= at_limit_bar;
        if (i == 0 && !clear) { /* a first anchor is stricter than none: look again from there */
            return plain_s;
        }
        low_s = clear ? low_s : t_s;
        high_s = clear ? t_s : high_s;
    }
    return high_s;
}

/*
 * [s] a wait that is not too long, before any look ahead: at the next stop the compartment that the
 * last one was left for most often is worst again. 0 where it is not, or might never clear.
 */
static double likely_wait_s(const struct plmi_walk *walk, const struct plmi_travel *travel,
                            const struct plmi_inspired *inspired, double max_s)
{
    if (walk->waited_for < 0) {
        return 0.0;
    }
    double gf_frac = plmi_walk_gf(walk, walk->anchor_bar, travel->to_ambient_bar);
    struct plmi_clearing clearing = clearing_of(walk, travel, inspired, walk->waited_for, gf_frac);
    double likely_s = clear_s(walk, travel, inspired, clearing, walk->anchor_bar, max_s);
    return likely_s <= max_s ? likely_s : 0.0;
}

/* Lets the diver wait, the anchor deepening. */
static void stay(struct plmi_walk *walk, const struct plmi_inspired *inspired, double dt_s)
{
    if (!(dt_s > 0.0)) {
        return;
    }
    walk->anchor_bar = plmi_walk_anchor_staying(walk, &walk->tissue, inspired, walk->anchor_bar, dt_s);
    plmi_tissue_hold(&walk->tissue, walk->model, inspired->n2_bar, inspired->he_bar, dt_s);
}

/*
 * Waits here until the next depth is clear. Each turn waits for the compartment that is worst on
 * arrival, which is never too long; then looks again, as another may be worst, and the anchor
 * deeper. Returns: [s] the wait; INFINITY when it would not end within max_s.
 */
static double wait_s(struct plmi_walk *walk, const struct plmi_travel *travel, const struct plm_mix *mix,
                     struct arrival *arrival, double max_s)
{
    struct plmi_inspired inspired = plmi_breathing_inspired(&walk->breathing, mix, walk->ambient_bar);
    double waited_s = likely_wait_s(walk, travel, &inspired, max_s);
    stay(walk, &inspired, waited_s);
    look_ahead(walk, travel, arrival);
    for (int turn = 0; arrival->over_bar > at_limit_bar; turn++) {
        struct plmi_clearing clearing = clearing_of(walk, travel, &inspired, arrival->worst, arrival->gf_frac);
        double more_s = clear_s(walk, travel, &inspired, clearing, arrival->anchor_bar, max_s);
        if (turn >= WAITS_PLAIN) {
            more_s += ldexp(1e-6, turn - WAITS_PLAIN);
        }
        waited_s += more_s;
        if (!(waited_s <= max_s) || turn >= WAITS_MAX) {
            return (double)INFINITY;
        }
        stay(walk, &inspired, more_s);
        walk->waited_for = arrival->worst;
        look_ahead(walk, travel, arrival);
    }
    return waited_s;
}

static void add_stop(struct plmi_schedule *out, double depth_m, double waited_s, const struct plm_mix *mix)
{
    out->tts_s += waited_s;
    out->stop_total_s += waited_s;
    if (out->stop_count == PLMI_STOPS_MAX) {
        out->stops[PLMI_STOPS_MAX - 1].wait_s += waited_s;
        return;
    }
    out->stops[out->stop_count++] = (struct plmi_stop){depth_m, waited_s, mix->o2_frac, mix->he_frac};
}

/* From where the walk is to the surface. */
static void walk_up(struct plmi_walk *walk, struct plmi_schedule *out)
{
    const double max_s = walk->rules->schedule_max_h * 3600.0;
    struct plmi_limits limits;
    plmi_limits_find(&limits, &walk->tissue, walk->model);
    walk->anchor_bar = plmi_walk_anchor(walk, &limits, walk->anchor_bar);
    while (walk->depth_m > 0.0) {
        const struct plm_mix *mix = plmi_breathing_mix(&walk->breathing, walk->ambient_bar);
        struct plmi_travel travel;
        struct arrival arrival;
        plmi_walk_ahead(walk, mix, &travel);
        double waited_s = wait_s(walk, &travel, mix, &arrival, max_s - out->stop_total_s);
        if (isinf(waited_s)) {
            out->status = PLM_STATUS_UNSOLVABLE;
            out->tts_s = (double)INFINITY;
            return;
        }
        if (waited_s > 0.0) {
            add_stop(out, walk->depth_m, waited_s, mix);
        }
        out->tts_s += travel.dt_s;
        walk->anchor_bar = arrival.anchor_bar;
        plmi_walk_arrive(walk, &travel, &arrival.tissue);
    }
}

void plmi_schedule_find(struct plmi_schedule *out, const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                        const struct plm_rules *rules)
{
    out->status = PLM_STATUS_OK;
    out->stop_count = 0;
    out->tts_s = out->stop_total_s = 0.0;
    out->at_surface = from->tissue;
    if (model == NULL || !plmi_walk_can_start(from, rules)) {
        out->status = PLM_STATUS_ARGUMENT;
        out->tts_s = out->stop_total_s = (double)NAN;
        return;
    }
    struct plmi_walk walk;
    plmi_walk_start(&walk, from, model, rules);
    walk_up(&walk, out);
    out->at_surface = walk.tissue;
}

double plmi_tts_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules)
{
    struct plmi_schedule schedule;
    plmi_schedule_find(&schedule, from, model, rules);
    return schedule.tts_s;
}
