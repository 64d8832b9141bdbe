/*
 * A dive replayed by other options, and the scene of it.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/replayed.h"

#include "replay/edited_replay.h"
#include "review/plan/plan.h"

enum plm_status plmi_review_replay(struct plmi_review_replayed *out, const struct plm_review_scene *scene,
                                   struct plm_replay_options replay, struct plm_trace **trace)
{
    replay.schedules = false;
    out->input = *scene->input;
    enum plm_status status = plmi_edited_replay(trace, out->input.dive, NULL, &replay, NULL);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    out->input.trace = *trace;
    out->input.decompression = NULL;
    out->scene = plmi_review_scene_of(&out->input);
    plmi_review_plan_lay(&out->scene, scene->plan);
    return PLM_STATUS_OK;
}
