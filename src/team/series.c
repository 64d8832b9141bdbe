/*
 * A record as a series of depth over time. Copies; never changes the dive.
 * SPDX-License-Identifier: MIT
 */
#include "team/series.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A record counts as dry where it is shallower than this [m]. */
#define DRY_M 1.0
/* Shortest stretch without samples that is a gap [s], and in usual intervals. */
#define GAP_S             60.0
#define GAP_STEPS         3.0
#define QUANTUM_UNKNOWN_M 0.1

static int compare_doubles(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Median interval; the series has at least two samples. */
static bool usual_step(struct plmi_series *series)
{
    size_t n = series->count - 1;
    double *steps = malloc(n * sizeof *steps);
    if (steps == NULL) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        steps[i] = series->time_s[i + 1] - series->time_s[i];
    }
    qsort(steps, n, sizeof *steps, compare_doubles);
    series->step_s = steps[n / 2];
    free(steps);
    series->gap_s = fmax(GAP_S, GAP_STEPS * series->step_s);
    return true;
}

/* Copies samples with strictly rising times; of equal times the last counts. */
static void copy_samples(struct plmi_series *series, const struct plm_sample *samples, size_t count)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        double time_s = (double)samples[i].time_ms / 1000.0;
        if (n > 0 && !(time_s > series->time_s[n - 1])) {
            n--;
        }
        series->time_s[n] = time_s;
        series->depth_m[n++] = samples[i].depth_m;
    }
    series->count = n;
}

bool plmi_series_init(struct plmi_series *series, const struct plm_dive *dive)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    double quantum_m = plm_dive_info_get(dive)->depth_step_m;

    memset(series, 0, sizeof *series);
    series->time_s = calloc(count, sizeof *series->time_s);
    series->depth_m = calloc(count, sizeof *series->depth_m);
    if (series->time_s == NULL || series->depth_m == NULL) {
        return false;
    }
    copy_samples(series, samples, count);
    series->quantum_m = quantum_m > 0 ? quantum_m : QUANTUM_UNKNOWN_M;
    series->dry_start = series->depth_m[0] < DRY_M;
    series->dry_end = series->depth_m[series->count - 1] < DRY_M;
    if (series->count < 2) {
        series->step_s = 1.0;
        series->gap_s = GAP_S;
        return true;
    }
    return usual_step(series);
}

void plmi_series_free(struct plmi_series *series)
{
    free(series->time_s);
    free(series->depth_m);
    memset(series, 0, sizeof *series);
}

/* Index i with time[i] <= time_s < time[i + 1]; time_s lies inside the series. */
static size_t segment(const struct plmi_series *series, double time_s, size_t hint)
{
    size_t low = 0, high = series->count - 1;
    if (hint < high && series->time_s[hint] <= time_s) {
        low = hint;
        for (size_t k = 0; k < 4 && low + 1 < high; k++, low++) {
            if (time_s < series->time_s[low + 1]) {
                return low;
            }
        }
    }
    while (low + 1 < high) {
        size_t middle = low + (high - low) / 2;
        if (series->time_s[middle] <= time_s) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

double plmi_series_depth_m(const struct plmi_series *series, double time_s, size_t *hint, double *slope_m_s)
{
    if (slope_m_s != NULL) {
        *slope_m_s = 0.0;
    }
    if (series->count == 0 || !isfinite(time_s)) {
        return NAN;
    }
    if (time_s < series->time_s[0]) {
        return series->dry_start ? 0.0 : (double)NAN;
    }
    if (time_s >= series->time_s[series->count - 1]) {
        bool last = time_s <= series->time_s[series->count - 1];
        return last ? series->depth_m[series->count - 1] : series->dry_end ? 0.0 : (double)NAN;
    }
    size_t i = segment(series, time_s, *hint);
    *hint = i;
    double dt_s = series->time_s[i + 1] - series->time_s[i];
    if (dt_s > series->gap_s) {
        return NAN;
    }
    double slope = (series->depth_m[i + 1] - series->depth_m[i]) / dt_s;
    if (slope_m_s != NULL) {
        *slope_m_s = slope;
    }
    return series->depth_m[i] + slope * (time_s - series->time_s[i]);
}
