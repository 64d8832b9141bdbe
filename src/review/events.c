/*
 * The table of kinds that are about one event, and how one of them is taken into the other.
 * SPDX-License-Identifier: MIT
 */
#include "review/events.h"

#include <math.h>

#include "review/cost.h"

/* ---- when two findings are one event: `stays` keeps its name, `goes` is taken into it */

typedef bool same_event(const struct plm_review_scene *scene, const struct plm_finding *stays,
                        const struct plm_finding *goes);

static bool overlap(const struct plm_review_scene *scene, const struct plm_finding *stays,
                    const struct plm_finding *goes)
{
    (void)scene;
    return stays->from_s <= goes->to_s && goes->from_s <= stays->to_s;
}

/* Off the loop the oxygen of the mix is what is breathed. */
static bool is_of_mix(const struct plm_review_scene *scene, const struct plm_finding *stays,
                      const struct plm_finding *goes)
{
    return plmi_review_setting(scene, goes->first_point)->mode != PLM_MODE_CLOSED && overlap(scene, stays, goes);
}

/* What goes on until the surface is the leaving of which stops are owed there. */
static bool is_leaving(const struct plm_review_scene *scene, const struct plm_finding *stays,
                       const struct plm_finding *goes)
{
    return stays->from_s <= goes->to_s + scene->rules->merge_s && goes->from_s <= stays->to_s;
}

/* A ceiling that the ascent ran into. One that was lowered to a note for its cost says that it did nothing. */
static bool is_met(const struct plm_review_scene *scene, const struct plm_finding *stays,
                   const struct plm_finding *goes)
{
    bool lowered = stays->severity == PLM_SEVERITY_NOTE &&
                   fmin(stays->from_depth_m, stays->to_depth_m) > scene->rules->ascent_deep_m;
    return !lowered && stays->from_s <= goes->from_s && goes->from_s <= stays->to_s + scene->rules->merge_s;
}

/* Stops that the ascent went past; who was at a stop and left it fast did two things. */
static bool is_passed(const struct plm_review_scene *scene, const struct plm_finding *stays,
                      const struct plm_finding *goes)
{
    return is_met(scene, stays, goes) && stays->from_depth_m - goes->from_depth_m > scene->rules->stop_step_m;
}

/* ---- what a finding adds to the one that it goes into; all take the sentence of that one first */

typedef const char *addition(const struct plm_review_scene *scene, struct plm_finding_list *list, const char *text,
                             const struct plm_finding *goes);

static const char *add_ceiling(const struct plm_review_scene *scene, struct plm_finding_list *list, const char *text,
                               const struct plm_finding *goes)
{
    (void)scene;
    return plm_finding_sentence(list, "{s} The ceiling was exceeded by at most {2} m, {d} in all.", text, goes->value,
                                goes->held_s);
}

static const char *add_m_value(const struct plm_review_scene *scene, struct plm_finding_list *list, const char *text,
                               const struct plm_finding *goes)
{
    (void)scene;
    return plm_finding_sentence(list, "{s} A compartment came to {0} % of the gradient of its bare M-value.", text,
                                goes->value);
}

static const char *add_stop(const struct plm_review_scene *scene, struct plm_finding_list *list, const char *text,
                            const struct plm_finding *goes)
{
    (void)scene;
    return plm_finding_sentence(list, "{s} The stops left behind had {d} to run.", text, goes->value * 60);
}

static const char *add_mix(const struct plm_review_scene *scene, struct plm_finding_list *list, const char *text,
                           const struct plm_finding *goes)
{
    char name[32];
    const struct plm_dive_mix *mix = plmi_review_mix(scene, goes->first_point);
    return plm_finding_sentence(list, "{s} The mix was {s}, whose limit is met at {m}.", text,
                                plm_mix_name(&mix->mix, name, sizeof name), goes->limit);
}

/* In the order in which they are taken together: each finding goes into one other at most. */
static const struct pair {
    enum plm_finding_kind stays, goes;
    same_event *same;
    addition *add;
} pairs[] = {
    {PLM_FINDING_OXYGEN_HIGH, PLM_FINDING_MIX_TOO_DEEP, is_of_mix, add_mix},
    {PLM_FINDING_SURFACED_OWING_STOPS, PLM_FINDING_STOP_CUT_SHORT, is_leaving, add_stop},
    {PLM_FINDING_SURFACED_OWING_STOPS, PLM_FINDING_CEILING_EXCEEDED, is_leaving, add_ceiling},
    {PLM_FINDING_SURFACED_OWING_STOPS, PLM_FINDING_M_VALUE_EXCEEDED, is_leaving, add_m_value},
    {PLM_FINDING_ASCENT_RATE, PLM_FINDING_STOP_CUT_SHORT, is_passed, add_stop},
    {PLM_FINDING_STOP_CUT_SHORT, PLM_FINDING_CEILING_EXCEEDED, overlap, add_ceiling},
    {PLM_FINDING_STOP_CUT_SHORT, PLM_FINDING_M_VALUE_EXCEEDED, overlap, add_m_value},
    {PLM_FINDING_ASCENT_RATE, PLM_FINDING_CEILING_EXCEEDED, is_met, add_ceiling},
    {PLM_FINDING_ASCENT_RATE, PLM_FINDING_M_VALUE_EXCEEDED, is_met, add_m_value},
    {PLM_FINDING_M_VALUE_EXCEEDED, PLM_FINDING_CEILING_EXCEEDED, overlap, add_ceiling},
};
#define PAIRS (sizeof pairs / sizeof pairs[0])

