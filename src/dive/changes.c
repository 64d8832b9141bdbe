/*
 * Recorders that write a sample only when the depth has changed, known by their samples. Pure.
 * Numbers: conventions of this program; recorders with a clock repeat a depth in 7 % of their samples and more.
 * SPDX-License-Identifier: MIT
 */
#include "dive/changes.h"

#include <math.h>
#include <stdlib.h>

/* The least of the changes is that of this place: so few are of another cause, such as a switch. */
#define LEAST_FRAC 0.02
/* [m] waves alone change the depth of a fine recorder by less than this and more from sample to sample. */
#define LEAST_CHANGE_M 0.05
/* Time between two samples while depth changes: a quarter of them follow each other at least as soon. */
#define STEP_FRAC 0.25
/* Fewer intervals than this say nothing; this share of them is off the usual one by more than half of it. */
#define INTERVALS_NEEDED 50
#define UNEVEN_FRAC      0.05
/* Intervals longer than this many steps are silences; over this share of them depth differs by so few least changes. */
#define SILENCE_STEPS 3.0
#define LEVEL_FRAC    0.9
#define LEVEL_CHANGES 3.0
/* As many intervals, spread over the dive, are as good as all. */
#define INTERVALS_MOST 4096

struct interval {
    double step_s, change_m;
};

static int by_step(const void *a, const void *b)
{
    double a_s = ((const struct interval *)a)->step_s, b_s = ((const struct interval *)b)->step_s;
    return (a_s > b_s) - (a_s < b_s);
}

static int by_change(const void *a, const void *b)
{
    double a_m = ((const struct interval *)a)->change_m, b_m = ((const struct interval *)b)->change_m;
    return (a_m > b_m) - (a_m < b_m);
}

/* Intervals under water; a sample that changes the settings is written whatever the depth. */
static size_t take(struct interval *out, const struct plm_rules *rules, const struct plm_sample *samples, size_t count)
{
    size_t stride = (count - 1 + INTERVALS_MOST - 1) / INTERVALS_MOST, taken = 0;
    for (size_t i = 1; i < count; i += stride) {
        const struct plm_sample *before = &samples[i - 1], *after = &samples[i];
        bool wet = before->depth_m > rules->surface_depth_m && after->depth_m > rules->surface_depth_m;
        if (wet && after->time_ms > before->time_ms && after->setting == before->setting) {
            out[taken++] = (struct interval){(double)(after->time_ms - before->time_ms) / 1000.0,
                                             fabs(after->depth_m - before->depth_m)};
        }
    }
    return taken;
}

static size_t place(size_t count, double frac)
{
    return (size_t)((double)count * frac);
}

/* Sorted by step: they come by no clock. */
static bool is_uneven(const struct interval *sorted, size_t count)
{
    double usual_s = sorted[count / 2].step_s;
    size_t off = 0;
    for (size_t i = 0; i < count; i++) {
        off += fabs(sorted[i].step_s - usual_s) > usual_s / 2;
    }
    return (double)off > UNEVEN_FRAC * (double)count;
}

static bool is_level_when_silent(const struct plm_dive_info *info, const struct interval *intervals, size_t count)
{
    size_t silences = 0, level = 0;
    for (size_t i = 0; i < count; i++) {
        if (intervals[i].step_s > SILENCE_STEPS * info->change_step_s) {
            silences++;
            level += intervals[i].change_m <= LEVEL_CHANGES * info->change_m;
        }
    }
    return silences > 0 && (double)level >= LEVEL_FRAC * (double)silences;
}

static bool is_on_change(struct plm_dive_info *info, struct interval *intervals, size_t count)
{
    if (count < INTERVALS_NEEDED) {
        return false;
    }
    qsort(intervals, count, sizeof *intervals, by_change);
    info->change_m = intervals[place(count, LEAST_FRAC)].change_m;
    qsort(intervals, count, sizeof *intervals, by_step);
    info->change_step_s = intervals[place(count, STEP_FRAC)].step_s;
    return info->change_m >= LEAST_CHANGE_M && is_uneven(intervals, count) &&
           is_level_when_silent(info, intervals, count);
}

bool plmi_changes_find(struct plm_dive_info *info, const struct plm_rules *rules, const struct plm_sample *samples,
                       size_t count)
{
    struct interval *intervals =
        count > 1 ? malloc((count < INTERVALS_MOST ? count : INTERVALS_MOST + 1) * sizeof *intervals) : NULL;
    bool found = intervals != NULL && is_on_change(info, intervals, take(intervals, rules, samples, count));
    if (!found) {
        info->change_m = info->change_step_s = (double)NAN;
    }
    free(intervals);
    return count < 2 || intervals != NULL;
}

bool plmi_silence_is_level(const struct plm_dive_info *info, const struct plm_rules *rules, double before_m,
                           double after_m)
{
    const double slip_m = 1e-6; /* of converted units */
    double most_m = info->change_m + rules->silent_rate_m_min / 60.0 * info->change_step_s;
    return fabs(after_m - before_m) <= most_m + slip_m;
}
