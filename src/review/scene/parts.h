/*
 * The parts of a dive: the way down, the bottom, each stop, the ways between them, the surface. What goes wrong several
 * times within one part is reported once.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_SCENE_PARTS_H
#define PLM_REVIEW_SCENE_PARTS_H

#include "review/scene/scene.h"

enum plmi_review_part { PLMI_PART_DOWN, PLMI_PART_BOTTOM, PLMI_PART_STOP, PLMI_PART_WAY, PLMI_PART_SURFACE };

struct plmi_review_part_at {
    enum plmi_review_part part;
    size_t end; /* the first point behind it */
};

/* In the order of time, without a hole: each begins where the one before it ends. */
struct plm_review_parts {
    struct plmi_review_part_at *items;
    size_t count, capacity;
};

/*
 * The way down ends, and the bottom begins, where the diver is first at bottom_frac of the greatest depth; the bottom
 * ends with the summary's bottom_end. From there to the surface the dive is cut where the diver comes for the last time
 * through the half-way depths between stops (rules->stop_step_m): so a rise that is taken back stays in its stop. What
 * takes a minute or more between two of these cuts is a stop; what is passed faster is a way, and neighbours of that
 * kind are one.
 * Returns: OK or MEMORY.
 */
enum plm_status plmi_review_parts_find(struct plm_review_parts *out, const struct plm_review_scene *scene);
void plmi_review_parts_free(struct plm_review_parts *parts);

/* The part that a point is in; scene->parts is not NULL. */
struct plmi_review_part_at plmi_review_part_of(const struct plm_review_scene *scene, size_t point);

/* Whether the diver is at rest on a stop; false where the dive is not divided. */
bool plmi_review_at_stop(const struct plm_review_scene *scene, size_t point);

#endif
