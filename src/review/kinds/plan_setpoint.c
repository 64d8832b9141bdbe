/*
 * Reviewer: another set point than planned.
 * Must not look at what the loop held; review_setpoint_not_held.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/plan/plan.h"

#include <math.h>

/* Only set points that both name can differ. */
static bool fits(const struct plmi_review_bands *bands, const struct plm_review_scene *scene, size_t point,
                 const struct plm_setting *planned)
{
    (void)bands;
    const struct plm_setting *done = plmi_review_setting(scene, point);
    if (done->mode != PLM_MODE_CLOSED || planned->mode != PLM_MODE_CLOSED) {
        return true;
    }
    return !(fabs(done->setpoint_bar - planned->setpoint_bar) > scene->rules->plan_setpoint_bar + 1e-9);
}

static double excess(const struct plm_review_scene *scene, size_t point)
{
    const struct plm_setting *planned = plmi_review_unlike(scene, point, fits);
    return planned == NULL ? 0 : fabs(plmi_review_setting(scene, point)->setpoint_bar - planned->setpoint_bar);
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    finding->value = plmi_review_setting(scene, stretch->worst)->setpoint_bar;
    finding->limit = plmi_review_unlike(scene, stretch->worst, fits)->setpoint_bar;
    finding->severity = finding->value < finding->limit ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    finding->text = plm_finding_sentence(
        list, "Set point {2} bar from {t} at {m} to {t} at {m}, where the plan has {2} bar.", finding->value,
        finding->from_s, finding->from_depth_m, finding->to_s, finding->to_depth_m, finding->limit);
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (scene->plan != NULL) {
        plmi_review_stretches_tell(scene, list, excess, scene->rules->plan_time_s, tell);
    }
}

static const struct plm_explanation explanation = {
    .what = "The loop was set to another oxygen pressure than planned. Lower, the plan's decompression is too short "
            "for it; higher, oxygen adds up faster.",
    .reached = "When off by more than plan_setpoint_bar (0.05 bar) for longer than plan_time_s (1 min): a caution "
               "where it was lower, a note where it was higher.",
    .formula = "The set point at each sample against the one that the plan has in the same band of depth (stop_step_m "
               "wide) of the same phase: down and bottom, "
               "or ascent.",
    .source = "Convention of this program.",
    .ask = "Was the change forgotten, late, or made on one device only? Which set point did the other recorder have?"};

const struct plm_reviewer plmi_review_plan_setpoint = {.kind = "plan-setpoint",
                                                       .unit = "bar",
                                                       .meaning = "another set point than planned",
                                                       .look = look,
                                                       .explanation = &explanation};
