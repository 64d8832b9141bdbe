/*
 * The legs of a plan's ascent, and how fast a dive went through the same depths.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_LEGS_H
#define PLM_REVIEW_SCENE_LEGS_H

#include "review/scene/phases.h"

struct plmi_review_leg {
    double from_m, to_m, rate_m_min;
};
struct plmi_review_legs {
    struct plmi_review_leg *items;
    size_t count, capacity;
};

/*
 * The straight legs upward of a scene from the end of its bottom on; a finely sampled plan is simplified to lines
 * within 0.5 m. Legs of less than 2 m, and slower than 1 m/min, are none.
 * Returns: OK or MEMORY.
 */
enum plm_status plmi_review_legs_find(struct plmi_review_legs *out, const struct plm_review_scene *scene,
                                      const struct plmi_review_phases *phases);
void plmi_review_legs_free(struct plmi_review_legs *legs);

/* How a dive went through the middle of a leg: 15 % of it left out on either side, more of a short one. */
struct plmi_review_passage {
    double rate_m_min, from_s, to_s;
};
/* rate NaN: it never did. fitted: no more than the fitted rate shows there, as for recorded depths. */
struct plmi_review_passage plmi_review_leg_pass(const struct plm_review_scene *scene, const struct plmi_review_leg *leg,
                                                bool fitted);

#endif
