/*
 * What is left between two aligned records: how far apart they are, and whether the small ups and downs of the
 * body are in both. Two divers of a team may share a profile; they do not share these.
 * SPDX-License-Identifier: MIT
 */
#include "team/align.h"

#include <math.h>
#include <stdlib.h>

#define WET_M 1.0
/* Ups and downs are means over SHORT_S less means over LONG_S [s]: slower than waves, faster than the profile. */
#define SHORT_S 30.0
#define LONG_S  240.0
/* Only stretches that stay within this over LONG_S count [m]. */
#define LEVEL_M        3.0
#define LEAST_SAMPLES  30
#define LEAST_EXPECTED 0.5

/* Common moments: time, depth of a, aligned depth of b, and room for running sums. */
struct common {
    size_t count;
    double *time_s, *a_m, *b_m, *sum;
    double step_s;
};

static int compare_doubles(const void *x, const void *y)
{
    double a = *(const double *)x, b = *(const double *)y;
    return (a > b) - (a < b);
}

static bool common_init(struct common *common, size_t room)
{
    double *block = calloc(4 * room + 1, sizeof *block);
    *common = (struct common){.time_s = block,
                              .a_m = block != NULL ? block + room : NULL,
                              .b_m = block != NULL ? block + 2 * room : NULL,
                              .sum = block != NULL ? block + 3 * room : NULL};
    return block != NULL;
}

static void common_add(struct common *common, double time_s, double a_m, double b_m)
{
    if (isnan(a_m) || isnan(b_m) || (a_m < WET_M && b_m < WET_M)) {
        return;
    }
    common->time_s[common->count] = time_s;
    common->a_m[common->count] = a_m;
    common->b_m[common->count++] = b_m;
}

/* Takes the moments of the coarser record, so that nothing is made up between its samples. */
static void gather(struct common *common, const struct plmi_fit *fit, const struct plmi_series *a,
                   const struct plmi_series *b)
{
    size_t hint = 0;
    common->step_s = fmax(a->step_s, b->step_s);
    if (a->step_s > b->step_s) {
        for (size_t i = 0; i < a->count; i++) {
            double time_b = (a->time_s[i] - fit->offset_s) / (1.0 + fit->drift);
            double depth = plmi_series_depth_m(b, time_b, &hint, NULL);
            common_add(common, a->time_s[i], a->depth_m[i], fit->scale * depth + fit->shift_m);
        }
        return;
    }
    for (size_t i = 0; i < b->count; i++) {
        double time_a = b->time_s[i] * (1.0 + fit->drift) + fit->offset_s;
        double depth = plmi_series_depth_m(a, time_a, &hint, NULL);
        common_add(common, time_a, depth, fit->scale * b->depth_m[i] + fit->shift_m);
    }
}

/* Half and nine tenths of |a - b|; uses sum as room. */
static void apart(struct plmi_likeness *out, struct common *common)
{
    size_t n = common->count;
    for (size_t i = 0; i < n; i++) {
        common->sum[i] = fabs(common->a_m[i] - common->b_m[i]);
    }
    qsort(common->sum, n, sizeof *common->sum, compare_doubles);
    out->apart_median_m = common->sum[n / 2];
    out->apart_p90_m = common->sum[(size_t)(0.9 * (double)(n - 1))];
    for (size_t i = 1; i < n; i++) {
        double dt_s = common->time_s[i] - common->time_s[i - 1];
        out->overlap_s += dt_s <= 3.0 * common->step_s ? dt_s : common->step_s;
    }
}

struct window {
    size_t first, last;
}; /* samples first..last-1 */

static void window_move(struct window *window, const struct common *common, size_t i, double width_s)
{
    while (common->time_s[window->first] < common->time_s[i] - width_s / 2) {
        window->first++;
    }
    while (window->last < common->count && common->time_s[window->last] <= common->time_s[i] + width_s / 2) {
        window->last++;
    }
}

static double window_mean(const struct window *window, const double *depth_m)
{
    double sum = 0.0;
    for (size_t i = window->first; i < window->last; i++) {
        sum += depth_m[i];
    }
    return sum / (double)(window->last - window->first);
}

static bool level(const struct window *window, const double *depth_m)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t i = window->first; i < window->last; i++) {
        low = fmin(low, depth_m[i]);
        high = fmax(high, depth_m[i]);
    }
    return high - low <= LEVEL_M;
}

struct moments {
    double aa, bb, ab;
    size_t count;
};

static struct moments ups_and_downs(const struct common *common)
{
    struct moments sums = {0};
    struct window brief = {0}, wide = {0};
    for (size_t i = 0; i < common->count; i++) {
        window_move(&brief, common, i, SHORT_S);
        window_move(&wide, common, i, LONG_S);
        double covered_s = common->time_s[wide.last - 1] - common->time_s[wide.first];
        if (covered_s < 0.7 * LONG_S || !level(&wide, common->a_m) || !level(&wide, common->b_m)) {
            continue;
        }
        double a = window_mean(&brief, common->a_m) - window_mean(&wide, common->a_m);
        double b = window_mean(&brief, common->b_m) - window_mean(&wide, common->b_m);
        sums.aa += a * a;
        sums.bb += b * b;
        sums.ab += a * b;
        sums.count++;
    }
    return sums;
}

/* Share of a variance that is not the rounding of the recorder. */
static double share(double square_m2, double quantum_m, double step_s)
{
    double averaged = fmax(1.0, SHORT_S / step_s);
    double rounding = quantum_m * quantum_m / 12.0 / averaged;
    return square_m2 > rounding ? (square_m2 - rounding) / square_m2 : 0.0;
}

static void correlate(struct plmi_likeness *out, const struct common *common, const struct plmi_series *a,
                      const struct plmi_series *b)
{
    struct moments sums = ups_and_downs(common);
    if (sums.count < LEAST_SAMPLES || !(sums.aa > 0.0) || !(sums.bb > 0.0)) {
        return;
    }
    double n = (double)sums.count;
    double expected =
        sqrt(share(sums.aa / n, a->quantum_m, common->step_s) * share(sums.bb / n, b->quantum_m, common->step_s));
    if (expected < LEAST_EXPECTED) {
        return;
    }
    out->expected = expected;
    out->correlation = sums.ab / sqrt(sums.aa * sums.bb);
}

bool plmi_align_likeness(struct plmi_likeness *out, const struct plmi_fit *fit, const struct plmi_series *a,
                         const struct plmi_series *b)
{
    struct common common;
    *out = (struct plmi_likeness){.apart_median_m = NAN, .apart_p90_m = NAN, .correlation = NAN, .expected = NAN};
    if (!common_init(&common, a->count > b->count ? a->count : b->count)) {
        return false;
    }
    gather(&common, fit, a, b);
    if (common.count >= 2) {
        apart(out, &common);
        correlate(out, &common, a, b);
    }
    free(common.time_s);
    return true;
}
