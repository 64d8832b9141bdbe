/*
 * Finds the stretches of points over which an excess holds.
 * Must not know what the excess is of.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/stretch.h"

#include <math.h>

#include "review/scene/parts.h"

static double interval_s(const struct plm_review_scene *scene, size_t after)
{
    return after > 0 && after < scene->count ? plmi_review_time_s(scene, after) - plmi_review_time_s(scene, after - 1)
                                             : 0;
}

/* What a point at the edge takes of the interval before `after`: half of it, and no more than half of the longest that
 * is no gap. */
static double edge_s(const struct plm_review_scene *scene, size_t after)
{
    return fmin(interval_s(scene, after), scene->rules->gap_s) / 2;
}

static void extend(const struct plm_review_scene *scene, struct plmi_review_stretch *stretch, size_t point,
                   double excess)
{
    bool goes_on = point > stretch->first && stretch->last + 1 == point;
    double before_s = interval_s(scene, point), edge_before_s = edge_s(scene, point);
    stretch->held_s += (goes_on ? before_s - edge_before_s : edge_before_s) + edge_s(scene, point + 1);
    stretch->last = point;
    if (excess > stretch->excess) {
        stretch->excess = excess;
        stretch->worst = point;
    }
}

/* Whether a point is far enough behind the stretch to be another time. */
static bool is_apart(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch, size_t point)
{
    return point > stretch->last + 1 &&
           plmi_review_time_s(scene, point) - plmi_review_time_s(scene, stretch->last) >= scene->rules->merge_s;
}

/* Whether a part of the dive ends between the stretch and a point behind it. */
static bool is_parted(const struct plm_review_scene *scene, const struct plmi_review_stretch *stretch, size_t point)
{
    return scene->parts == NULL || plmi_review_part_of(scene, stretch->last).end <= point;
}

bool plmi_review_stretch_next(const struct plm_review_scene *scene, plmi_review_excess *excess, size_t *at,
                              struct plmi_review_stretch *out)
{
    *out = (struct plmi_review_stretch){.times = 0};
    for (size_t i = *at; i < scene->count; i++) {
        double here = excess(scene, i);
        if (!(here > 0)) {
            continue;
        }
        bool apart = out->times > 0 && is_apart(scene, out, i);
        if (apart && is_parted(scene, out, i)) {
            *at = i;
            return true;
        }
        if (out->times == 0) {
            *out = (struct plmi_review_stretch){.first = i, .last = i, .worst = i, .excess = here};
        }
        out->times += apart || out->times == 0;
        extend(scene, out, i, here);
    }
    *at = scene->count;
    return out->times > 0;
}

const char *plmi_review_often(struct plm_finding_list *list, const struct plmi_review_stretch *stretch)
{
    return stretch->times > 1 ? plm_finding_sentence(list, ", {i} times, {d} in all", stretch->times, stretch->held_s)
                              : "";
}

void plmi_review_stretches_tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                                plmi_review_excess *excess, double over_s, plmi_review_tell *tell)
{
    struct plmi_review_stretch stretch;
    for (size_t at = 0; plmi_review_stretch_next(scene, excess, &at, &stretch);) {
        if (stretch.held_s <= over_s) {
            continue;
        }
        struct plm_finding *finding = plm_finding_add(list, scene, stretch.first, stretch.last);
        if (finding == NULL) {
            return;
        }
        finding->times = stretch.times;
        finding->held_s = stretch.held_s;
        tell(scene, list, &stretch, finding);
    }
}
