/*
 * Least squares over a window that slides along the record.
 * Must not judge a rate.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/rate.h"

/* Sums over some points, with time [s] and depth [m] counted from an origin to keep digits. */
struct sums {
    double n, t, d, tt, td;
};

/* The points first .. end - 1 in the window, and their sums. */
struct window {
    const struct plm_point *points;
    size_t count, first, end, dropped;
    int64_t origin_ms;
    double origin_m;
    struct sums sums;
};

static void sums_add(struct sums *sums, const struct window *window, size_t i, double sign)
{
    const struct plm_point *point = &window->points[i];
    double t = (double)(point->time_ms - window->origin_ms) / 1000.0;
    double d = point->depth_m - window->origin_m;
    sums->n += sign;
    sums->t += sign * t;
    sums->d += sign * d;
    sums->tt += sign * t * t;
    sums->td += sign * t * d;
}

/* Sums anew from the first point in the window, so that rounding never adds up. */
static void renew(struct window *window)
{
    window->dropped = 0;
    window->origin_ms = window->points[window->first].time_ms;
    window->origin_m = window->points[window->first].depth_m;
    window->sums = (struct sums){0.0, 0.0, 0.0, 0.0, 0.0};
    for (size_t i = window->first; i < window->end; i++) {
        sums_add(&window->sums, window, i, 1.0);
    }
}

/* Moves the window to the points within from_ms .. to_ms; both only ever grow. */
static void slide(struct window *window, int64_t from_ms, int64_t to_ms)
{
    while (window->end < window->count && window->points[window->end].time_ms <= to_ms) {
        sums_add(&window->sums, window, window->end++, 1.0);
    }
    while (window->points[window->first].time_ms < from_ms) {
        sums_add(&window->sums, window, window->first++, -1.0);
        window->dropped++;
    }
    /* As seldom as the window is long: the cost stays in proportion to the points. */
    if (window->dropped > window->end - window->first) {
        renew(window);
    }
}

/* A slope, and its standard error where each depth has a deviation of 1 m. */
struct fit {
    double slope_m_s, error_m_s;
};

static struct fit fit_of(const struct sums *sums)
{
    double divisor = sums->n * sums->tt - sums->t * sums->t;
    if (!(divisor > 0.0)) {
        return (struct fit){(double)NAN, (double)NAN};
    }
    return (struct fit){(sums->n * sums->td - sums->t * sums->d) / divisor, sqrt(sums->n / divisor)};
}

/* The slope at a point: of the window, or with one more sample where the window is poor. */
static struct fit fitted(const struct window *window, int64_t least_span_ms)
{
    const struct plm_point *points = window->points;
    struct sums sums = window->sums;
    if (points[window->end - 1].time_ms - points[window->first].time_ms < least_span_ms) {
        if (window->first > 0) {
            sums_add(&sums, window, window->first - 1, 1.0);
        } else if (window->end < window->count) {
            sums_add(&sums, window, window->end, 1.0);
        }
    }
    return fit_of(&sums);
}

void plmi_rates_find(struct plm_point *points, size_t count, double window_s, double bar_per_m, double noise_m)
{
    int64_t whole_ms = llround(window_s * 1000.0), half_ms = whole_ms / 2;
    int64_t first_ms = points[0].time_ms, last_ms = points[count - 1].time_ms;
    struct window window = {.points = points, .count = count};
    renew(&window);
    for (size_t i = 0; i < count; i++) {
        int64_t from_ms = points[i].time_ms - half_ms;
        from_ms = from_ms > last_ms - whole_ms ? last_ms - whole_ms : from_ms;
        from_ms = from_ms < first_ms ? first_ms : from_ms;
        slide(&window, from_ms, from_ms + whole_ms);
        struct fit fit = fitted(&window, half_ms);
        double rate_m_min = -60.0 * fit.slope_m_s;
        points[i].rate_m_min = rate_m_min + 0.0;
        points[i].rate_error_m_min = 60.0 * noise_m * fit.error_m_s;
        points[i].relative_rate_pct_min = 100.0 * rate_m_min * bar_per_m / points[i].ambient_bar;
    }
}
