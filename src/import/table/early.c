/*
 * Keeps impossible samples until there is a dive to name them. Must not judge depths.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/early.h"

#include "base/figure.h"

bool plmi_early_keep(struct plmi_early *early, const struct plm_sample *sample)
{
    bool room = early->count < PLM_ODD_SAMPLES;
    if (room) {
        early->samples[early->count++] = *sample;
    }
    return room;
}

enum plm_status plmi_early_hand_over(struct plmi_early *early, struct plm_dive_builder *builder, int64_t base_ms)
{
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < early->count && status == PLM_STATUS_OK; i++) {
        early->samples[i].time_ms -= base_ms;
        status = plm_dive_builder_sample(builder, &early->samples[i]);
    }
    early->count = 0;
    return status;
}

void plmi_early_report(const struct plm_sample *sample, const struct plm_rules *rules, struct plmi_diags *diags)
{
    plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_RANGE, (long)sample->line, 0,
                   "a depth of %s m is beyond %s m (rule depth_max_m); sample dropped",
                   plmi_figure(sample->depth_m, 1).text, plmi_figure_short(rules->depth_max_m, 1).text);
}
