/*
 * Rates of ascent against their limits: what is beyond, and how bad. For the reviewer of rates alone.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_KINDS_ASCENT_PACE_H
#define PLM_REVIEW_KINDS_ASCENT_PACE_H

#include "replay/last_ascent.h"
#include "review/scene/scene.h"

/* A rate, its limit and standard error, the rate from which it is serious, the share by which it is beyond what is no
 * finding, and how bad that is. */
struct plmi_review_pace {
    double value_m_min, limit_m_min, error_m_min, serious_m_min, share;
    enum plm_severity severity;
};

/* The rate at a point is that of the one interval before it, as samples are that far apart. */
bool plmi_review_pace_coarse(const struct plm_review_scene *scene, size_t point);
/* [m] the depth that a rate is judged by: where the diver was, or half-way of a long interval. */
double plmi_review_pace_depth_m(const struct plm_review_scene *scene, size_t point);
/* [m/min] at this depth a rate beyond it is a finding. */
double plmi_review_pace_least_m_min(const struct plm_rules *rules, double depth_m);

/* The fitted rate at a point, on the way to the surface or between stops. */
struct plmi_review_pace plmi_review_pace_fitted(const struct plm_review_scene *scene, size_t point, bool to_surface);
/* A way to the surface against the limits of the depths that it went through. */
struct plmi_review_pace plmi_review_pace_swum(const struct plm_review_scene *scene, const struct plmi_passage *passage);

/* Worse in severity, or in share where they are alike. */
bool plmi_review_pace_worse(const struct plmi_review_pace *pace, const struct plmi_review_pace *than);

#endif
