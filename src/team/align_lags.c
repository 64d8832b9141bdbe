/*
 * Candidates for the time offset: squared distance of the profiles on a common time base, over every lag.
 * SPDX-License-Identifier: MIT
 */
#include "team/align.h"

#include <math.h>
#include <stdlib.h>

/* Points on the common time base: coarse enough for speed, fine enough for the fit to lock in. */
#define BASE_MIN_S  5.0
#define BASE_POINTS 2400.0
/* Share of the shorter record that must be common. */
#define COMMON_FRAC 0.5
/* Candidates nearer than this are one [s]. */
#define APART_S 60.0

struct base {
    double *depth_m;
    long count;
};

static double span_s(const struct plmi_series *series)
{
    return series->time_s[series->count - 1] - series->time_s[0];
}

static bool resample(struct base *base, const struct plmi_series *series, double step_s)
{
    size_t hint = 0;
    base->count = (long)floor(span_s(series) / step_s) + 1;
    base->depth_m = malloc((size_t)base->count * sizeof *base->depth_m);
    if (base->depth_m == NULL) {
        return false;
    }
    for (long i = 0; i < base->count; i++) {
        base->depth_m[i] = plmi_series_depth_m(series, series->time_s[0] + (double)i * step_s, &hint, NULL);
    }
    return true;
}

static double at(const struct base *base, long i, bool dry_start, bool dry_end)
{
    if (i < 0) {
        return dry_start ? 0.0 : (double)NAN;
    }
    if (i >= base->count) {
        return dry_end ? 0.0 : (double)NAN;
    }
    return base->depth_m[i];
}

/* Mean squared distance with b's point 0 on a's point lag; INFINITY where too little is common. */
static double distance(const struct base *a, const struct base *b, long lag, const struct plmi_series *sa,
                       const struct plmi_series *sb)
{
    long first = lag < 0 ? lag : 0, last = b->count + lag > a->count ? b->count + lag : a->count;
    long both = 0, shorter = a->count < b->count ? a->count : b->count;
    double sum = 0.0, n = 0.0;
    for (long i = first; i < last; i++) {
        double x = at(a, i, sa->dry_start, sa->dry_end), y = at(b, i - lag, sb->dry_start, sb->dry_end);
        if (isnan(x) || isnan(y)) {
            continue;
        }
        both += i >= 0 && i < a->count && i - lag >= 0 && i - lag < b->count;
        sum += (x - y) * (x - y);
        n += 1.0;
    }
    return (double)both < COMMON_FRAC * (double)shorter ? (double)INFINITY : sum / n;
}

/* Puts a candidate into the list, best first, one for each neighbourhood. */
static void keep(double *lags_s, double *costs, int *count, double lag_s, double cost)
{
    for (int i = 0; i < *count; i++) {
        if (fabs(lags_s[i] - lag_s) < APART_S) {
            if (cost >= costs[i]) {
                return;
            }
            for (int k = i; k + 1 < *count; k++) {
                lags_s[k] = lags_s[k + 1];
                costs[k] = costs[k + 1];
            }
            (*count)--;
            i--;
        }
    }
    int place = *count;
    while (place > 0 && costs[place - 1] > cost) {
        place--;
    }
    if (place >= PLMI_LAGS) {
        return;
    }
    for (int k = *count < PLMI_LAGS ? *count : PLMI_LAGS - 1; k > place; k--) {
        lags_s[k] = lags_s[k - 1];
        costs[k] = costs[k - 1];
    }
    lags_s[place] = lag_s;
    costs[place] = cost;
    if (*count < PLMI_LAGS) {
        (*count)++;
    }
}

int plmi_align_lags(double lags_s[PLMI_LAGS], const struct plmi_series *a, const struct plmi_series *b)
{
    if (a->count < 2 || b->count < 2) {
        return 0;
    }
    double longer_s = fmax(span_s(a), span_s(b)), costs[PLMI_LAGS];
    double step_s = fmax(BASE_MIN_S, longer_s / BASE_POINTS);
    struct base base_a = {0}, base_b = {0};
    int count = -1;
    if (resample(&base_a, a, step_s) && resample(&base_b, b, step_s)) {
        count = 0;
        for (long lag = -base_b.count; lag <= base_a.count; lag++) {
            double cost = distance(&base_a, &base_b, lag, a, b);
            if (isfinite(cost)) {
                keep(lags_s, costs, &count, (double)lag * step_s + a->time_s[0] - b->time_s[0], cost);
            }
        }
    }
    free(base_a.depth_m);
    free(base_b.depth_m);
    return count;
}
