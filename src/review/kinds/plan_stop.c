/*
 * Reviewer: a stop shorter than planned.
 * Must not say whether the tissues minded; stop-cut-short and ceiling-exceeded do.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"
#include "review/kinds/reviewers.h"

#include <math.h>

#define SERIOUS_SHARE 0.5   /* of the planned stop: less done is serious ... */
#define SERIOUS_S     300.0 /* ... where it is short by this [s] as well; convention */

/* The points of the dive at a stop; where it was never there, those around its passing. */
static void find_points(const struct plm_review_scene *scene, const struct plmi_review_phases *done, double stop_m,
                        size_t *first, size_t *last)
{
    double half_m = scene->rules->stop_step_m / 2;
    *last = plmi_review_point_at(scene, plmi_review_last_at_s(scene, stop_m - half_m));
    *first = *last;
    while (*first > done->left && scene->points[*first - 1].depth_m < stop_m + half_m) {
        --*first;
    }
}

/* A diver who left the bottom early or stayed shallower needs less. */
static bool less_dive(const struct plm_review_scene *scene, const struct plmi_review_phases *done)
{
    bool early = plmi_review_plan_leave_s(scene, done) - done->left_s > scene->rules->plan_time_s;
    return early || scene->plan->scene.summary->max_depth_m - scene->summary->max_depth_m > scene->rules->plan_depth_m;
}

/* A stop of the plan, and what the dive had of it. */
struct pair {
    double stop_m, planned_s, done_s, deeper_s; /* deeper_s: of its time, done at the stops right below it */
};

/*
 * Takes from the time that was done beyond the plan at the stops below what this one lacks. A stop that was done as
 * planned in between ends it: what was waited far deeper stands for nothing up here. spare_s [in,out] time beyond the
 * plan at the stops right below
 */
static void make_up(struct pair *pair, double *spare_s, const struct plm_rules *rules)
{
    double least_s = plmi_review_stop_least_s(rules, pair->stop_m);
    double lacks_s = pair->planned_s - pair->done_s;
    if (pair->planned_s <= least_s && pair->done_s <= least_s) {
        return;
    }
    if (lacks_s <= 0) {
        *spare_s = -lacks_s;
        return;
    }
    pair->deeper_s = fmin(*spare_s, lacks_s);
    *spare_s -= pair->deeper_s;
}

static const char *words(struct plm_finding_list *list, const struct pair *pair)
{
    const char *deeper =
        pair->deeper_s < 1 ? "" : plm_finding_sentence(list, "; {d} of it were done at the stop below", pair->deeper_s);
    return plm_finding_sentence(list, "The stop at {0} m had {d} of the planned {d}{s}.", pair->stop_m, pair->done_s,
                                pair->planned_s, deeper);
}

static void look_at(const struct plm_review_scene *scene, struct plm_finding_list *list,
                    const struct plmi_review_phases *done, const struct pair *pair)
{
    double had_s = pair->done_s + pair->deeper_s, short_s = pair->planned_s - had_s;
    if (pair->planned_s <= plmi_review_stop_least_s(scene->rules, pair->stop_m) ||
        !(short_s > scene->rules->plan_stop_s + 1e-9)) {
        return;
    }
    size_t first = 0, last = 0;
    find_points(scene, done, pair->stop_m, &first, &last);
    struct plm_finding *finding = plm_finding_add(list, scene, first, last);
    if (finding == NULL) {
        return;
    }
    bool serious = had_s < SERIOUS_SHARE * pair->planned_s && short_s >= SERIOUS_S;
    finding->severity = less_dive(scene, done) ? PLM_SEVERITY_NOTE
                        : serious              ? PLM_SEVERITY_SERIOUS
                                               : PLM_SEVERITY_CAUTION;
    finding->serious_share = short_s / SERIOUS_S;
    finding->stop_m = pair->stop_m;
    finding->value = pair->done_s / 60;
    finding->limit = pair->planned_s / 60;
    finding->text = words(list, pair);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (scene->plan == NULL) {
        return;
    }
    struct plmi_review_phases done = plmi_review_phases_of(scene);
    double step_m = scene->rules->stop_step_m, spare_s = 0;
    double deepest_m = fmin(scene->plan->phases.left_depth_m, done.left_depth_m) - step_m;
    for (double stop_m = floor(deepest_m / step_m) * step_m; stop_m > 0; stop_m -= step_m) {
        struct pair pair = {.stop_m = stop_m,
                            .planned_s = plmi_review_stop_s(&scene->plan->scene, &scene->plan->phases, stop_m),
                            .done_s = plmi_review_stop_s(scene, &done, stop_m)};
        make_up(&pair, &spare_s, scene->rules);
        look_at(scene, list, &done, &pair);
    }
}

static const struct plm_explanation explanation = {
    .what = "A stop was shorter than the plan has it, or was left out and not done deeper instead. Whether the tissues "
            "minded is told by "
            "ceiling-exceeded and stop-cut-short.",
    .reached = "Told when short by more than plan_stop_s (1 min): a caution; serious when less than half was done and "
               "5 min or more are missing; a note where the "
               "diver left the bottom early or stayed shallower than planned, and needed less.",
    .formula =
        "Time between the half-way depths to the neighbouring stops after the end of the bottom, planned less "
        "done. Time beyond the plan at the stop right below counts, and at those below it where the stops between "
        "were short as well. Bands that the plan only passes through are no stops.",
    .source = "Convention of this program.",
    .ask = "Was the schedule changed under water, and by whom? Was the time made up at another depth?"};

const struct plm_reviewer plmi_review_plan_stop = {.kind = "plan-stop",
                                                   .unit = "min",
                                                   .meaning = "a stop shorter than planned",
                                                   .look = look,
                                                   .explanation = &explanation};
