/*
 * The depth noise of a record, by a robust spread where the depth hardly changes.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#include "replay/noise.h"

#include <math.h>

#define WINDOW_MS    60000
#define LEVEL_M_MIN  1.0 /* no faster up or down than this over a minute: near constant depth */
#define AWAY_M       1.0 /* a minute with a point further than this from its line is no stay */
#define POINTS_LEAST 5   /* of a minute */
#define BIN_M        0.0025
#define BINS         1024 /* up to 2.5 m, what is further counts in the last */

/* How many distances fall into each bin. */
struct spread {
    size_t counts[BINS], total;
};

/* A line through the points first .. end - 1, about their middle. */
struct line {
    double middle_s, middle_m, slope_m_s;
};

static double seconds(const struct plm_point *point)
{
    return (double)point->time_ms / 1000.0;
}

static struct line line_through(const struct plm_point *points, size_t first, size_t end)
{
    double n = (double)(end - first), t = 0.0, d = 0.0, tt = 0.0, td = 0.0;
    for (size_t i = first; i < end; i++) {
        t += seconds(&points[i]) / n;
        d += points[i].depth_m / n;
    }
    for (size_t i = first; i < end; i++) {
        double away_s = seconds(&points[i]) - t;
        tt += away_s * away_s;
        td += away_s * (points[i].depth_m - d);
    }
    return (struct line){t, d, tt > 0.0 ? td / tt : (double)NAN};
}

static double distance_m(const struct line *line, const struct plm_point *point)
{
    return fabs(point->depth_m - line->middle_m - line->slope_m_s * (seconds(point) - line->middle_s));
}

static bool is_level(const struct line *line, const struct plm_point *points, size_t first, size_t end,
                     double surface_m)
{
    bool level = end - first >= POINTS_LEAST && fabs(line->slope_m_s) * 60.0 <= LEVEL_M_MIN;
    for (size_t i = first; i < end && level; i++) {
        level = points[i].depth_m >= surface_m && distance_m(line, &points[i]) <= AWAY_M;
    }
    return level;
}

static void spread_add(struct spread *spread, const struct line *line, const struct plm_point *points, size_t first,
                       size_t end)
{
    double n = (double)(end - first), widen = sqrt(n / (n - 2.0));
    for (size_t i = first; i < end; i++) {
        double bin = widen * distance_m(line, &points[i]) / BIN_M;
        spread->counts[bin < BINS - 1 ? (size_t)bin : BINS - 1]++;
        spread->total++;
    }
}

/* [m] the median distance, straight within its bin. */
static double spread_median_m(const struct spread *spread)
{
    double half = (double)spread->total / 2.0, below = 0.0;
    size_t bin = 0;
    while (below + (double)spread->counts[bin] < half) {
        below += (double)spread->counts[bin++];
    }
    return BIN_M * ((double)bin + (half - below) / (double)spread->counts[bin]);
}

double plmi_noise_measure_m(const struct plm_point *points, size_t count, double surface_m)
{
    struct spread spread = {.total = 0};
    size_t end = 0;
    for (size_t first = 0; first < count;) {
        while (end < count && points[end].time_ms < points[first].time_ms + WINDOW_MS) {
            end++;
        }
        struct line line = line_through(points, first, end);
        if (is_level(&line, points, first, end, surface_m)) {
            spread_add(&spread, &line, points, first, end);
            first = end;
        } else {
            first += (end - first + 1) / 2; /* a stay may begin within this minute */
        }
    }
    return spread.total > 0 ? 1.4826 * spread_median_m(&spread) : (double)NAN;
}

void plmi_noise_settle(struct plm_trace *trace, const struct plm_dive_info *info, const struct plm_rules *rules)
{
    struct plm_assumed *assumed = &trace->assumed;
    bool step_known = info->depth_step_m > 0.0;
    double least_m = step_known ? info->depth_step_m : rules->tolerance_depth_m;
    double measured_m = plmi_noise_measure_m(trace->points, trace->count, rules->surface_depth_m);
    if (measured_m > least_m) {
        assumed->depth_noise_m = measured_m;
        assumed->depth_noise_from = "log";
    } else {
        assumed->depth_noise_m = least_m;
        assumed->depth_noise_from = step_known ? "step of the recorder" : "rule";
    }
}
