/*
 * Conventions that stand in for what a log lacks. Must not change what the log says.
 * SPDX-License-Identifier: MIT
 */
#include "log/assumed.h"

#include <math.h>

static bool any_cell(const struct plm_sample *sample)
{
    for (size_t cell = 0; cell < PLM_CELLS; cell++) {
        if (!isnan(sample->cell_bar[cell])) {
            return true;
        }
    }
    return false;
}

/* Whether the dive holds what a loop alone has: set points, cells. */
static bool has_a_loop(const struct plm_dive *dive)
{
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (!isnan(settings[i].setpoint_bar)) {
            return true;
        }
    }
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (any_cell(&samples[i])) {
            return true;
        }
    }
    return false;
}

/* An oxygen pressure without cells: a loop's, or one that a recorder computed on open circuit. */
static bool has_oxygen(const struct plm_dive *dive)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (!isnan(samples[i].po2_bar)) {
            return true;
        }
    }
    return false;
}

static enum plm_status closed_at(void *context, double time_s, struct plm_setting *setting)
{
    (void)context;
    (void)time_s;
    setting->mode = PLM_MODE_CLOSED;
    return PLM_STATUS_OK;
}

static double never_s(void *context, double after_s)
{
    (void)context;
    (void)after_s;
    return (double)INFINITY;
}

enum plm_status plmi_assumed_loop(struct plm_dive **dive, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink)
{
    static const struct plm_relay relay = {closed_at, never_s, NULL};
    const struct plm_dive_info *info = plm_dive_info_get(*dive);
    struct plm_dive *looped = NULL;
    if (info->mode_known || !has_a_loop(*dive)) {
        return PLM_STATUS_OK;
    }
    struct plm_dive_builder *builder = plm_dive_builder_from(*dive, rules, sink);
    if (builder == NULL) {
        const struct plmi_diags diags = {sink, info->file};
        return plmi_diags_no_memory(&diags, 0, "for a copy of the dive");
    }
    enum plm_status status = plm_dive_builder_relay(builder, *dive, &relay);
    if (status != PLM_STATUS_OK) {
        plm_dive_builder_free(builder);
        return status;
    }
    plm_dive_builder_info(builder)->mode_known = false;
    status = plm_dive_builder_finish(builder, &looped);
    if (status == PLM_STATUS_OK) {
        plm_dive_free(*dive);
        *dive = looped;
    }
    return status;
}

bool plmi_assumed_mode(const struct plm_dive *dive)
{
    return !plm_dive_info_get(dive)->mode_known && (has_a_loop(dive) || has_oxygen(dive));
}

void plmi_assumed_tell(const struct plmi_diags *diags, const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    if (!info->gas_known) {
        plmi_diags_add(
            diags, PLM_LEVEL_WARNING, PLM_DIAG_GAS_ASSUMED, (long)info->line, 0,
            "dive %d: no breathing gas is recorded at its start; air is taken (a dive card can tell the gas)",
            info->index);
    }
    if (plmi_assumed_mode(dive)) {
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_MODE, (long)info->line, 0,
                       has_a_loop(dive)
                           ? "dive %d: set points or cells are recorded and no breathing mode; a closed loop is taken "
                             "(a dive card can tell the mode)"
                           : "dive %d: oxygen pressures are recorded and no breathing mode; open circuit is taken (a "
                             "dive card can tell the mode)",
                       info->index);
    }
}
