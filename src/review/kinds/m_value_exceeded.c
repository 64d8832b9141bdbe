/*
 * Reviewer: a compartment was above its bare M-value, whatever the gradient factors.
 * Must not speak of ceilings with gradient factors.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

static double excess(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_point *at = &scene->points[point];
    bool shown = at->no_limit_ceiling_m - at->depth_m >= plmi_review_half_step_m(scene);
    double over = at->gradient_pct - 100;
    return shown && over > 1e-6 ? over : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    const struct plm_point *worst = &scene->points[stretch->worst];
    plmi_finding_grade(finding, worst->gradient_pct, 0, 100);
    finding->value = worst->gradient_pct;
    finding->limit = 100;
    finding->text =
        plm_finding_sentence(list,
                             "Compartment {i} went beyond its bare M-value {w}{s}, to {0} % of the "
                             "gradient that it allows, at {t} and {m}.",
                             worst->leading, finding->from_s, finding->to_s, plmi_review_often(list, stretch),
                             worst->gradient_pct, plmi_review_time_s(scene, stretch->worst), worst->depth_m);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "A compartment held more inert gas than the M-value itself allows at that depth. Gradient factors keep "
            "away from this "
            "line; beyond it the model has nothing left to say in favour of the ascent.",
    .reached = "Always serious. Reported from half a step of the recorder's depths on.",
    .formula = "gradient = (tissue - P) / (M - P) in percent, the largest of 16 compartments, with M = a + P / b and "
               "a, b weighted "
               "by the tensions of nitrogen and helium; found where it is above 100 %.",
    .source = "Buehlmann 1995; Baker, Understanding M-values, 1998.",
    .ask = "Any symptom, however small, since? Then emergency services and a diving doctor come before this report. "
           "What made the "
           "ascent so direct?"};

const struct plm_reviewer plmi_review_m_value_exceeded = {.kind = "m-value-exceeded",
                                                          .unit = "%",
                                                          .meaning = "a compartment above its bare M-value",
                                                          .look = look,
                                                          .explanation = &explanation};
