/*
 * Reviewer: the diver was shallower than the ceiling.
 * Must not speak of bare M-values; review_m_value_exceeded.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

static enum plm_severity severity(const struct plm_rules *rules, const struct plmi_review_stretch *stretch)
{
    if (stretch->excess < rules->ceiling_note_m) {
        return PLM_SEVERITY_NOTE;
    }
    bool serious = stretch->excess > rules->ceiling_serious_m || stretch->held_s > rules->ceiling_serious_s;
    return serious ? PLM_SEVERITY_SERIOUS : PLM_SEVERITY_CAUTION;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    const struct plm_point *worst = &scene->points[stretch->worst];
    finding->severity = severity(scene->rules, stretch);
    finding->value = stretch->excess;
    finding->limit = 0;
    finding->text = plm_finding_sentence(
        list, "Above the ceiling {w}, by at most {2} m: at {t} the diver was at {m} under a ceiling of {m}.",
        finding->from_s, finding->to_s, stretch->excess, plmi_review_time_s(scene, stretch->worst), worst->depth_m,
        worst->ceiling_m);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, plmi_review_above_ceiling_m, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The diver was shallower than the shallowest depth that the model allowed at that moment with the gradient "
            "factors "
            "in force. Tissues were let closer to their limit than the settings meant to.",
    .reached = "A note below ceiling_note_m (0.1 m, half a step of most recorders). Serious above ceiling_serious_m (1 "
               "m), or when "
               "it held longer than ceiling_serious_s (60 s). A caution between.",
    .formula =
        "ceiling = smallest P >= surface with tissue <= P + GF(P) (M(P) - P) in all 16 compartments; the value is the "
        "ceiling's depth less the diver's, the largest of the stretch. Looked at until the diver surfaces.",
    .source = "Buehlmann 1995 for M; the line of gradient factors: Baker, Understanding M-values, 1998. The bounds of "
              "severity are "
              "a convention of this program.",
    .ask = "Was the stop held by hand, by a line or in blue water? Was there swell? Which ceiling did the recorder "
           "itself show then, and "
           "was it set to the same gradient factors?"};

const struct plm_reviewer plmi_review_ceiling_exceeded = {.kind = "ceiling-exceeded",
                                                          .unit = "m",
                                                          .meaning = "shallower than the ceiling",
                                                          .look = look,
                                                          .explanation = &explanation};
