/*
 * Reviewer: the bottom was left later than planned.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"
#include "review/kinds/reviewers.h"

#define SERIOUS_S 300.0 /* [s] later by more is serious; convention */

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (scene->plan == NULL) {
        return;
    }
    struct plmi_review_phases done = plmi_review_phases_of(scene);
    double leave_s = plmi_review_plan_leave_s(scene, &done), late_s = done.left_s - leave_s;
    if (!(late_s > scene->rules->plan_time_s + 1e-9)) {
        return;
    }
    struct plm_finding *finding = plm_finding_add(list, scene, plmi_review_point_at(scene, leave_s), done.left);
    if (finding == NULL) {
        return;
    }
    finding->from_s = leave_s;
    plmi_finding_grade(finding, late_s, 0, SERIOUS_S);
    finding->value = (done.left_s - done.start_s) / 60;
    finding->limit = (leave_s - done.start_s) / 60;
    finding->text = plm_finding_sentence(list, "Left the bottom at {t} from {m}, {d} later than planned.", done.left_s,
                                         done.left_depth_m, late_s);
}

static const struct plm_explanation explanation = {
    .what = "The bottom was left later than the plan says. Every extra minute deep costs several of decompression.",
    .reached = "Told when later by more than plan_time_s (1 min): a caution; serious by more than 5 min.",
    .formula = "Runtime since the start of descent at which the final ascent begins, against the plan's. It begins "
               "where a rate above 2 m/min sets in that passes "
               "bottom_frac (0.85) of the lesser of the two greatest depths for good. Value and limit are runtimes.",
    .source = "Convention of this program; the cost of minutes at depth is common practice, no source.",
    .ask = "What held the team: work, a line, another diver, or a watch not looked at? Was there gas for it?"};

const struct plm_reviewer plmi_review_plan_longer = {.kind = "plan-longer",
                                                     .unit = "min",
                                                     .meaning = "bottom left later than planned",
                                                     .look = look,
                                                     .explanation = &explanation};
