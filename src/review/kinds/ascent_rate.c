/*
 * Reviewer: an ascent faster than the limit of its depth band, by the fitted rate and, to the surface, as it was swum.
 * Must not know the effect; cost.c lowers the severity of deep stretches by it.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include <math.h>

#include "review/kinds/ascent_pace.h"
#include "review/scene/phases.h"

#define STARTS_S 0.5 /* [s] a rise is looked for from points that far apart: samples may be a millisecond apart */

static double excess(const struct plm_review_scene *scene, size_t point)
{
    return plmi_review_pace_fitted(scene, point, false).share;
}

/* Does the stretch lead to the surface? What comes later than merge_s after it is another way, from a stop. */
static bool reaches_surface(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch)
{
    double until_s = plmi_review_time_s(scene, stretch->last) + scene->rules->merge_s;
    size_t i = stretch->first;
    while (i + 1 < scene->count && plmi_review_time_s(scene, i + 1) <= until_s && plmi_review_submerged(scene, i)) {
        i++;
    }
    return !plmi_review_submerged(scene, i) || (i >= scene->summary->surfaced && !scene->summary->ends_in_water);
}

/* Points between which the diver rose by ascent_rise_m. */
struct rise {
    size_t first, last;
};

/* [s] when a depth is passed on the way to a point from the one before. */
static double passed_s(const struct plm_review_scene *scene, size_t to, double depth_m)
{
    double before_m = scene->points[to - 1].depth_m, here_m = scene->points[to].depth_m;
    double before_s = plmi_review_time_s(scene, to - 1), here_s = plmi_review_time_s(scene, to);
    return before_s + (here_s - before_s) * (before_m - depth_m) / (before_m - here_m);
}

/* The rise from a point on that ends no later than at another, at a rate that is a finding. */
static bool rise_from(const struct plm_review_scene *scene, size_t from, size_t last, struct rise *rise)
{
    const struct plm_rules *rules = scene->rules;
    double top_m = scene->points[from].depth_m - rules->ascent_rise_m, from_s = plmi_review_time_s(scene, from);
    size_t to = from + 1;
    while (to < last && scene->points[to].depth_m > top_m &&
           plmi_review_time_s(scene, to) - from_s <= 2 * rules->ascent_window_s) {
        to++;
    }
    if (to > last || !(scene->points[to].depth_m <= top_m && scene->points[to - 1].depth_m > top_m)) {
        return false;
    }
    double least_m_min = plmi_review_pace_least_m_min(rules, top_m + rules->ascent_rise_m / 2);
    *rise = (struct rise){from, to};
    return 60 * rules->ascent_rise_m > (passed_s(scene, to, top_m) - from_s) * least_m_min;
}

/* The first such rise from any point that the fitted rates of the stretch look at; the stretch is widened by it. */
static bool rises(const struct plm_review_scene *scene, struct plmi_review_stretch *stretch)
{
    double reach_s = scene->rules->ascent_window_s / 2;
    double from_s = plmi_review_time_s(scene, stretch->first) - reach_s,
           to_s = plmi_review_time_s(scene, stretch->last) + reach_s;
    size_t from = stretch->first, last = stretch->last;
    while (from > 0 && plmi_review_time_s(scene, from) > from_s) {
        from--;
    }
    while (last + 1 < scene->count && plmi_review_time_s(scene, last) < to_s) {
        last++;
    }
    struct rise rise;
    while (from < last && !rise_from(scene, from, last, &rise)) {
        double tried_s = plmi_review_time_s(scene, from);
        while (from < last && plmi_review_time_s(scene, from) < tried_s + STARTS_S) {
            from++;
        }
    }
    if (from >= last) {
        return false;
    }
    stretch->first = rise.first < stretch->first ? rise.first : stretch->first;
    stretch->last = rise.last > stretch->last ? rise.last : stretch->last;
    return true;
}

static void put(struct plm_finding *finding, const struct plmi_review_pace *pace)
{
    finding->severity = pace->severity;
    finding->value = pace->value_m_min;
    finding->limit = pace->limit_m_min;
    finding->value_error = pace->error_m_min;
    finding->serious_share = pace->value_m_min / pace->serious_m_min;
}

