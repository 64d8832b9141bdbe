/*
 * Reviewer: inspired oxygen above the limit at any time, or above the working limit before the final ascent.
 * Must not count doses; the cns and otu reviewers do.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/scene/parts.h"

#define SHOWN_BAR \
    0.005 /* [bar] half a step of the oxygen pressures of recorders and reports: what is less is not reported */
#define BEYOND_BAR 1e-6 /* [bar] a pressure just at a bound is not beyond it */

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
    bool shown = scene->points[point].po2_bar - limit_bar(scene, point) >= SHOWN_BAR;
    return shown && over_bar > BEYOND_BAR ? over_bar : 0;
}

/* [bar] the limit that is stated: the one at any time where that is passed. */
static double told_bar(const struct plm_review_scene *scene, size_t point)
{
    bool beyond = scene->points[point].po2_bar > held_bar(scene->rules);
    return beyond ? scene->rules->po2_max_bar : limit_bar(scene, point);
}

/* A drift at rest is another thing than the same pressure under way. */
static void grade(struct plm_finding *finding, const struct plm_review_scene *scene, size_t point)
{
    const struct plm_rules *rules = scene->rules;
    double limit = told_bar(scene, point);
    double note_bar = plmi_review_at_stop(scene, point) ? rules->po2_stop_note_bar : rules->po2_note_bar;
    plmi_finding_grade(finding, scene->points[point].po2_bar - limit - SHOWN_BAR, note_bar,
                       rules->po2_max_bar + rules->po2_serious_bar - limit);
    finding->value = scene->points[point].po2_bar;
    finding->limit = limit;
}

/* The point with the worst severity, and there with most oxygen. */
static size_t grade_worst(struct plm_finding *finding, const struct plm_review_scene *scene,
                          const struct plmi_review_stretch *stretch)
{
    size_t worst = stretch->worst;
    grade(finding, scene, worst);
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        struct plm_finding here = *finding;
        if (!(excess(scene, i) > 0)) {
            continue;
        }
        grade(&here, scene, i);
        if (here.severity > finding->severity || (here.severity == finding->severity && here.value > finding->value)) {
            *finding = here;
            worst = i;
        }
    }
    return worst;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                 const struct plmi_review_stretch *stretch, struct plm_finding *finding)
{
    size_t worst = grade_worst(finding, scene, stretch);
    const char *often = stretch->times > 1 ? plm_finding_sentence(list, "{i} times, ", stretch->times) : "";
    finding->text = plm_finding_sentence(
        list, "Oxygen above {2} bar {w}, {s}{d} in all: up to {2} bar at {t} and {m}{s}.", finding->limit,
        finding->from_s, finding->to_s, often, stretch->held_s, finding->value, plmi_review_time_s(scene, worst),
        scene->points[worst].depth_m, finding->limit < scene->rules->po2_max_bar ? ", before the final ascent" : "");
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    plmi_review_stretches_tell(scene, list, excess, PLMI_REVIEW_ANY_LENGTH, tell);
}

static const struct plm_explanation explanation = {
    .what = "The inspired oxygen pressure was above the highest allowed at any time, or above the working limit while "
            "the final "
            "ascent had not begun. High oxygen can end in a convulsion without warning.",
    .reached =
        "A note up to po2_note_bar (0.05 bar) above the limit, which half a metre of depth or a cell's step "
        "explains, and at rest on a "
        "stop up to po2_stop_note_bar (0.1 bar); a caution above that; serious more than po2_serious_bar (0.1 "
        "bar) above po2_max_bar (1.6 bar). "
        "po2_max_bar counts as held up to deco_po2_slack_bar (0.02 bar) more, so that oxygen at 6 m is none: "
        "1.613 bar at sea level, "
        "and the 1.6 atm of the table are 1.621 bar. A bound is passed by 0.005 bar or more, half a step of recorders.",
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
