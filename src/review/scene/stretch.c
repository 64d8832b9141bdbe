/*
 * Finds the stretches of points over which an excess holds.
 * Must not know what the excess is of.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/stretch.h"

#include <math.h>

/* Half of the interval on either side of a point. */
static double share_s(const struct plm_review_scene *scene, size_t point)
{
    size_t before = point > 0 ? point - 1 : point;
    size_t after = point + 1 < scene->count ? point + 1 : point;
    return (plmi_review_time_s(scene, after) - plmi_review_time_s(scene, before)) / 2.0;
}

static void extend(const struct plm_review_scene *scene, struct plmi_review_stretch *stretch, size_t point,
                   double excess)
{
    stretch->last = point;
    stretch->held_s += share_s(scene, point);
    if (excess > stretch->excess) {
        stretch->excess = excess;
        stretch->worst = point;
    }
}

bool plmi_review_stretch_next(const struct plm_review_scene *scene, plmi_review_excess *excess, size_t *at,
                              struct plmi_review_stretch *out)
{
    bool inside = false;
    for (size_t i = *at; i < scene->count; i++) {
        double here = excess(scene, i);
        if (!(here > 0)) {
            if (inside &&
                plmi_review_time_s(scene, i) - plmi_review_time_s(scene, out->last) >= scene->rules->merge_s) {
                *at = i;
                return true;
            }
            continue;
        }
        if (inside && plmi_review_time_s(scene, i) - plmi_review_time_s(scene, out->last) >= scene->rules->merge_s &&
            i > out->last + 1) {
            *at = i;
            return true;
        }
        if (!inside) {
            *out = (struct plmi_review_stretch){.first = i, .last = i, .worst = i, .excess = here};
            inside = true;
        }
        extend(scene, out, i, here);
    }
    *at = scene->count;
    return inside;
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
        tell(scene, list, &stretch, finding);
    }
}
