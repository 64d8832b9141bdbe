/*
 * The dive of a scene replayed in another way, for reviewers to look at. Must not change what was found.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_REPLAYED_H
#define PLM_REVIEW_REPLAYED_H

#include "review/scene/scene.h"

/* The scene points into the input and into the trace; it stays where it was made. */
struct plmi_review_replayed {
    struct plm_review_input input;
    struct plm_review_scene scene;
};

/*
 * Replays the dive of `scene` by `replay`, without schedules, under the plan of the scene.
 *   trace  [in,out] written over, so that one serves many tries; NULL at first; the caller frees it after the last
 * Returns: OK, or what plmi_edited_replay returns.
 */
enum plm_status plmi_review_replay(struct plmi_review_replayed *out, const struct plm_review_scene *scene,
                                   struct plm_replay_options replay, struct plm_trace **trace);

#endif
