/*
 * A slow diver: goes down and up second by second. Written apart from the floors of the library.
 * SPDX-License-Identifier: MIT
 */
#include "ref/ascent/slow_diver.h"

#include <math.h>
#include <stddef.h>

static double pressure_at(const struct slow_diver *d, double depth_m)
{
    return d->surface_bar + depth_m * d->bar_per_m;
}

/* Inspired inert pressures at a depth. */
static void inspire(const struct slow_diver *d, const struct slow_mix *mix, double depth_m, double *n2_bar,
                    double *he_bar)
{
    double p = pressure_at(d, depth_m);
    double n2 = 1.0 - mix->o2 - mix->he;
    if (d->on_loop) {
        double o2 = fmin(d->setpoint_bar, p);
        double inert = fmax(0.0, p - d->vapour_bar - o2);
        *n2_bar = inert * n2 / (n2 + mix->he);
        *he_bar = inert * mix->he / (n2 + mix->he);
    } else {
        *n2_bar = (p - d->vapour_bar) * n2;
        *he_bar = (p - d->vapour_bar) * mix->he;
    }
}

/* One Runge-Kutta step of fourth order of dP/dt = k (I - P), I running from i0 by im to i1. */
static double rk4(double p, double k, double h, double i0, double im, double i1)
{
    double s1 = k * (i0 - p);
    double s2 = k * (im - (p + 0.5 * h * s1));
    double s3 = k * (im - (p + 0.5 * h * s2));
    double s4 = k * (i1 - (p + h * s3));
    return p + h / 6.0 * (s1 + 2.0 * s2 + 2.0 * s3 + s4);
}

/* All compartments over h_s while depth runs evenly. */
static void breathe(struct slow_diver *d, const struct slow_mix *mix, double to_m, double h_s)
{
    double n2[3], he[3];
    for (int i = 0; i < 3; i++) {
        inspire(d, mix, d->depth_m + 0.5 * i * (to_m - d->depth_m), &n2[i], &he[i]);
    }
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        double n2_k = log(2.0) / (60.0 * d->model->n2_half_time_min[c]);
        double he_k = log(2.0) / (60.0 * d->model->he_half_time_min[c]);
        d->n2[c] = rk4(d->n2[c], n2_k, h_s, n2[0], n2[1], n2[2]);
        d->he[c] = rk4(d->he[c], he_k, h_s, he[0], he[1], he[2]);
    }
    d->depth_m = to_m;
}

/* Limit of one compartment as a line over ambient pressure: M = a + P / b. */
static void limit_of(const struct slow_diver *d, int c, double *a, double *b)
{
    double n2 = d->n2[c], he = d->he[c];
    *a = (d->model->n2_a_bar[c] * n2 + d->model->he_a_bar[c] * he) / (n2 + he);
    *b = (d->model->n2_b[c] * n2 + d->model->he_b[c] * he) / (n2 + he);
}

/* Deepest of the ceilings at GF low: P + low (a + P / b - P) = tension. */
static void note_anchor(struct slow_diver *d)
{
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        double a, b;
        limit_of(d, c, &a, &b);
        double tension = d->n2[c] + d->he[c];
        double p = (tension - d->gf_low * a) / (1.0 - d->gf_low + d->gf_low / b);
        d->anchor_bar = fmax(d->anchor_bar, p);
    }
}

/* The largest tension over P + GF (M - P) at the depth where the diver is. */
static double over_bar(const struct slow_diver *d)
{
    double p = pressure_at(d, d->depth_m);
    double gf = d->gf_high;
    if (d->anchor_bar > d->surface_bar) {
        double share = (p - d->surface_bar) / (d->anchor_bar - d->surface_bar);
        gf += fmin(1.0, share) * (d->gf_low - d->gf_high);
    }
    double worst = -1e9;
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        double a, b;
        limit_of(d, c, &a, &b);
        worst = fmax(worst, d->n2[c] + d->he[c] - p - gf * (a + p / b - p));
    }
    return worst;
}

double slow_surfacing_over_bar(const struct slow_diver *d)
{
    struct slow_diver there = *d;
    there.depth_m = 0.0;
    return over_bar(&there);
}

/* The richest mix within the oxygen limit, of those that keep the density if any does. */
static const struct slow_mix *best_mix(const struct slow_diver *d)
{
    double p = pressure_at(d, d->depth_m);
    const struct slow_mix *best = NULL;
    for (int respect_density = 1; respect_density >= 0 && best == NULL; respect_density--) {
        for (int i = 0; i < d->mix_count; i++) {
            const struct slow_mix *mix = &d->mixes[i];
            double n2 = 1.0 - mix->o2 - mix->he;
            double g_l = p / 1.01325 * (1.428 * mix->o2 + 1.251 * n2 + 0.178 * mix->he);
            if (mix->o2 * p > d->po2_max_bar || (respect_density && g_l > d->density_max_g_l)) {
                continue;
            }
            if (best == NULL || mix->o2 > best->o2) {
                best = mix;
            }
        }
    }
    for (int i = 0; best == NULL && i < d->mix_count; i++) {
        bool leanest = true;
        for (int j = 0; j < d->mix_count; j++) {
            leanest = leanest && d->mixes[i].o2 <= d->mixes[j].o2;
        }
        best = leanest ? &d->mixes[i] : NULL;
    }
    return best;
}

