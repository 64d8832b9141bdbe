/*
 * Start of descent, end of the bottom and time spent by depth: what a dive and its plan are compared on.
 * Must not compare.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_PHASES_H
#define PLM_REVIEW_SCENE_PHASES_H

#include "review/scene/scene.h"

struct plmi_review_phases {
    double start_s;              /* [s] runtime at which the descent starts */
    size_t left;                 /* point at which the bottom is left, the summary's */
    double left_s, left_depth_m; /* there */
    double surfaced_s;
};

struct plmi_review_phases plmi_review_phases_of(const struct plm_review_scene *scene);

/* [s] time between two depths, upper_m <= depth < lower_m, from a runtime to another, on straight lines between points.
 */
double plmi_review_dwell_s(const struct plm_review_scene *scene, double from_s, double to_s, double upper_m,
                           double lower_m);

/* [s] the last runtime at or deeper than a depth, on straight lines; NaN: never so deep. */
double plmi_review_last_at_s(const struct plm_review_scene *scene, double depth_m);

/* The last point at or before a runtime; 0 where none is. */
size_t plmi_review_point_at(const struct plm_review_scene *scene, double time_s);

#endif
