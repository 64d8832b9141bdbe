/*
 * Reviewer: after the bottom, or from far above it, the diver went down again.
 * Must not call ups and downs of a bottom that was never left so, nor sagging at a stop.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/scene/owed.h"

#include <math.h>

#define NEAR_M   1.0 /* [m] as near as this to the least depth the diver has not gone down yet; a wave's height */
#define FAR_FRAC 0.5 /* of the greatest depth: who was shallower had left the bottom, though it was reached again */

/* The way up so far: the least depth on it, and the last point near that. */
struct risen {
    double least_m;
    size_t from;
};

/* Once down and back: from, the deepest point, and the first point that is as shallow again. */
struct excursion {
    size_t from, deepest, back;
};

static void rise(struct risen *risen, const struct plm_review_scene *scene, size_t point)
{
    double depth_m = scene->points[point].depth_m;
    risen->least_m = fmin(risen->least_m, depth_m);
    risen->from = depth_m <= risen->least_m + NEAR_M ? point : risen->from;
}

static size_t bottom_reached(const struct plm_review_scene *scene)
{
    double bottom_m = scene->rules->bottom_frac * scene->summary->max_depth_m;
    size_t point = scene->summary->descent_start;
    while (point < scene->summary->bottom_end && scene->points[point].depth_m < bottom_m) {
        point++;
    }
    return point;
}

/* Whether a point is so much deeper than the way up so far. first_stop_m: of the schedule from the bottom, 0 none. */
static bool is_down(const struct plm_review_scene *scene, const struct risen *risen, size_t point, double first_stop_m)
{
    const struct plm_rules *rules = scene->rules;
    double depth_m = scene->points[point].depth_m;
    bool deeper = depth_m - risen->least_m > rules->again_depth_m;
    if (point <= scene->summary->bottom_end) {
        return deeper && risen->least_m < FAR_FRAC * scene->summary->max_depth_m;
    }
    bool stopped = first_stop_m > 0 && risen->least_m < first_stop_m + rules->stop_step_m / 2;
    return deeper || (stopped && depth_m > first_stop_m + rules->stop_step_m);
}

static struct excursion follow(const struct plm_review_scene *scene, const struct risen *risen, size_t point)
{
    struct excursion out = {risen->from, point, point};
    double back_m = scene->points[risen->from].depth_m + scene->rules->stop_step_m / 2;
    while (out.back + 1 < scene->count && scene->points[out.back].depth_m > back_m) {
        out.back++;
        out.deepest = scene->points[out.back].depth_m > scene->points[out.deepest].depth_m ? out.back : out.deepest;
    }
    return out;
}

/* Where stops were required on leaving the bottom or on going down, a caution. */
static bool is_decompressing(const struct plm_review_scene *scene, const struct excursion *excursion)
{
    return plmi_review_owed_min(scene, scene->summary->bottom_end) > 0 ||
           plmi_review_owed_min(scene, excursion->from) > 0;
}

static void add(const struct plm_review_scene *scene, struct plm_finding_list *list, const struct excursion *excursion)
{
    struct plm_finding *finding = plm_finding_add(list, scene, excursion->from, excursion->back);
    if (finding == NULL) {
        return;
    }
    double from_m = finding->from_depth_m, deepest_m = scene->points[excursion->deepest].depth_m;
    finding->severity = is_decompressing(scene, excursion) ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->value = deepest_m - from_m;
    finding->limit = scene->rules->again_depth_m;
    finding->text = plm_finding_sentence(
        list, "Went down again at {t} from {m} to {m}, after the ascent had begun; at {m} after {d}.", finding->from_s,
        from_m, deepest_m, finding->to_depth_m, finding->to_s - finding->from_s);
}

static double first_stop_m(const struct plm_review_scene *scene)
{
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, scene, scene->summary->bottom_end);
    return schedule.stop_count > 0 ? schedule.stops[0].depth_m : 0;
}

static struct risen begin_at(const struct plm_review_scene *scene, size_t point)
{
    return (struct risen){scene->points[point].depth_m, point};
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double stop_m = first_stop_m(scene);
    size_t first = bottom_reached(scene);
    struct risen risen = begin_at(scene, first);
    for (size_t i = first; i < scene->summary->surfaced && !list->failed; i++) {
        if (is_down(scene, &risen, i, stop_m)) {
            struct excursion excursion = follow(scene, &risen, i);
            add(scene, list, &excursion);
            i = excursion.back;
            risen = begin_at(scene, i);
        } else if (i == scene->summary->bottom_end) {
            risen = begin_at(scene, i);
        } else {
            rise(&risen, scene, i);
        }
    }
}

static const struct plm_explanation explanation = {
    .what =
        "After the bottom was left the diver went down again: by more than again_depth_m, or from the first stop to "
        "more than a step below it. Tissues that were giving off gas take it up again, and bubbles that were there "
        "are pressed into them; the schedule counts the gas alone.",
    .reached =
        "A caution where the model required stops on leaving the bottom or on going down, or where the effect is "
        "cost_small_min (1 min) of decompression or more; else a note, as dives on several levels do it all day.",
    .formula =
        "The greatest depth until the diver is back within half a step (stop_step_m) of the depth from which the "
        "way down began, less that depth. The bottom is left as plimsoll-model(7) has it. Who was shallower than "
        "half of the greatest depth and goes down to the bottom again is looked at, too.",
    .source = "Convention of this program.",
    .ask = "What was it for: a diver, a line, gear, a current? Was it planned? Were the stops of the new, deeper "
           "schedule known and done?"};

const struct plm_reviewer plmi_review_descended_again = {.kind = "descended-again",
                                                         .unit = "m",
                                                         .meaning = "down again after the bottom",
                                                         .look = look,
                                                         .explanation = &explanation};
