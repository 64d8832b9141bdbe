/*
 * Rates of ascent against their limits.
 * Must not look for stretches: ascent_rate.c does.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/ascent_pace.h"

#include <math.h>

bool plmi_review_pace_coarse(const struct plm_review_scene *scene, size_t point)
{
    return point > 0 &&
           plmi_review_time_s(scene, point) - plmi_review_time_s(scene, point - 1) >= scene->rules->ascent_window_s / 2;
}

double plmi_review_pace_depth_m(const struct plm_review_scene *scene, size_t point)
{
    double here_m = scene->points[point].depth_m;
    return plmi_review_pace_coarse(scene, point) ? (here_m + scene->points[point - 1].depth_m) / 2 : here_m;
}

double plmi_review_pace_least_m_min(const struct plm_rules *rules, double depth_m)
{
    return plmi_review_ascent_limit_m_min(rules, depth_m) * rules->ascent_finding_pct / 100;
}

/* [m/min] serious from this rate on: in the shallow band, to the surface, even the limit of the deeper one. */
static double serious_m_min(const struct plm_rules *rules, bool shallow, bool to_surface)
{
    double limit_m_min = shallow ? rules->ascent_shallow_limit_m_min : rules->ascent_limit_m_min;
    double share_m_min = limit_m_min * rules->ascent_serious_pct / 100;
    return shallow && to_surface ? fmin(fmax(rules->ascent_limit_m_min, limit_m_min), share_m_min) : share_m_min;
}

/* Between stops, what the deeper band allows is a note in the shallow one. */
static bool is_allowed(const struct plm_rules *rules, bool shallow, bool to_surface, double rate_m_min)
{
    return shallow && !to_surface && rate_m_min <= rules->ascent_limit_m_min;
}

static enum plm_severity severity(double rate_m_min, double serious_from_m_min, bool allowed)
{
    if (rate_m_min >= serious_from_m_min - 1e-6) {
        return PLM_SEVERITY_SERIOUS;
    }
    return allowed ? PLM_SEVERITY_NOTE : PLM_SEVERITY_CAUTION;
}

struct plmi_review_pace plmi_review_pace_fitted(const struct plm_review_scene *scene, size_t point, bool to_surface)
{
    const struct plm_point *at = &scene->points[point];
    double depth_m = plmi_review_pace_depth_m(scene, point);
    bool shallow = depth_m < scene->rules->ascent_shallow_band_m;
    double most_m_min = serious_m_min(scene->rules, shallow, to_surface);
    return (struct plmi_review_pace){
        .value_m_min = at->rate_m_min,
        .limit_m_min = plmi_review_ascent_limit_m_min(scene->rules, depth_m),
        .error_m_min = at->rate_error_m_min,
        .serious_m_min = most_m_min,
        .share = at->rate_m_min / plmi_review_pace_least_m_min(scene->rules, depth_m) - 1,
        .severity = severity(at->rate_m_min, most_m_min, is_allowed(scene->rules, shallow, to_surface, at->rate_m_min)),
    };
}

struct plmi_review_pace plmi_review_pace_swum(const struct plm_review_scene *scene, const struct plmi_passage *passage)
{
    const struct plm_rules *rules = scene->rules;
    double from_m = passage->from_m, to_m = passage->to_m, rate_m_min = plmi_passage_rate_m_min(passage);
    double limit_m_min = plmi_review_ascent_mean_m_min(rules, from_m, to_m, rules->ascent_limit_m_min,
                                                       rules->ascent_shallow_limit_m_min);
    double most_m_min = plmi_review_ascent_mean_m_min(rules, from_m, to_m, serious_m_min(rules, false, true),
                                                      serious_m_min(rules, true, true));
    /* Both ends are off by the noise. */
    double error_m = sqrt(2.0) * scene->assumed->depth_noise_m;
    return (struct plmi_review_pace){
        .value_m_min = rate_m_min,
        .limit_m_min = limit_m_min,
        .error_m_min = 60 * error_m / (passage->to_s - passage->from_s),
        .serious_m_min = most_m_min,
        .share = 100 * rate_m_min / (limit_m_min * rules->ascent_finding_pct) - 1,
        .severity = severity(rate_m_min, most_m_min, false),
    };
}

bool plmi_review_pace_worse(const struct plmi_review_pace *pace, const struct plmi_review_pace *than)
{
    return pace->severity != than->severity ? pace->severity > than->severity : pace->share > than->share;
}
