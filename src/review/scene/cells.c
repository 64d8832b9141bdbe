/*
 * Looks at the oxygen cells of a loop one by one.
 * Must not say which cell was right.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/cells.h"

#include <math.h>

#include "replay/loop.h"
#include "review/scene/measured.h"

#define STILL_BAR   0.05  /* [bar] a cell that moves less does not move */
#define MOVED_BAR   0.2   /* [bar] what the others must have moved by meanwhile */
#define STILL_S     180.0 /* [s] shortest stretch */
#define FOLLOWING_S 60.0  /* [s] a slow cell may come so much later */

static bool on_loop(const struct plm_review_scene *scene, size_t point)
{
    return plmi_review_setting(scene, point)->mode != PLM_MODE_OPEN;
}

double plmi_review_others_bar(const struct plm_review_scene *scene, size_t point, int cell)
{
    double others[PLM_CELLS];
    for (int i = 0; i < PLM_CELLS; i++) {
        others[i] = i + 1 == cell ? (double)NAN : scene->samples[point].cell_bar[i];
    }
    return on_loop(scene, point) ? plmi_cells_median(others) : (double)NAN;
}

int plmi_review_odd_cell(const struct plm_review_scene *scene, size_t point)
{
    int odd = 0, known = 0;
    double furthest_bar = -1;
    for (int cell = 1; cell <= PLM_CELLS; cell++) {
        double bar = scene->samples[point].cell_bar[cell - 1];
        double away_bar = fabs(bar - plmi_review_others_bar(scene, point, cell));
        known += !isnan(bar);
        if (away_bar > furthest_bar) {
            furthest_bar = away_bar;
            odd = cell;
        }
    }
    return known >= 3 ? odd : 0;
}

/* Lowest and highest of what was met. */
struct span {
    double low, high;
};

static struct span nothing(void)
{
    return (struct span){(double)INFINITY, -(double)INFINITY};
}

static void span_add(struct span *span, double value)
{
    span->low = fmin(span->low, value);
    span->high = fmax(span->high, value);
}

static double duration_s(const struct plm_review_scene *scene, size_t first, size_t last)
{
    return plmi_review_time_s(scene, last) - plmi_review_time_s(scene, first);
}

/* A pressure at a point: what a cell reads, the others beside it, or the set point. */
typedef double reading(const struct plm_review_scene *scene, size_t point, int cell);

static double cell_bar(const struct plm_review_scene *scene, size_t point, int cell)
{
    return on_loop(scene, point) ? scene->samples[point].cell_bar[cell - 1] : (double)NAN;
}

static double setpoint_bar(const struct plm_review_scene *scene, size_t point, int cell)
{
    (void)cell;
    return plmi_review_setpoint_bar(scene, point);
}

/* What was read from some time after the first point until a minute before the last. */
static struct span read_over(const struct plm_review_scene *scene, reading *read, int cell, size_t first, size_t last,
                             double begin_s)
{
    struct span span = nothing();
    for (size_t i = first; i <= last && duration_s(scene, i, last) >= FOLLOWING_S; i++) {
        double bar = read(scene, i, cell);
        if (!isnan(bar) && duration_s(scene, first, i) >= begin_s) {
            span_add(&span, bar);
        }
    }
    return span;
}

static bool moved(struct span span)
{
    return span.high - span.low >= MOVED_BAR;
}

/* All others moved together, two at least; or one did as the set point was moved, and was not only coming after. One
 * that wanders by itself is no reason for the others to move. */
static bool others_moved(const struct plm_review_scene *scene, int but, size_t first, size_t last)
{
    int known = 0, all = 0, late = 0;
    for (int cell = 1; cell <= PLM_CELLS; cell++) {
        struct span span = read_over(scene, cell_bar, cell, first, last, 0);
        if (cell != but && span.low <= span.high) {
            known++;
            all += moved(span);
            late += moved(read_over(scene, cell_bar, cell, first, last, FOLLOWING_S));
        }
    }
    bool together = moved(read_over(scene, plmi_review_others_bar, but, first, last, 0));
    return (known >= 2 && all == known && together) ||
           (late > 0 && moved(read_over(scene, setpoint_bar, 0, first, last, FOLLOWING_S)));
}

/* Takes a stretch without movement of a cell, where the others did move and it is the longest so far. */
static void take(struct plmi_review_still *still, const struct plm_review_scene *scene, int cell, size_t first,
                 size_t last, double bar)
{
    double for_s = duration_s(scene, first, last);
    if (for_s < STILL_S || (still->found && for_s <= duration_s(scene, still->first, still->last))) {
        return;
    }
    if (others_moved(scene, cell, first, last)) {
        struct span others = read_over(scene, plmi_review_others_bar, cell, first, last, 0);
        *still = (struct plmi_review_still){.found = true,
                                            .first = first,
                                            .last = last,
                                            .bar = bar,
                                            .others_low_bar = others.low,
                                            .others_high_bar = others.high};
    }
}

struct plmi_review_still plmi_review_still_find(const struct plm_review_scene *scene, int cell)
{
    struct plmi_review_still still = {.found = false};
    struct span here = nothing(), all = nothing();
    size_t first = 0, last = 0;
    for (size_t i = 0; i < scene->count; i++) {
        double bar = scene->samples[i].cell_bar[cell - 1];
        if (isnan(bar) || !on_loop(scene, i)) {
            continue;
        }
        span_add(&all, bar);
        if (fmax(here.high, bar) - fmin(here.low, bar) > STILL_BAR) {
            take(&still, scene, cell, first, last, here.high);
            here = nothing();
        }
        first = here.low <= here.high ? first : i;
        last = i;
        span_add(&here, bar);
    }
    take(&still, scene, cell, first, last, here.high);
    still.limited = still.found && still.others_high_bar > still.bar + STILL_BAR && all.high <= still.bar + STILL_BAR &&
                    all.high - all.low >= MOVED_BAR;
    return still;
}
