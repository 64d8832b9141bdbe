/*
 * Editor: an ascent slowed to the limit; all that follows comes later.
 * Must not change where the diver went, only when.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/editors.h"
#include "review/kinds/reviewers.h"

#include <math.h>

#define TRIES      6
#define SHARE      0.99 /* of the limit, that rounding to milliseconds does not show */
#define SHARE_STEP 0.02 /* less at each further try */

/* Items first..last that are slowed, and by which share of the limit. */
struct ramp {
    size_t first, last;
    double share;
    bool straight;
};

/* [ms] the least time of an ascent between two depths. */
static double least_ms(const struct plm_rules *rules, double from_m, double to_m, double share)
{
    double limit_m_min =
        fmin(plmi_review_ascent_limit_m_min(rules, from_m), plmi_review_ascent_limit_m_min(rules, to_m));
    return from_m > to_m ? (from_m - to_m) / (limit_m_min * share) * 60000.0 : 0;
}

/* One piece of the ramp, first..last: a straight line, as slow as it must be. Returns: [ms] by which it grew. */
static int64_t slow_piece(struct plmi_review_edit *edit, size_t first, size_t last, const struct ramp *ramp)
{
    const struct plmi_review_edit_sample start = edit->items[first], end = edit->items[last];
    double span_ms = (double)(end.sample.time_ms - start.sample.time_ms),
           fall_m = start.sample.depth_m - end.sample.depth_m;
    double need_ms = least_ms(edit->original->rules, start.sample.depth_m, end.sample.depth_m, ramp->share);
    if (fall_m <= 0 || (need_ms <= span_ms && !ramp->straight)) {
        return 0;
    }
    double grown_ms = fmax(need_ms, span_ms);
    for (size_t i = first + 1; i <= last; i++) {
        double share = span_ms > 0 ? (double)(edit->items[i].sample.time_ms - start.sample.time_ms) / span_ms : 1;
        edit->items[i].sample.time_ms = start.sample.time_ms + (int64_t)ceil(share * grown_ms);
        edit->items[i].sample.depth_m = start.sample.depth_m - share * fall_m;
    }
    int64_t grown = edit->items[last].sample.time_ms - end.sample.time_ms;
    plmi_review_edit_delay(edit, last + 1, grown);
    return grown;
}

/* Cuts the ramp into pieces of half a window and slows each. */
static int64_t slow(struct plmi_review_edit *edit, const struct ramp *ramp)
{
    int64_t piece_ms = llround(edit->original->rules->ascent_window_s * 500.0), grown_ms = 0;
    size_t first = ramp->first;
    while (first < ramp->last) {
        size_t last = first + 1;
        while (last < ramp->last && edit->items[last].sample.time_ms - edit->items[first].sample.time_ms < piece_ms) {
            last++;
        }
        grown_ms += slow_piece(edit, first, last, ramp);
        first = last;
    }
    return grown_ms;
}

/* The items of the stretch, widened on both sides by so many windows. */
static void widen(struct ramp *ramp, const struct plmi_review_edit *edit, const struct plm_finding *finding,
                  int windows)
{
    int64_t reach_ms = llround(edit->original->rules->ascent_window_s * 1000.0) * windows;
    ramp->first = plmi_review_edit_find(edit, finding->first_point);
    ramp->last = plmi_review_edit_find(edit, finding->last_point);
    int64_t from_ms = edit->items[ramp->first].sample.time_ms - reach_ms,
            to_ms = edit->items[ramp->last].sample.time_ms + reach_ms;
    while (ramp->first > 0 && edit->items[ramp->first].sample.time_ms > from_ms) {
        ramp->first--;
    }
    while (ramp->last + 1 < edit->count && edit->items[ramp->last].sample.time_ms < to_ms) {
        ramp->last++;
    }
}

/* Whether the edited dive still has such a finding where it was put right. */
static enum plm_status still_fast(bool *fast, struct plmi_review_edit *edit, const struct ramp *ramp)
{
    enum plm_status status = plmi_review_edit_retry(edit);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_review_scene scene = plmi_review_edit_scene(edit);
    struct plm_finding_list list;
    plmi_finding_list_init(&list);
    plmi_review_ascent_rate.look(&scene, &list);
    *fast = false;
    for (size_t i = 0; i < list.count; i++) {
        *fast = *fast || (list.items[i].first_point <= ramp->last && list.items[i].last_point >= ramp->first);
    }
    status = list.failed ? PLM_STATUS_MEMORY : PLM_STATUS_OK;
    plmi_finding_list_free(&list);
    return status;
}

static enum plm_status apply(struct plmi_review_edit *edit, const struct plm_finding *finding,
                             struct plm_finding_list *list, const char **put_right)
{
    int64_t grown_ms = 0;
    bool fast = true;
    for (int i = 0; i < TRIES && fast; i++) {
        struct ramp ramp = {.share = SHARE - SHARE_STEP * i, .straight = i > 0};
        widen(&ramp, edit, finding, 1 + i);
        grown_ms += slow(edit, &ramp);
        enum plm_status status = still_fast(&fast, edit, &ramp);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    *put_right =
        plm_finding_sentence(list, "ascent from {m} to {m} slowed to {0} m/min, {d} longer; what follows comes later",
                             finding->from_depth_m, finding->to_depth_m, finding->limit, (double)grown_ms / 1000.0);
    return fast ? PLM_STATUS_UNSOLVABLE : PLM_STATUS_OK;
}

const struct plmi_review_editor plmi_review_edit_ascent_rate = {PLM_FINDING_ASCENT_RATE, apply};
