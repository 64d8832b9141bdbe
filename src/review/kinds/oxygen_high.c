/*
 * Reviewer: inspired oxygen above the limit at any time, or above the working limit before the final ascent.
 * Must not count doses; the cns and otu reviewers do.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#define NOTE_BAR \
    0.05 /* [bar] above a limit by no more: half a metre of depth, or the step of a cell; a note. Convention */
#define SERIOUS_BAR 0.1 /* [bar] above po2_max_bar by more: serious. Convention */

/* [bar] what counts as held at any time: oxygen at 6 m is 1.613 bar at sea level. */
static double held_bar(const struct plm_rules *rules)
{
    return rules->po2_max_bar + rules->deco_po2_slack_bar;
}

static double limit_bar(const struct plm_review_scene *scene, size_t point)
{
    return point < scene->summary->bottom_end ? scene->rules->po2_bottom_max_bar : scene->rules->po2_max_bar;
}

static double excess(const struct plm_review_scene *scene, size_t point)
{
    double slack_bar = point < scene->summary->bottom_end ? 0 : scene->rules->deco_po2_slack_bar;
    double over_bar = scene->points[point].po2_bar - limit_bar(scene, point) - slack_bar;
    return over_bar > 1e-6 ? over_bar : 0;
}

static enum plm_severity severity(const struct plm_rules *rules, double po2_bar, double limit)
{
    if (po2_bar - rules->po2_max_bar > SERIOUS_BAR + 1e-9) {
        return PLM_SEVERITY_SERIOUS;
    }
    bool small = po2_bar - limit <= NOTE_BAR + 1e-9;
    return small ? PLM_SEVERITY_NOTE : PLM_SEVERITY_CAUTION;
}

/* The point with most oxygen in the stretch. */
static size_t most(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch)
{
    size_t best = stretch->worst;
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        if (excess(scene, i) > 0 && scene->points[i].po2_bar > scene->points[best].po2_bar) {
            best = i;
        }
    }
    return best;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    size_t worst = most(scene, stretch);
    double po2_bar = scene->points[worst].po2_bar;
    double limit = po2_bar > held_bar(scene->rules) ? scene->rules->po2_max_bar : limit_bar(scene, worst);
    finding->severity = severity(scene->rules, po2_bar, limit);
    finding->value = po2_bar;
    finding->limit = limit;
    finding->text = plm_finding_sentence(list, "Oxygen above {2} bar {w}, {d} in all: up to {2} bar at {t} and {m}{s}.",
                                         limit, finding->from_s, finding->to_s, stretch->held_s, po2_bar,
                                         plmi_review_time_s(scene, worst), scene->points[worst].depth_m,
                                         limit < scene->rules->po2_max_bar ? ", before the final ascent" : "");
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The inspired oxygen pressure was above the highest allowed at any time, or above the working limit while "
            "the final "
            "ascent had not begun. High oxygen can end in a convulsion without warning.",
    .reached = "A note up to 0.05 bar above the limit, which half a metre of depth or a cell's step explains; a "
               "caution above that; serious more "
               "than 0.1 bar above po2_max_bar (1.6 bar). po2_max_bar counts as held up to deco_po2_slack_bar (0.02 "
               "bar) more, so that "
               "oxygen at 6 m is none: 1.613 bar at sea level, and the 1.6 atm of the table are 1.621 bar.",
    .formula = "The PO2 that the model took, at every sample: fraction times ambient pressure on open circuit; "
               "measured, logged or set on a "
               "loop, at most ambient. Limit: po2_max_bar (1.6), and po2_bottom_max_bar (1.4) until the end of the "
               "bottom phase.",
    .source = "NOAA Diving Manual, oxygen exposure limits (none is given above 1.6); the working limit is common "
              "practice, no source.",
    .ask = "Which mix or set point was meant? On a loop: was it a spike on the descent, a stuck valve, or a cell that "
           "reads high? How long?"};

const struct plm_reviewer plmi_review_oxygen_high = {.kind = "oxygen-high",
                                                     .unit = "bar",
                                                     .meaning = "inspired oxygen above the limit",
                                                     .look = look,
                                                     .explanation = &explanation};
