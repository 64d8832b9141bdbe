/*
 * When a dose that only grows came to its limit.
 * Must not know which dose it is.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/dose.h"

#include "review/scene/stretch.h"
#include "tissue/oxygen_limits.h"

/* Into the interval before a point by the share of it at which the limit was met. */
static void reach(struct plm_finding *finding, const struct plm_review_scene *scene, size_t first, double before,
                  double at, double limit)
{
    double share = at > before ? (limit - before) / (at - before) : 1;
    double start_s = plmi_review_time_s(scene, first - 1), start_m = scene->points[first - 1].depth_m;
    finding->from_s = start_s + share * (plmi_review_time_s(scene, first) - start_s);
    finding->from_depth_m = start_m + share * (scene->points[first].depth_m - start_m);
}

struct plm_finding *plmi_review_dose_found(struct plm_finding_list *list, const struct plm_review_scene *scene,
                                           plmi_review_dose *dose, double carried, double limit)
{
    size_t last = scene->count - 1;
    double total = carried + dose(&scene->points[last]);
    if (!(total >= limit)) {
        return NULL;
    }
    size_t first = 0;
    while (first < last && carried + dose(&scene->points[first]) < limit) {
        first++;
    }
    struct plm_finding *finding = plm_finding_add(list, scene, first, last);
    if (finding != NULL) {
        if (first > 0) {
            reach(finding, scene, first, carried + dose(&scene->points[first - 1]),
                  carried + dose(&scene->points[first]), limit);
        }
        finding->value = total;
        finding->limit = limit;
    }
    return finding;
}

struct plm_finding *plmi_review_cns_found(struct plm_finding_list *list, const struct plm_review_scene *scene,
                                          plmi_review_dose *dose, double carried_pct)
{
    struct plm_finding *finding = plmi_review_dose_found(list, scene, dose, carried_pct, scene->rules->cns_caution_pct);
    if (finding == NULL) {
        finding = plmi_review_dose_found(list, scene, dose, carried_pct, scene->rules->cns_note_pct);
    }
    if (finding != NULL) {
        finding->at_least = plmi_review_clock_least(scene);
        plmi_finding_grade(finding, finding->value, scene->rules->cns_caution_pct, scene->rules->cns_serious_pct);
    }
    return finding;
}

bool plmi_review_clock_least(const struct plm_review_scene *scene)
{
    return scene->summary->cns_beyond_min + plmi_review_carried(scene).cns_beyond_min > 0;
}

const char *plmi_review_beyond_words(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    if (!(scene->summary->cns_beyond_min > 0)) {
        return "";
    }
    return plm_finding_sentence(
        list, ", with {1} min above {2} bar of oxygen, {2} bar at the most, where no limit is published",
        scene->summary->cns_beyond_min, plmi_oxygen_row_bar[PLMI_OXYGEN_ROWS - 1] + scene->rules->cns_beyond_bar,
        scene->summary->max_po2_bar);
}

struct plm_start plmi_review_carried(const struct plm_review_scene *scene)
{
    const struct plm_start *start = scene->input->replay->start;
    if (start == NULL || !start->residual) {
        return (struct plm_start){.residual = false};
    }
    return *start;
}
