/*
 * Reviewer: the gas breathed was as narcotic as air at a great depth.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#define CAUTION_M 10.0 /* [m] beyond end_max_m by more than this: a caution; convention */

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double over_m = scene->points[point].end_m - scene->rules->end_max_m;
    return over_m > 1e-6 ? over_m : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    double end_m = scene->points[stretch->worst].end_m;
    finding->severity = stretch->excess > CAUTION_M ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->value = end_m;
    finding->limit = scene->rules->end_max_m;
    finding->text =
        plm_finding_sentence(list, "As narcotic as air deeper than {m} {w}{s}: as air at {m} when at {m}, {t}.",
                             finding->limit, finding->from_s, finding->to_s, plmi_review_often(list, stretch), end_m,
                             scene->points[stretch->worst].depth_m, plmi_review_time_s(scene, stretch->worst));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The gas was as narcotic as air would be deeper than the rule allows. Judgement and memory suffer, and the "
            "diver does not notice.",
    .reached = "A note beyond end_max_m (40 m), a caution when beyond it by more than 10 m.",
    .formula = "The depth at which air has the same narcotic partial pressure: nitrogen, and oxygen with it where the "
               "rule o2_narcotic says yes.",
    .source = "Common practice, no source.",
    .ask = "What does the diver remember of that stretch, and does the team remember the same?"};

const struct plm_reviewer plmi_review_narcotic_depth = {
    .kind = "narcotic-depth", .unit = "m", .meaning = "narcotic gas", .look = look, .explanation = &explanation};