static bool is_pair(const struct pair *pair, const struct plm_review_scene *scene, const struct plm_finding *stays,
                    const struct plm_finding *goes)
{
    return stays->kind == pair->stays && goes->kind == pair->goes && pair->same(scene, stays, goes);
}

static struct plm_finding *find_stays(const struct pair *pair, const struct plm_review_scene *scene,
                                      struct plm_finding_list *list, const struct plm_finding *goes)
{
    for (size_t i = 0; i < list->count; i++) {
        if (is_pair(pair, scene, &list->items[i], goes)) {
            return &list->items[i];
        }
    }
    return NULL;
}

/* Who surfaces with stops owed has left a stop with hardly more of it to run, and is above the ceiling on the last
 * metres: of that the minutes owed are the measure. */
static bool is_implied(const struct plm_review_scene *scene, const struct plm_finding *stays,
                       const struct plm_finding *goes)
{
    if (stays->kind != PLM_FINDING_SURFACED_OWING_STOPS) {
        return false;
    }
    return goes->kind == PLM_FINDING_CEILING_EXCEEDED ? goes->held_s <= scene->rules->ceiling_serious_s
                                                      : goes->kind == PLM_FINDING_STOP_CUT_SHORT &&
                                                            goes->value - stays->value < scene->rules->owed_caution_min;
}

static void raise_severity(struct plm_finding *stays, const struct plm_finding *goes)
{
    if (goes->severity > stays->severity) {
        stays->severity = goes->severity;
        stays->serious_share = goes->serious_share;
    } else if (goes->severity == stays->severity) {
        stays->serious_share = fmax(stays->serious_share, goes->serious_share);
    }
}

static void take_in(struct plm_finding *stays, const struct plm_finding *goes)
{
    if (!stays->cost.known) {
        stays->cost = goes->cost;
    }
    if (goes->from_s < stays->from_s) {
        stays->from_s = goes->from_s;
        stays->from_depth_m = goes->from_depth_m;
        stays->first_point = goes->first_point;
        stays->first_line = goes->first_line;
    }
}

/* Whether a finding of this kind has been taken into it: the worst comes first, and is the one that is stated. */
static bool is_stated(const struct pair *pair, const struct plm_review_scene *scene,
                      const struct plm_finding_list *list, const struct plm_finding *stays)
{
    for (size_t i = 0; i < list->joined_count; i++) {
        if (is_pair(pair, scene, stays, &list->joined[i])) {
            return true;
        }
    }
    return false;
}

static void join_pair(const struct pair *pair, const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    for (size_t i = 0; i < list->count;) {
        struct plm_finding goes = list->items[i];
        struct plm_finding *stays = goes.kind == pair->goes ? find_stays(pair, scene, list, &goes) : NULL;
        if (stays == NULL) {
            i++;
            continue;
        }
        if (!is_implied(scene, stays, &goes)) {
            raise_severity(stays, &goes);
        }
        take_in(stays, &goes);
        if (!is_stated(pair, scene, list, stays)) {
            stays->text = pair->add(scene, list, stays->text, &goes);
        }
        plmi_finding_list_join(list, i);
    }
}

void plmi_review_events_join(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    for (size_t i = 0; i < PAIRS; i++) {
        join_pair(&pairs[i], scene, list);
    }
}

const struct plm_finding *plmi_review_events_put_right(const struct plm_review_scene *scene,
                                                       const struct plm_finding_list *list,
                                                       const struct plm_finding *finding)
{
    if (!finding->cost.known || plmi_review_editor_of(finding->kind) != NULL) {
        return finding->cost.known ? finding : NULL;
    }
    for (size_t i = 0; i < list->joined_count; i++) {
        const struct plm_finding *joined = &list->joined[i];
        if (plmi_review_costed(joined) && plmi_review_events_same(scene, finding, joined)) {
            return joined;
        }
    }
    return NULL;
}

bool plmi_review_events_same(const struct plm_review_scene *scene, const struct plm_finding *a,
                             const struct plm_finding *b)
{
    for (size_t i = 0; i < PAIRS; i++) {
        if (is_pair(&pairs[i], scene, a, b) || is_pair(&pairs[i], scene, b, a)) {
            return true;
        }
    }
    return false;
}
