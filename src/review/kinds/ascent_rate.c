/*
 * Reviewer: an ascent faster than the limit of its depth band.
 * Must not know the cost; cost.c lowers the severity of deep stretches by it.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include <math.h>

#define ROUNDING_SHARE 0.01 /* of the limit: no more than this above it is rounding of depth and time; convention */

/* Whether the rate at a point is that of the one interval before it, as samples are that far apart. */
static bool is_coarse(const struct plm_review_scene *scene, size_t point)
{
    return point > 0 &&
           plmi_review_time_s(scene, point) - plmi_review_time_s(scene, point - 1) >= scene->rules->ascent_window_s / 2;
}

/* [m] the depth that a rate is judged by: where the diver was, or half-way of a long interval. */
static double judged_m(const struct plm_review_scene *scene, size_t point)
{
    double here_m = scene->points[point].depth_m;
    return is_coarse(scene, point) ? (here_m + scene->points[point - 1].depth_m) / 2 : here_m;
}

/* Share of the limit beyond it, so that the worst is so in proportion. */
static double excess(const struct plm_review_scene *scene, size_t point)
{
    double limit_m_min = plmi_review_ascent_limit_m_min(scene->rules, judged_m(scene, point));
    double share = scene->points[point].rate_m_min / limit_m_min - 1;
    return share > ROUNDING_SHARE ? share : 0;
}

/* In the shallow band even the limit of the deeper one is serious. */
static enum plm_severity severity(const struct plm_rules *rules, double depth_m, double rate_m_min)
{
    double serious_m_min = rules->ascent_limit_m_min * rules->ascent_serious_pct / 100;
    if (depth_m < rules->ascent_shallow_band_m) {
        serious_m_min = fmin(fmax(rules->ascent_limit_m_min, rules->ascent_shallow_limit_m_min),
                             rules->ascent_shallow_limit_m_min * rules->ascent_serious_pct / 100);
    }
    return rate_m_min >= serious_m_min - 1e-6 ? PLM_SEVERITY_SERIOUS : PLM_SEVERITY_CAUTION;
}

/* The worst severity over the stretch; its point is the one that is shown. */
static enum plm_severity worst_severity(const struct plm_review_scene *scene, struct plmi_review_stretch *stretch)
{
    enum plm_severity worst = PLM_SEVERITY_NOTE;
    double most = 0;
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        double share = excess(scene, i);
        if (share <= 0) {
            continue;
        }
        enum plm_severity here = severity(scene->rules, judged_m(scene, i), scene->points[i].rate_m_min);
        if (here > worst || (here == worst && share > most)) {
            worst = here;
            most = share;
            stretch->worst = i;
        }
    }
    return worst;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plmi_review_stretch stretch;
    for (size_t at = 0; plmi_review_stretch_next(scene, excess, &at, &stretch);) {
        if (stretch.held_s < scene->rules->ascent_window_s / 2) {
            continue;
        }
        size_t first = is_coarse(scene, stretch.first) ? stretch.first - 1 : stretch.first;
        struct plm_finding *finding = plm_finding_add(list, scene, first, stretch.last);
        if (finding == NULL) {
            return;
        }
        finding->severity = worst_severity(scene, &stretch);
        const struct plm_point *worst = &scene->points[stretch.worst];
        finding->value = worst->rate_m_min;
        finding->limit = plmi_review_ascent_limit_m_min(scene->rules, judged_m(scene, stretch.worst));
        finding->serious_share = finding->value / (finding->limit * scene->rules->ascent_serious_pct / 100);
        finding->times = stretch.times;
        finding->held_s = stretch.held_s;
        finding->text = plm_finding_sentence(list,
                                             "Ascended faster than {0} m/min from {m} to {m}, {w}: up to {1} m/min, "
                                             "{0} % of ambient pressure a minute, at {m}.",
                                             finding->limit, finding->from_depth_m, finding->to_depth_m,
                                             finding->from_s, finding->to_s, worst->rate_m_min,
                                             worst->relative_rate_pct_min, judged_m(scene, stretch.worst));
    }
}

static const struct plm_explanation explanation = {
    .what = "The diver came up faster than the limit. The same speed matters more near the surface, where the pressure "
            "falls by a "
            "larger share each minute; deep down its cost is often nothing.",
    .reached = "A caution above the limit; serious from ascent_serious_pct (200 %) of it on, and in the shallow band "
               "(above 6 m) already from "
               "the limit of the deeper one on (10 m/min). Where the whole stretch lies deeper than ascent_deep_m (20 "
               "m) and its cost is below "
               "cost_small_min (1 min of decompression) and cost_small_points (1 point of surfacing gradient), it is "
               "lowered to a note and says "
               "so; shallower it never is.",
    .formula = "Rate: slope of a least-squares line through the depths within ascent_window_s (20 s), or over one "
               "interval where samples are "
               "further apart. Limit: ascent_limit_m_min (10), above ascent_shallow_band_m (6 m) "
               "ascent_shallow_limit_m_min (6). Told "
               "when above it by more than a hundredth for half the window or more in all; over a long interval its "
               "half-way depth tells the band. Relative rate: rate in bar/min by ambient pressure.",
    .source = "Common practice; Cialoni et al. 2017 (Front Psychol 8:1587) names 9 to 10 m/min; US Navy Diving Manual "
              "30 fsw/min. No published limit by "
              "depth band was found.",
    .ask = "Buoyancy, drysuit, a lift bag, a current, or haste? Did the team come up together?"};

const struct plm_reviewer plmi_review_ascent_rate = {.kind = "ascent-rate",
                                                     .unit = "m/min",
                                                     .meaning = "an ascent faster than the limit",
                                                     .look = look,
                                                     .explanation = &explanation};