/* The point of a stretch whose rate is worst. */
static size_t worst_point(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch,
                          struct plmi_review_pace *worst)
{
    bool to_surface = reaches_surface(scene, stretch);
    size_t point = stretch->worst;
    *worst = plmi_review_pace_fitted(scene, point, to_surface);
    for (size_t i = stretch->first; i <= stretch->last; i++) {
        struct plmi_review_pace here = plmi_review_pace_fitted(scene, i, to_surface);
        if (here.share > 0 && plmi_review_pace_worse(&here, worst)) {
            *worst = here;
            point = i;
        }
    }
    return point;
}

static void add_fitted(const struct plm_review_scene *scene, struct plm_finding_list *list,
                       const struct plmi_review_stretch *stretch)
{
    struct plmi_review_pace pace;
    size_t worst = worst_point(scene, stretch, &pace);
    struct plm_finding *finding = plm_finding_add(list, scene, stretch->first, stretch->last);
    if (finding == NULL) {
        return;
    }
    put(finding, &pace);
    finding->times = stretch->times;
    finding->held_s = stretch->held_s;
    finding->text = plm_finding_sentence(
        list,
        "Ascended faster than {0} m/min from {m} to {m}, {w}: up to {1} m/min, {0} % of ambient pressure a minute, at "
        "{m}.",
        finding->limit, finding->from_depth_m, finding->to_depth_m, finding->from_s, finding->to_s, finding->value,
        scene->points[worst].relative_rate_pct_min, plmi_review_pace_depth_m(scene, worst));
}

/* A way to the surface from a depth, of ascent_last_rise_m or more. Returns: false where the dive has none. */
static bool passage_find(const struct plm_review_scene *scene, double from_m, struct plmi_passage *out)
{
    const struct plm_point *points = scene->points;
    double surface_m = scene->rules->surface_depth_m, least_m = scene->rules->ascent_last_rise_m;
    size_t surfaced = scene->summary->surfaced;
    if (plmi_passage_find(out, points, surfaced, from_m, surface_m) && out->from_m - out->to_m >= least_m) {
        return true;
    }
    return plmi_passage_find(out, points, surfaced, fmax(points[surfaced].depth_m, surface_m) + least_m, surface_m);
}

/* The last ascent as it was swum, from the depth that makes it worst; the longest of those that differ by less than a
 * hundredth. Returns: whether it is a finding. */
static bool last_find(const struct plm_review_scene *scene, struct plmi_passage *out, struct plmi_review_pace *worst)
{
    const struct plm_trace_summary *summary = scene->summary;
    bool found = false;
    for (int i = 0; i < PLM_LAST_ASCENTS && !summary->ends_in_water; i++) {
        struct plmi_passage passage;
        if (!passage_find(scene, summary->last_ascent_from_m[i], &passage)) {
            continue;
        }
        struct plmi_review_pace pace = plmi_review_pace_swum(scene, &passage), least = *worst;
        least.share += 0.01;
        if (pace.share > 0 && (!found || plmi_review_pace_worse(&pace, &least))) {
            *out = passage;
            *worst = pace;
            found = true;
        }
    }
    return found;
}

/* The finding of the fitted rate that the last ascent is a part of; NULL none. */
static struct plm_finding *finding_of_last(struct plm_finding_list *list, size_t before,
                                           const struct plmi_passage *passage)
{
    struct plm_finding *last = list->count > before ? &list->items[list->count - 1] : NULL;
    return last != NULL && last->to_s >= passage->from_s ? last : NULL;
}

/* [m/min] the largest fitted rate over the points of a finding. */
static double fitted_m_min(const struct plm_review_scene *scene, const struct plm_finding *finding)
{
    double most_m_min = 0;
    for (size_t i = finding->first_point; i <= finding->last_point; i++) {
        most_m_min = fmax(most_m_min, scene->points[i].rate_m_min);
    }
    return most_m_min;
}