void slow_go_down(struct slow_diver *d, double depth_m, double bottom_s)
{
    d->depth_m = 0.0;
    d->anchor_bar = d->surface_bar;
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        d->n2[c] = (d->surface_bar - d->vapour_bar) * 0.7902;
        d->he[c] = 0.0;
    }
    for (double t = 0.0; t < bottom_s; t += 1.0) {
        breathe(d, &d->mixes[0], fmin(depth_m, d->depth_m + 20.0 / 60.0), 1.0);
        note_anchor(d);
    }
}

void slow_stay(struct slow_diver *d, double stay_s)
{
    int parts = (int)ceil(stay_s / 5.0);
    for (int i = 0; i < parts; i++) {
        breathe(d, &d->mixes[0], d->depth_m, stay_s / parts);
        note_anchor(d);
    }
}

static double depth_above(const struct slow_diver *d)
{
    double above = 0.0;
    for (int k = 1; k * d->step_m < d->depth_m - 1e-6; k++) {
        if (k * d->step_m > d->last_m) {
            above = k * d->step_m;
        }
    }
    return above == 0.0 && d->depth_m > d->last_m + 1e-6 ? d->last_m : above;
}

/* The diver who leaves now, at the depth above. */
static struct slow_diver gone_up(const struct slow_diver *d, const struct slow_mix *mix, int parts)
{
    struct slow_diver gone = *d;
    double to_m = depth_above(d);
    /* Two ways, one at each rate, where the edge of the shallow band lies between. */
    double ends_m[2] = {fmax(to_m, fmin(d->shallow_m, d->depth_m)), to_m};
    double rates_m_s[2] = {d->rate_m_s, d->shallow_rate_m_s};
    for (int way = 0; way < 2; way++) {
        double from_m = gone.depth_m, way_m = from_m - ends_m[way];
        double h_s = way_m / rates_m_s[way] / parts;
        for (int i = 1; i <= parts && way_m > 0.0; i++) {
            breathe(&gone, mix, i == parts ? ends_m[way] : from_m - way_m * i / parts, h_s);
            note_anchor(&gone);
        }
        gone.tts_s += h_s * parts;
    }
    return gone;
}

/* Waits in steps of h_s until leaving is allowed, then undoes the last step. */
static double wait_by(struct slow_diver *d, const struct slow_mix *mix, double h_s, double max_s)
{
    double waited_s = 0.0;
    struct slow_diver before = *d;
    /* Few parts tell whether it is worth looking closer. */
    while (waited_s < max_s) {
        struct slow_diver quick = gone_up(d, mix, 2);
        if (over_bar(&quick) < 1e-4) {
            struct slow_diver close = gone_up(d, mix, 40);
            if (over_bar(&close) <= 0.0) {
                break;
            }
        }
        before = *d;
        breathe(d, mix, d->depth_m, h_s);
        note_anchor(d);
        waited_s += h_s;
    }
    if (waited_s > 0.0) {
        *d = before;
        waited_s -= h_s;
    }
    return waited_s;
}

bool slow_go_up(struct slow_diver *d, double max_s)
{
    d->tts_s = 0.0;
    d->stop_count = 0;
    note_anchor(d);
    while (d->depth_m > 0.0) {
        const struct slow_mix *mix = best_mix(d);
        struct slow_diver at_once = gone_up(d, mix, 40);
        if (over_bar(&at_once) > 0.0) {
            /* By the minute, the second, and then the 50th part of it. */
            double waited_s = wait_by(d, mix, 20.0, max_s);
            waited_s += wait_by(d, mix, 1.0, max_s);
            waited_s += wait_by(d, mix, 0.02, max_s) + 0.02;
            breathe(d, mix, d->depth_m, 0.02);
            note_anchor(d);
            d->depths_m[d->stop_count] = d->depth_m;
            d->waits_s[d->stop_count++] = waited_s;
            d->tts_s += waited_s;
            at_once = gone_up(d, mix, 40);
        }
        *d = at_once;
        if (d->tts_s > max_s) {
            return false;
        }
    }
    return true;
}

bool slow_is_direct(const struct slow_diver *d)
{
    struct slow_diver going = *d;
    return slow_go_up(&going, 1e6) && going.stop_count == 0;
}
