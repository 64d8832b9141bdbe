/*
 * Stretches of points over which an excess holds; those close together, or of one part of the dive, are one.
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
    /* [s] time over which it held: from point to point, and half an interval on either side, at most half of gap_s */
    double held_s;
    int times; /* how often it began to hold, what is less than rules->merge_s apart counted once */
};

/* By how much a limit is exceeded at a point: above 0 where it is, at most 0 or NaN where not. */
typedef double plmi_review_excess(const struct plm_review_scene *scene, size_t point);

/*
 * The next stretch from *at on; stretches less than rules->merge_s apart are one, and so are those that no end of a
 * part of the dive lies between (where scene->parts has them).
 *   at  [in,out] 0 at first; behind the stretch afterwards
 * Returns: false where there is none.
 */
bool plmi_review_stretch_next(const struct plm_review_scene *scene, plmi_review_excess *excess, size_t *at,
                              struct plmi_review_stretch *out);

/* ", 4 times, 12:30 min in all" where a stretch held more than once; "" else. */
const char *plmi_review_often(struct plm_finding_list *list, const struct plmi_review_stretch *stretch);

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
