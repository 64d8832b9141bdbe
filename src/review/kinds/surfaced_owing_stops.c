/*
 * Reviewer: the diver came to the surface while the model still asked for stops.
 * Must not count stops left early and made up for before the surface.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"

#include <math.h>

#include "dive/surface.h"
#include "review/scene/owed.h"

#define LEAST_MIN (1.0 / 60.0)

/* How long the ceiling stays under the surface, as far as the diver does not go down again. */
static size_t last_under_ceiling(const struct plm_review_scene *scene, size_t surfaced, size_t end)
{
    size_t last = surfaced;
    while (last + 1 < end && scene->points[last + 1].ceiling_m > 0) {
        last++;
    }
    return last;
}

/* What is owed at one surfacing, told from there to end. */
static void look_at(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t surfaced, size_t end)
{
    const struct plm_point *point = &scene->points[surfaced];
    double owed_min = point->ceiling_m > 0 ? plmi_review_owed_min(scene, surfaced) : 0;
    if (!(owed_min >= LEAST_MIN)) {
        return;
    }
    size_t last = last_under_ceiling(scene, surfaced, end);
    struct plm_finding *finding = plm_finding_add(list, scene, surfaced, last);
    if (finding == NULL) {
        return;
    }
    plmi_finding_grade(finding, owed_min, scene->rules->owed_caution_min, scene->rules->owed_serious_min);
    finding->value = owed_min;
    finding->limit = 0;
    if (isinf(owed_min)) {
        finding->text =
            plm_finding_sentence(list,
                                 "Surfaced at {t} under a ceiling of {m}, with stops owed that never clear on "
                                 "the gas breathed last.",
                                 finding->from_s, point->ceiling_m);
    } else {
        finding->text =
            plm_finding_sentence(list, "Surfaced at {t} under a ceiling of {m}: {d} of stops were still owed.",
                                 finding->from_s, point->ceiling_m, owed_min * 60);
    }
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plmi_surfacings walk = plmi_surfacings_of(scene->samples, scene->count, scene->rules);
    size_t surfaced;
    while (plmi_surfacing_next(&walk, &surfaced)) {
        look_at(scene, list, surfaced, surfaced == scene->summary->surfaced ? scene->count : walk.at);
    }
}

static const struct plm_explanation explanation = {
    .what =
        "The diver reached the surface and stayed there for surface_hold_s (60 s), or until the record ends, while "
        "the model still wanted stops. The head is at the surface while the depth is surface_depth_m (1 m) or less. "
        "What was owed is the "
        "waiting that "
        "the state at the surface asks for, counted as if the diver were back at the first stop below the ceiling.",
    .reached =
        "A note below owed_caution_min (1 min), a caution from there on, serious from owed_serious_min (5 min) on.",
    .formula = "The sum of the waits of the schedule (plimsoll-model(7)) from the tissues at surfacing, on the gas "
               "breathed last, "
               "carried mixes included.",
    .source = "Convention of this program; the schedule by Buehlmann 1995 with gradient factors.",
    .ask = "Why was the ascent not halted: gas, cold, sea, a signal, another diver? Was there any symptom? Did the "
           "diver breathe oxygen "
           "at the surface?"};

const struct plm_reviewer plmi_review_surfaced_owing_stops = {.kind = "surfaced-owing-stops",
                                                              .unit = "min",
                                                              .meaning = "at the surface with decompression owed",
                                                              .look = look,
                                                              .explanation = &explanation};
