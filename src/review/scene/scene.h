/*
 * What a reviewer looks at: one dive with its trace, and shorthands for them.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_SCENE_H
#define PLM_REVIEW_SCENE_SCENE_H

#include <plimsoll/review.h>

struct plm_review_scene plmi_review_scene_of(const struct plm_review_input *input);

/* [s] runtime at a point. */
double plmi_review_time_s(const struct plm_review_scene *scene, size_t point);
/* The diver is under water at this point: deeper than the rule's surface. */
bool plmi_review_submerged(const struct plm_review_scene *scene, size_t point);
/* The setting in force at this point. */
const struct plm_setting *plmi_review_setting(const struct plm_review_scene *scene, size_t point);
/* The mix in force at this point; the diluent on a loop. */
const struct plm_dive_mix *plmi_review_mix(const struct plm_review_scene *scene, size_t point);
/* [m] above the ceiling at a point, 0 where not; until the diver surfaces, that point included. The first is what is
 * reported: 0 below half a step of the recorder as well. */
double plmi_review_above_ceiling_m(const struct plm_review_scene *scene, size_t point);
double plmi_review_any_above_ceiling_m(const struct plm_review_scene *scene, size_t point);
/* [m] half a step of the recorder's depths, 0 where they show none: what is less is not reported. */
double plmi_review_half_step_m(const struct plm_review_scene *scene);
/* [points] the leading gradient beyond the line of gradient factors at the depth of a point; negative within it. */
double plmi_review_beyond_points(const struct plm_review_scene *scene, size_t point);
/* [m/min] fastest ascent at depth_m [m], by the rules' depth band. */
double plmi_review_ascent_limit_m_min(const struct plm_rules *rules, double depth_m);
/* [m/min] mean rate of a way up from a depth to a shallower one, at a rate in each of the two bands. */
double plmi_review_ascent_mean_m_min(const struct plm_rules *rules, double from_m, double to_m, double deep_m_min,
                                     double shallow_m_min);

#endif
