/*
 * The robust fit of clock and depth: Gauss-Newton on the four unknowns, samples far off losing their weight.
 * SPDX-License-Identifier: MIT
 */
#include "team/align.h"

#include <math.h>
#include <string.h>

/* Samples shallower than this are left out: recorders clamp the surface to zero. */
#define WET_M  1.0
#define ROUNDS 40
/* What is likely of a recorder, as a weak pull: drift [1], scale [1], shift [m]. */
static const double LIKELY[4] = {INFINITY, 1e-4, 0.03, 1.0};
/* Spread at which the fit begins, and the least it takes as noise [m]. */
#define SPREAD_START_M 3.0
#define SPREAD_LEAST_M 0.03
/* Time is known only where the profile moves by MOVES_M within two MOVES_S: on a level, waves that are faster than
 * the sampling look like slow ones that come early or late. */
#define MOVES_S 30.0
#define MOVES_M 2.0
/* Residuals beyond this many spreads have no weight (Tukey's bisquare). */
#define TUKEY 4.7

struct sums {
    double normal[4][4], right[4], weight, weighted_square, absolute;
    size_t count;
};

/* Where asking a series goes on: at a moment, before it, after it. */
struct hints {
    size_t now, before, after;
};

static bool moves(const struct plmi_series *a, double time_s, struct hints *hints)
{
    double before_m = plmi_series_depth_m(a, time_s - MOVES_S, &hints->before, NULL);
    double after_m = plmi_series_depth_m(a, time_s + MOVES_S, &hints->after, NULL);
    return fabs(after_m - before_m) >= MOVES_M;
}

/* One sample of b against a: residual [m] and its derivatives by offset, drift, scale, shift. */
static bool residual(const struct plmi_fit *fit, const struct plmi_series *a, double time_s, double depth_m,
                     struct hints *hints, double *r, double d[4])
{
    double slope, a_time_s = time_s * (1.0 + fit->drift) + fit->offset_s;
    double model = fit->scale * depth_m + fit->shift_m;
    double seen = plmi_series_depth_m(a, a_time_s, &hints->now, &slope);
    if (isnan(seen) || seen < WET_M || depth_m < WET_M) {
        return false;
    }
    if (!moves(a, a_time_s, hints)) {
        slope = 0.0;
    }
    *r = seen - model;
    d[0] = slope;
    d[1] = slope * time_s;
    d[2] = -depth_m;
    d[3] = -1.0;
    return true;
}

static double bisquare(double r, double spread_m)
{
    double u = r / (TUKEY * spread_m);
    return fabs(u) >= 1.0 ? 0.0 : (1.0 - u * u) * (1.0 - u * u);
}

static void add_sample(struct sums *sums, double r, const double d[4], double spread_m)
{
    double w = bisquare(r, spread_m);
    for (int i = 0; i < 4; i++) {
        for (int k = 0; k < 4; k++) {
            sums->normal[i][k] += w * d[i] * d[k];
        }
        sums->right[i] -= w * d[i] * r;
    }
    double clipped = fmin(fabs(r), TUKEY * spread_m);
    sums->weight += w;
    sums->weighted_square += w * r * r;
    sums->absolute += clipped;
    sums->count++;
}

static void gather(struct sums *sums, const struct plmi_fit *fit, const struct plmi_series *a,
                   const struct plmi_series *b, double spread_m)
{
    struct hints hints = {0, 0, 0};
    memset(sums, 0, sizeof *sums);
    for (size_t i = 0; i < b->count; i++) {
        double r, d[4];
        if (residual(fit, a, b->time_s[i], b->depth_m[i], &hints, &r, d)) {
            add_sample(sums, r, d, spread_m);
        }
    }
}

/* The weak pull towards a plain recorder, and damping on the diagonal. */
static void add_pull(struct sums *sums, const struct plmi_fit *fit, double spread_m)
{
    const double now[4] = {fit->offset_s, fit->drift, fit->scale - 1.0, fit->shift_m};
    for (int i = 1; i < 4; i++) {
        double pull = spread_m * spread_m / (LIKELY[i] * LIKELY[i]);
        sums->normal[i][i] += pull;
        sums->right[i] -= pull * now[i];
    }
    for (int i = 0; i < 4; i++) {
        sums->normal[i][i] = sums->normal[i][i] * (1.0 + 1e-6) + 1e-12;
    }
}

/* Solves the four equations by elimination with pivots. Returns: false where they are singular. */
static bool solve(double m[4][4], double x[4])
{
    for (int i = 0; i < 4; i++) {
        int pivot = i;
        for (int k = i + 1; k < 4; k++) {
            if (fabs(m[k][i]) > fabs(m[pivot][i])) {
                pivot = k;
            }
        }
        if (!(fabs(m[pivot][i]) > 0.0)) {
            return false;
        }
        for (int k = 0; k < 4; k++) {
            double swap = m[i][k];
            m[i][k] = m[pivot][k];
            m[pivot][k] = swap;
        }
        double swap = x[i];
        x[i] = x[pivot];
        x[pivot] = swap;
        for (int row = i + 1; row < 4; row++) {
            double f = m[row][i] / m[i][i];
            for (int k = i; k < 4; k++) {
                m[row][k] -= f * m[i][k];
            }
            x[row] -= f * x[i];
        }
    }
    for (int i = 3; i >= 0; i--) {
        for (int k = i + 1; k < 4; k++) {
            x[i] -= m[i][k] * x[k];
        }
        x[i] /= m[i][i];
    }
    return true;
}

/* One step of the fit, held to what a step may be so that a bad start cannot run away. */
static bool step(struct sums *sums, struct plmi_fit *fit)
{
    double x[4] = {sums->right[0], sums->right[1], sums->right[2], sums->right[3]};
    if (!solve(sums->normal, x)) {
        return false;
    }
    fit->offset_s += fmax(-30.0, fmin(30.0, x[0]));
    fit->drift += fmax(-1e-3, fmin(1e-3, x[1]));
    fit->scale += fmax(-0.02, fmin(0.02, x[2]));
    fit->shift_m += fmax(-1.0, fmin(1.0, x[3]));
    return true;
}

void plmi_align_fit(struct plmi_fit *fit, double lag_s, const struct plmi_series *a, const struct plmi_series *b)
{
    struct sums sums;
    double spread_m = SPREAD_START_M;
    *fit = (struct plmi_fit){.offset_s = lag_s, .scale = 1.0, .spread_m = NAN, .cost = INFINITY};
    for (int round = 0; round < ROUNDS; round++) {
        gather(&sums, fit, a, b, spread_m);
        if (sums.count < 8 || !(sums.weight > 4.0)) {
            return;
        }
        double seen_m = sqrt(sums.weighted_square / sums.weight);
        add_pull(&sums, fit, fmax(seen_m, SPREAD_LEAST_M));
        if (!step(&sums, fit)) {
            return;
        }
        spread_m = fmax(SPREAD_LEAST_M, fmax(1.5 * seen_m, 0.7 * spread_m));
    }
    gather(&sums, fit, a, b, SPREAD_START_M);
    if (sums.count < 8) {
        return;
    }
    fit->spread_m = spread_m;
    fit->cost = sums.absolute / (double)sums.count;
}

double plmi_align_apart_m(double lag_s, const struct plmi_series *a, const struct plmi_series *b)
{
    const struct plmi_fit as_recorded = {.offset_s = lag_s, .scale = 1.0};
    struct sums sums;
    gather(&sums, &as_recorded, a, b, SPREAD_START_M);
    return sums.count < 8 ? (double)INFINITY : sums.absolute / (double)sums.count;
}
