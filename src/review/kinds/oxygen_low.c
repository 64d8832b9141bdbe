/*
 * Reviewer: inspired oxygen below what keeps a diver awake.
 * Must not look at the surface, where a diver may breathe air whatever the log says.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#define SHOWN_BAR   0.005 /* [bar] half a step of the oxygen pressures of recorders: what is less is not reported */
#define SERIOUS_BAR 0.16  /* [bar] below this: serious; common practice, no source */

static double excess(const struct plm_review_scene *scene, size_t point)
{
    if (!plmi_review_submerged(scene, point)) {
        return 0;
    }
    double short_bar = scene->rules->po2_min_bar - scene->points[point].po2_bar;
    return short_bar >= SHOWN_BAR ? short_bar : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    double po2_bar = scene->points[stretch->worst].po2_bar;
    double serious_bar = scene->rules->po2_min_bar - SERIOUS_BAR;
    plmi_finding_grade(finding, scene->rules->po2_min_bar - po2_bar, 0, serious_bar > 0 ? serious_bar : SHOWN_BAR);
    finding->value = po2_bar;
    finding->limit = scene->rules->po2_min_bar;
    finding->text =
        plm_finding_sentence(list, "Oxygen below {2} bar {w}{s}: down to {2} bar at {t} and {m}.", finding->limit,
                             finding->from_s, finding->to_s, plmi_review_often(list, stretch), po2_bar,
                             plmi_review_time_s(scene, stretch->worst), scene->points[stretch->worst].depth_m);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The inspired oxygen pressure was below the least that is held to be safe. Too little oxygen takes "
            "consciousness "
            "without warning.",
    .reached = "A caution below po2_min_bar (0.18 bar), serious below 0.16 bar. Only under water: at the surface the "
               "diver may have "
               "breathed air whatever the recorder was set to.",
    .formula = "The PO2 that the model took, at every sample deeper than surface_depth_m (1 m).",
    .source = "Common practice, no source.",
    .ask = "Was a deep mix breathed near the surface? Did the loop add oxygen on the ascent? Was the switch logged "
           "when it was made?"};

const struct plm_reviewer plmi_review_oxygen_low = {.kind = "oxygen-low",
                                                    .unit = "bar",
                                                    .meaning = "inspired oxygen below the limit",
                                                    .look = look,
                                                    .explanation = &explanation};
