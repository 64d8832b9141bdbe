/*
 * Reviewer: deeper than the plan's greatest depth.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"
#include "review/kinds/reviewers.h"

#define SERIOUS_SHARE 0.1 /* of the planned depth: deeper by more is serious; convention */

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double over_m = scene->points[point].depth_m - scene->plan->scene.summary->max_depth_m;
    return over_m > scene->rules->plan_depth_m + 1e-9 ? over_m : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    double planned_m = scene->plan->scene.summary->max_depth_m;
    plmi_finding_grade(finding, stretch->excess, 0, SERIOUS_SHARE * planned_m);
    finding->value = scene->points[stretch->worst].depth_m;
    finding->limit = planned_m;
    finding->text = plm_finding_sentence(list, "Deeper than the planned {m} {w}{s}: {m} at {t}.", planned_m,
                                         finding->from_s, finding->to_s, plmi_review_often(list, stretch),
                                         finding->value, plmi_review_time_s(scene, stretch->worst));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (scene->plan != NULL) {
        plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
    }
}

static const struct plm_explanation explanation = {
    .what = "The diver was deeper than the greatest depth of the plan. Gas, decompression and oxygen were all reckoned "
            "for less.",
    .reached = "Told beyond the plan's depth by more than plan_depth_m (1 m): a caution; serious beyond it by more "
               "than a tenth of it.",
    .formula = "Depth at each sample against the greatest depth of the plan.",
    .source = "Convention of this program.",
    .ask = "Was the bottom deeper than charted, was something dropped or lost, or was the plan left on purpose? Was it "
           "agreed in the team?"};

const struct plm_reviewer plmi_review_plan_deeper = {
    .kind = "plan-deeper", .unit = "m", .meaning = "deeper than planned", .look = look, .explanation = &explanation};
