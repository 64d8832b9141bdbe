/*
 * A plan made ready to be held against a dive: gas and ascent filled in where it names none, replayed, laid on the
 * dive's clock. Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_PLAN_PLAN_H
#define PLM_REVIEW_PLAN_PLAN_H

#include <plimsoll/plan.h>

#include "review/scene/bands.h"
#include "review/scene/legs.h"
#include "review/scene/list.h"

struct plm_review_plan {
    struct plm_dive *dive;
    struct plm_trace *trace;
    struct plm_replay_options replay;
    struct plm_review_input input;
    struct plm_review_scene scene;
    bool gas_taken, setpoint_taken, ascent_computed; /* what the plan did not name */
    double shift_s;                                  /* the plan's runtime to the dive's */
    struct plmi_review_phases phases;                /* of the plan, on its own runtime */
    struct plmi_review_bands bands;
    struct plmi_review_legs legs;
};

/* Owns what is in it; out must stay where it is. Returns: OK; INPUT, LIMIT or MEMORY, and nothing to free. */
enum plm_status plmi_review_plan_make(struct plm_review_plan *out, const struct plm_review_scene *scene);
void plmi_review_plan_free(struct plm_review_plan *plan);

/* The plan with gas, set points and surroundings of the dive where it names none. shift_s: to the dive's runtime. */
enum plm_status plmi_review_plan_fill(struct plm_review_plan *out, const struct plm_review_scene *scene,
                                      double shift_s);
/* A plan that ends under water gets the schedule of its last point behind it; out->scene is there. */
enum plm_status plmi_review_plan_ascend(struct plm_review_plan *out);

/* Lays a plan beside the scene of a dive; NULL: none. */
void plmi_review_plan_lay(struct plm_review_scene *scene, const struct plm_review_plan *plan);

/* [s] dive's runtime at which the plan leaves the bottom. */
double plmi_review_plan_leave_s(const struct plm_review_scene *scene, const struct plmi_review_phases *done);
/* [s] planned or done at a stop depth after the bottom, between the half-way depths to its neighbours. */
double plmi_review_stop_s(const struct plm_review_scene *scene, const struct plmi_review_phases *phases, double stop_m);
/* [s] a dwell beyond this is a stop and not a passage. */
double plmi_review_stop_least_s(const struct plm_rules *rules, double stop_m);

/* What the plan has at a point where the dive is unlike it; NULL where it is like it, or at the surface. */
const struct plm_setting *plmi_review_unlike(const struct plm_review_scene *scene, size_t point,
                                             plmi_review_fits *fits);

/* The whole comparison, in words and numbers. Takes plan over. NULL without memory. */
struct plm_plan_comparison *plmi_review_plan_compare(struct plm_review_plan *plan,
                                                     const struct plm_review_scene *scene);
void plmi_review_comparison_free(struct plm_plan_comparison *comparison);

#endif
