/*
 * Reviewer: the diver left the loop for open circuit under water. One finding for each time, whatever a plan says.
 * Must not judge the mix that was taken; mix-too-deep, oxygen-low and plan-mix do.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/scene/owed.h"

#include <math.h>

static bool on_loop(const struct plm_review_scene *scene, size_t point)
{
    return plmi_review_setting(scene, point)->mode != PLM_MODE_OPEN;
}

static bool is_left(const struct plm_review_scene *scene, size_t point)
{
    return on_loop(scene, point - 1) && !on_loop(scene, point) && plmi_review_submerged(scene, point - 1) &&
           plmi_review_submerged(scene, point);
}

/* The first point from `point` on that is on the loop or the last of the dive. */
static size_t off_until(const struct plm_review_scene *scene, size_t point)
{
    size_t end = point;
    while (end + 1 < scene->count && end != scene->summary->surfaced && !on_loop(scene, end)) {
        end++;
    }
    return end;
}

/* The same, where a stay on the loop of less than merge_s does not count. */
static size_t left_until(const struct plm_review_scene *scene, size_t point)
{
    size_t end = off_until(scene, point);
    for (size_t i = end + 1; i < scene->count && end < scene->summary->surfaced; i++) {
        if (plmi_review_time_s(scene, i) - plmi_review_time_s(scene, end) >= scene->rules->merge_s) {
            break;
        }
        if (is_left(scene, i)) {
            end = i = off_until(scene, i);
        }
    }
    return end;
}

/* "38.2 min of stops required then". */
static const char *required(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t point)
{
    double owed_min = plmi_review_owed_min(scene, point);
    if (isinf(owed_min)) {
        return "stops required then that never clear on the mixes known";
    }
    return owed_min < 0.05 ? "no stops required then"
                           : plm_finding_sentence(list, "{1} min of stops required then", owed_min);
}

/* What became of it: "back on the loop at 27:20 and 60.1 m, after 2:10 min". */
static const char *followed(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t first,
                            size_t end)
{
    double end_s = plmi_review_time_s(scene, end), off_s = end_s - plmi_review_time_s(scene, first);
    if (on_loop(scene, end)) {
        return plm_finding_sentence(list, "back on the loop at {t} and {m}, after {d}", end_s,
                                    scene->points[end].depth_m, off_s);
    }
    return plm_finding_sentence(list, "not back on the loop: open circuit {s}, {d} later",
                                scene->summary->ends_in_water ? "to the end of the record" : "to the surface", off_s);
}

static void add(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t first, size_t end)
{
    struct plm_finding *finding = plm_finding_add(list, scene, first, end);
    if (finding == NULL) {
        return;
    }
    char mix[32];
    finding->value = finding->from_depth_m;
    finding->text =
        plm_finding_sentence(list, "Left the loop for open circuit on {s} at {t} and {m}, with {s}; {s}.",
                             plm_mix_name(&plmi_review_mix(scene, first)->mix, mix, sizeof mix), finding->from_s,
                             finding->from_depth_m, required(scene, list, first), followed(scene, list, first, end));
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    for (size_t i = 1; i < scene->count && !list->failed; i++) {
        if (is_left(scene, i)) {
            size_t end = left_until(scene, i);
            add(scene, list, i, end);
            i = end > i ? end - 1 : i;
        }
    }
}

static const struct plm_explanation explanation = {
    .what = "The diver went from the loop to open circuit under water. Oxygen, inert gas and the gas that is used up "
            "follow another course from then on. It is reported with or without a plan, for a planned change as well.",
    .reached = "Always a note, one for each time. A stay on the loop of less than merge_s (30 s) in between does not "
               "make two of it.",
    .formula = "The mode in the log: closed or semi-closed at one sample, open circuit at the next, both deeper than "
               "surface_depth_m. Stops required are those of the schedule from there on the open-circuit mixes "
               "carried. The value is the depth.",
    .source = "Convention of this program.",
    .ask = "What made the diver leave the loop, and who knew of it? Was the mix the one meant for that depth? How much "
           "open-circuit gas was left at the surface? If the diver went back: was the cause found?"};

const struct plm_reviewer plmi_review_left_loop = {.kind = "left-loop",
                                                   .unit = "m",
                                                   .meaning = "loop left for open circuit",
                                                   .look = look,
                                                   .explanation = &explanation};
