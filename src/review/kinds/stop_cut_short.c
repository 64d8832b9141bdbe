/*
 * Reviewer: a stop was left for shallower water while it still had to run.
 * Must not speak of drifting above a stop that was not left; review_ceiling_exceeded.c does.
 * SPDX-License-Identifier: MIT
 */
#include "ascent/way.h"
#include "dive/surface.h"
#include "review/scene/owed.h"
#include "review/kinds/reviewers.h"

#include <math.h>

#define ASCENDING_M_MIN 2.0 /* [m/min] faster than this is leaving a stop; convention */

/* What the diver left behind: the waits of all stops deeper than the depth gone to, less the time spent among them. */
struct cut {
    size_t left, behind;
    double deepest_m, short_s;
};

static double shallowest_m(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch)
{
    double depth_m = INFINITY;
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        depth_m = fmin(depth_m, scene->points[i].depth_m);
    }
    return depth_m;
}

/* The first point shallower than a depth, from a point on. */
static size_t first_above(const struct plm_review_scene *scene, size_t from, size_t last, double depth_m)
{
    while (from < last && scene->points[from].depth_m >= depth_m) {
        from++;
    }
    return from;
}

/* Back from the last point below the ceiling to the stop that was left, no more than a step deeper; that point itself
 * where there was none. */
static size_t leaving(const struct plm_review_scene *scene, size_t below)
{
    double reach_m = scene->points[below].depth_m + scene->rules->stop_step_m;
    size_t left = below;
    while (left > 0 && scene->points[left].rate_m_min > ASCENDING_M_MIN &&
           scene->points[left - 1].depth_m > scene->points[left].depth_m) {
        left--;
    }
    return scene->points[left].depth_m <= reach_m ? left : below;
}

/* Whether the diver is as deep again behind a point and before the next surfacing: a rise that is taken back by more
 * than half is no leaving. */
static bool comes_back(const struct plm_review_scene *scene, size_t left, size_t behind, double depth_m)
{
    struct plmi_surfacings walk = plmi_surfacings_of(scene->samples, scene->count, scene->rules);
    size_t surfaced = 0;
    while (surfaced < left && plmi_surfacing_next(&walk, &surfaced)) {
    }
    size_t end = surfaced < left ? scene->count - 1 : surfaced;
    for (size_t i = behind + 1; i <= end; i++) {
        if (scene->points[i].depth_m >= depth_m) {
            return true;
        }
    }
    return false;
}

static bool find_cut(struct cut *cut, const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch)
{
    double half_m = scene->rules->stop_step_m / 2, gone_m = shallowest_m(scene, stretch);
    if (stretch->first == 0) {
        return false;
    }
    *cut = (struct cut){.left = leaving(scene, stretch->first - 1)};
    if (comes_back(scene, cut->left, stretch->last, (scene->points[cut->left].depth_m + gone_m) / 2)) {
        return false;
    }
    struct plmi_schedule schedule;
    plmi_review_schedule(&schedule, scene, cut->left);
    if (schedule.status != PLM_STATUS_OK) {
        return false;
    }
    double waits_s = 0, last_m = 0;
    for (int i = 0; i < schedule.stop_count && schedule.stops[i].depth_m > gone_m + half_m; i++) {
        waits_s += schedule.stops[i].wait_s;
        last_m = schedule.stops[i].depth_m;
        cut->deepest_m = fmax(cut->deepest_m, last_m);
    }
    if (waits_s <= 0) {
        return false;
    }
    cut->behind = first_above(scene, cut->left, stretch->last, last_m - half_m);
    double travel_s = plmi_way_s(scene->rules, scene->points[cut->left].depth_m, scene->points[cut->behind].depth_m);
    double spent_s = plmi_review_time_s(scene, cut->behind) - plmi_review_time_s(scene, cut->left) - travel_s;
    cut->short_s = waits_s - fmax(0, spent_s);
    return cut->short_s > scene->rules->stop_short_s;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plmi_review_stretch stretch;
    for (size_t at = 0; plmi_review_stretch_next(scene, plmi_review_above_ceiling_m, &at, &stretch);) {
        struct cut cut;
        if (!find_cut(&cut, scene, &stretch)) {
            continue;
        }
        struct plm_finding *finding = plm_finding_add(list, scene, cut.left, stretch.last);
        if (finding == NULL) {
            return;
        }
        plmi_finding_grade(finding, cut.short_s, scene->rules->stop_short_s, scene->rules->stop_serious_s);
        finding->value = cut.short_s / 60;
        finding->limit = scene->rules->stop_short_s / 60;
        bool surfaced = stretch.last >= scene->summary->surfaced && !scene->summary->ends_in_water;
        const char *up_to =
            surfaced ? "the surface" : plm_finding_sentence(list, "{m}", scene->points[cut.behind].depth_m);
        finding->text =
            plm_finding_sentence(list, "Left {m} at {t} for {s}, {d} before the stops from {m} on had cleared.",
                                 finding->from_depth_m, finding->from_s, up_to, cut.short_s, cut.deepest_m);
    }
}

static const struct plm_explanation explanation = {
    .what = "The diver left a stop, or passed it by, before the model let it go. What was short is the time that the "
            "schedule still wanted "
            "at the stops left behind.",
    .reached = "Told when short by more than stop_short_s (1 min): a caution; serious from stop_serious_s (5 min) on. "
               "Who comes back to the stop has not left it: that is ceiling-exceeded.",
    .formula = "Where the diver goes above the ceiling by leaving a stop depth: the waits of the schedule from the "
               "last sample below the "
               "ceiling, over all stops deeper than the depth gone to, less the time then spent among them.",
    .source = "The schedule by Buehlmann 1995 with gradient factors, plimsoll-model(7); the bounds are a convention of "
              "this program.",
    .ask = "Which schedule was followed: the recorder's, a table, a team member's? Was it made up for higher up? Why "
           "was it left?"};

const struct plm_reviewer plmi_review_stop_cut_short = {.kind = "stop-cut-short",
                                                        .unit = "min",
                                                        .meaning = "a stop left before it cleared",
                                                        .look = look,
                                                        .explanation = &explanation};