static void add_swum(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t before)
{
    struct plmi_passage passage;
    struct plmi_review_pace pace = {.share = 0};
    if (!last_find(scene, &passage, &pace)) {
        return;
    }
    struct plm_finding *finding = finding_of_last(list, before, &passage);
    size_t first = plmi_review_point_at(scene, passage.from_s), last = plmi_review_point_at(scene, passage.to_s) + 1;
    last = last < scene->summary->surfaced ? last : scene->summary->surfaced;
    if (finding != NULL) {
        struct plmi_review_pace fitted = {
            .share = 100 * finding->value / (finding->limit * scene->rules->ascent_finding_pct) - 1,
            .severity = finding->severity};
        if (!plmi_review_pace_worse(&pace, &fitted)) {
            return;
        }
        first = first < finding->first_point ? first : finding->first_point;
        list->count--; /* one finding: as it was swum */
    }
    finding = plm_finding_add(list, scene, first, last);
    if (finding == NULL) {
        return;
    }
    put(finding, &pace);
    finding->held_s = passage.to_s - passage.from_s;
    finding->text = plm_finding_sentence(list,
                                         "Came up from {m} to the surface in {d}, {w}: {1} m/min, where the limits "
                                         "there come to {1} m/min. The rate fitted over {0} s was up to {1} m/min.",
                                         passage.from_m, passage.to_s - passage.from_s, passage.from_s, passage.to_s,
                                         finding->value, finding->limit, scene->rules->ascent_window_s,
                                         fitted_m_min(scene, finding));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    size_t before = list->count;
    struct plmi_review_stretch stretch;
    for (size_t at = 0; plmi_review_stretch_next(scene, excess, &at, &stretch);) {
        if (rises(scene, &stretch)) {
            add_fitted(scene, list, &stretch);
        }
    }
    add_swum(scene, list, before);
}

static const struct plm_explanation explanation = {
    .what = "The diver came up faster than the limit. The same speed matters more near the surface, where the pressure "
            "falls by a larger share each minute; deep down its effect is often nothing.",
    .reached =
        "A finding beyond ascent_finding_pct (125 %) of the limit, over a rise of ascent_rise_m (2 m) or more. A "
        "caution; "
        "serious from ascent_serious_pct (200 %) of the limit on, and on the way to the surface in the shallow band "
        "(above 6 m) already from the limit of the deeper one on (10 m/min). Between stops in the shallow band a rate "
        "up to the limit of the deeper one is a note. Where the whole stretch lies deeper than ascent_deep_m (20 m) "
        "and its effect is below cost_small_min (1 min of decompression) and cost_small_points (1 point of surfacing "
        "gradient), it is lowered to a note and says so; never shallower, never where it was faster than "
        "ascent_relative_pct (50 % of ambient pressure a minute), and never where a ceiling was exceeded in it.",
    .formula =
        "Rate: slope of a least-squares line through the depths within ascent_window_s (20 s), or over one interval "
        "where samples are further apart; over a long interval its half-way depth tells the band. Limit: "
        "ascent_limit_m_min (10), above ascent_shallow_band_m (6 m) ascent_shallow_limit_m_min (6). The last ascent is "
        "also judged as it was swum, with no window to round it off: from 10 m, from 6 m and over the last "
        "ascent_last_rise_m (3 m) to the surface, against the time that the limits ask for there; the worst of these "
        "and the fitted rate is given. Standard error: the depth noise of the log, by the root of the sum of squared "
        "times about their mean; a finding holds firm where it is beyond the limit by two of them. Relative rate: rate "
        "in bar/min by ambient pressure.",
    .source = "Common practice; Cialoni et al. 2017 (Front Psychol 8:1587) names 9 to 10 m/min; US Navy Diving Manual "
              "30 fsw/min. No published limit by depth band or pressure ratio was found.",
    .ask = "Buoyancy, drysuit, a lift bag, a current, or haste? Did the team come up together?"};

const struct plm_reviewer plmi_review_ascent_rate = {.kind = "ascent-rate",
                                                     .unit = "m/min",
                                                     .meaning = "an ascent faster than the limit",
                                                     .look = look,
                                                     .explanation = &explanation};
