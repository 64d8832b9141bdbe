/*
 * Reviewer: the measured oxygen of a loop stayed away from the set point.
 * Must not judge the set point itself; oxygen-high and plan-setpoint do.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/measured.h"
#include "review/kinds/reviewers.h"

#include <math.h>

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double off_bar = fabs(plmi_review_measured_bar(scene, point) - plmi_review_setpoint_bar(scene, point));
    double over_bar = off_bar - scene->rules->setpoint_off_bar;
    return plmi_review_submerged(scene, point) && over_bar > 1e-6 ? over_bar : 0;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    double measured_bar = plmi_review_measured_bar(scene, stretch->worst);
    double setpoint_bar = plmi_review_setpoint_bar(scene, stretch->worst);
    finding->severity = measured_bar < setpoint_bar ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->value = measured_bar;
    finding->limit = setpoint_bar;
    finding->text = plm_finding_sentence(
        list, "The loop did not hold its set point {w}{s}: {2} bar measured against {2} bar set at {t} and {m}.",
        finding->from_s, finding->to_s, plmi_review_often(list, stretch), measured_bar, setpoint_bar,
        plmi_review_time_s(scene, stretch->worst), scene->points[stretch->worst].depth_m);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, scene->rules->setpoint_off_s, tell);
}

static const struct plm_explanation explanation = {
    .what = "For a while the oxygen measured in the loop was not what it was set to. Below it, more inert gas is taken "
            "up and less given off than "
            "a schedule on the set point assumes; above it, oxygen adds up faster.",
    .reached = "Told when off by more than setpoint_off_bar (0.2 bar) for longer than setpoint_off_s (2 min). A "
               "caution where it was too low, a note "
               "where it was too high (oxygen-high tells of too much).",
    .formula = "Median of the cells, else the logged PO2, less the set point; the set point counts at most as ambient "
               "pressure.",
    .source = "Convention of this program.",
    .ask =
        "Oxygen supply, solenoid, or flown by hand? Were the cells fresh and calibrated? Which PO2 did the diver see?"};

const struct plm_reviewer plmi_review_setpoint_not_held = {.kind = "setpoint-not-held",
                                                           .unit = "bar",
                                                           .meaning = "measured oxygen away from the set point",
                                                           .look = look,
                                                           .explanation = &explanation};
