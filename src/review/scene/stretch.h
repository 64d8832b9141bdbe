/*
 * Stretches of points over which an excess holds; neighbours close together are one.
 * Must not know what the excess is of.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_STRETCH_H
#define PLM_REVIEW_SCENE_STRETCH_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

struct plmi_review_stretch {
    size_t first, last, worst; /* points; worst has the largest excess */
    double excess;             /* there */
    /* [s] time over which it held: half an interval on either side of each point of it */
    double held_s;
};

/* By how much a limit is exceeded at a point: above 0 where it is, at most 0 or NaN where not. */
typedef double plmi_review_excess(const struct plm_review_scene *scene, size_t point);

/*
 * The next stretch from *at on; stretches less than rules->merge_s apart are one.
 *   at  [in,out] 0 at first; behind the stretch afterwards
 * Returns: false where there is none.
 */
bool plmi_review_stretch_next(const struct plm_review_scene *scene, plmi_review_excess *excess, size_t *at,
                              struct plmi_review_stretch *out);

#define PLMI_REVIEW_ANY_LENGTH (-1.0)

/* Fills in what a finding tells of its stretch: severity, value, limit, text. */
typedef void plmi_review_tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                              const struct plmi_review_stretch *stretch, struct plm_finding *finding);

/*
 * A finding for each stretch.
 *   over_s  [s] stretches that did not hold longer are left out; PLMI_REVIEW_ANY_LENGTH: none
 */
void plmi_review_stretches_tell(const struct plm_review_scene *scene, struct plm_finding_list *list,
                                plmi_review_excess *excess, double over_s, plmi_review_tell *tell);

#endif
