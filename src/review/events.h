/*
 * One event, one finding: of two kinds about the same, one stays and names the figure of the other.
 * Must not look at the dive anew: what was found is put together.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_EVENTS_H
#define PLM_REVIEW_EVENTS_H

#include "review/scene/list.h"
#include "review/scene/scene.h"

/*
 * Takes each finding about the event of another into that one: its figure as a further sentence, the worse of both
 * severities, its cost where the other has none, its beginning where that is earlier.
 */
void plmi_review_events_join(const struct plm_review_scene *scene, struct plm_finding_list *list);

/* The finding by which one is put right: itself, or what went into it; NULL where it has no cost. */
const struct plm_finding *plmi_review_events_put_right(const struct plm_review_scene *scene,
                                                       const struct plm_finding_list *list,
                                                       const struct plm_finding *finding);

/* Whether two findings are about one event, whichever of them stays. */
bool plmi_review_events_same(const struct plm_review_scene *scene, const struct plm_finding *a,
                             const struct plm_finding *b);

#endif
