/*
 * Reviewer: the diver was shallower than the ceiling.
 * Must not speak of bare M-values; review_m_value_exceeded.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include <math.h>

/* [points] the furthest beyond the line of gradient factors. */
static double most_beyond(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch)
{
    double most = 0;
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        if (plmi_review_above_ceiling_m(scene, i) > 0) {
            most = fmax(most, plmi_review_beyond_points(scene, i));
        }
    }
    return most;
}

/* Shares of the two bounds are taken together: so many points for so long, or more of them however short. */
static void grade(struct plm_finding *finding, const struct plm_rules *rules, double points, double held_s)
{
    bool far = points >= rules->ceiling_points, is_long = held_s > rules->ceiling_serious_s;
    plmi_finding_grade(finding, points, INFINITY, rules->ceiling_serious_points);
    if (finding->severity == PLM_SEVERITY_SERIOUS) {
        return;
    }
    finding->severity = far && is_long   ? PLM_SEVERITY_SERIOUS
                        : far || is_long ? PLM_SEVERITY_CAUTION
                                         : PLM_SEVERITY_NOTE;
    double share = fmin(points / rules->ceiling_points, held_s / rules->ceiling_serious_s);
    finding->serious_share = fmax(finding->serious_share, share);
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    const struct plm_point *worst = &scene->points[stretch->worst];
    double points = most_beyond(scene, stretch);
    grade(finding, scene->rules, points, stretch->held_s);
    finding->value = stretch->excess;
    finding->limit = 0;
    finding->text =
        plm_finding_sentence(list,
                             "Above the ceiling {w}{s}, by at most {2} m: at {t} the diver was at {m} under a ceiling "
                             "of {m}, with the gradient up to {1} points beyond its line.",
                             finding->from_s, finding->to_s, plmi_review_often(list, stretch), stretch->excess,
                             plmi_review_time_s(scene, stretch->worst), worst->depth_m, worst->ceiling_m, points);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, plmi_review_above_ceiling_m, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The diver was shallower than the shallowest depth that the model allowed at that moment with the gradient "
            "factors "
            "in force. Tissues were let closer to their limit than the settings meant to.",
    .reached =
        "Reported from half a step of the recorder's depths on. A note below ceiling_points (5 points of gradient) "
        "and up to ceiling_serious_s (60 s) in all; "
        "a caution where it is one of these; serious where it is both more points and longer, and from "
        "ceiling_serious_points (10 points) on "
        "however short. Below ceiling_points never more than a caution.",
    .formula =
        "ceiling = smallest P >= surface with tissue <= P + GF(P) (M(P) - P) in all 16 compartments; the value is the "
        "ceiling's depth less the diver's, the largest of the stretch; the points are the gradient of the leading "
        "compartment less GF(P) at the "
        "diver's depth, in percent. Looked at until the diver surfaces. All breaks within one stop are one finding, "
        "and all on the way between two.",
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
