/*
 * Reviewer: a leg of the ascent faster than the plan's.
 * Must not know the rules' limit but for the severity; ascent_rate.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/plan.h"
#include "review/kinds/reviewers.h"

#include <math.h>

struct fast {
    struct plmi_review_passage done;
    const struct plmi_review_leg *leg;
    double planned_m_min;
};

static bool is_fast(struct fast *fast, const struct plm_review_scene *scene, const struct plmi_review_leg *leg)
{
    if (leg->from_m - leg->to_m < scene->rules->plan_leg_m - 1e-6) {
        return false;
    }
    *fast = (struct fast){.done = plmi_review_leg_pass(scene, leg, true), .leg = leg};
    fast->planned_m_min = plmi_review_leg_pass(&scene->plan->scene, leg, false).rate_m_min;
    return fast->done.rate_m_min > fast->planned_m_min + scene->rules->plan_rate_m_min + 1e-6;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list, struct plm_finding *finding,
                 const struct fast *fast)
{
    double limit_m_min = plmi_review_ascent_limit_m_min(scene->rules, fast->leg->to_m);
    enum plm_severity severity = fast->done.rate_m_min > limit_m_min ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    if (!(fast->done.rate_m_min - fast->planned_m_min > finding->value - finding->limit)) {
        finding->severity = severity > finding->severity ? severity : finding->severity;
        return;
    }
    finding->severity = severity > finding->severity ? severity : finding->severity;
    finding->value = fast->done.rate_m_min;
    finding->limit = fast->planned_m_min;
    finding->text = plm_finding_sentence(list, "Came up from {m} to {m} at {1} m/min where the plan has {1} m/min.",
                                         fast->leg->from_m, fast->leg->to_m, finding->value, finding->limit);
}

/* The finding that a leg belongs to: the last one where it follows closely, else a new one. */
static struct plm_finding *finding_for(const struct plm_review_scene *scene, struct plm_finding_list *list,
                                       size_t before, const struct fast *fast)
{
    size_t first = plmi_review_point_at(scene, fast->done.from_s), last = plmi_review_point_at(scene, fast->done.to_s);
    if (list->count > before && fast->done.from_s - list->items[list->count - 1].to_s < scene->rules->merge_s) {
        struct plm_finding *finding = &list->items[list->count - 1];
        finding->last_point = last;
        finding->to_s = plmi_review_time_s(scene, last);
        finding->to_depth_m = scene->points[last].depth_m;
        finding->last_line = scene->points[last].line;
        return finding;
    }
    struct plm_finding *finding = plm_finding_add(list, scene, first, last);
    if (finding != NULL) {
        finding->value = -INFINITY;
        finding->limit = 0;
    }
    return finding;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    size_t before = list->count;
    if (scene->plan == NULL) {
        return;
    }
    for (size_t i = 0; i < scene->plan->legs.count; i++) {
        struct fast fast;
        if (!is_fast(&fast, scene, &scene->plan->legs.items[i])) {
            continue;
        }
        struct plm_finding *finding = finding_for(scene, list, before, &fast);
        if (finding == NULL) {
            return;
        }
        tell(scene, list, finding, &fast);
    }
}

static const struct plm_explanation explanation = {
    .what =
        "A leg of the ascent went faster than the plan has it. Where there is a plan, its own rate is what was meant.",
    .reached = "Told when faster by more than plan_rate_m_min (1 m/min): a note, a caution where it is above the limit "
               "of the rules as well.",
    .formula = "Mean rate over the middle 70 % of each straight leg of the plan (30 % of short ones), the depths being "
               "those of the plan; for the dive no more than the fitted "
               "rate shows there. Legs of plan_leg_m (10 m) and more.",
    .source = "Convention of this program.",
    .ask = "Was the plan's rate known under water? Who set the pace?"};

const struct plm_reviewer plmi_review_plan_rate = {
    .kind = "plan-rate", .unit = "m/min", .meaning = "faster than planned", .look = look, .explanation = &explanation};
