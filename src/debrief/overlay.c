/*
 * Lays over a dive what the caller tells: an edited copy through the builder, never a change in place.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/dive_builder.h>

#include "base/diags.h"
#include "debrief/overlay.h"

/* The dive with this start in place of its own. */
static enum plm_status start_replace(struct plm_dive **dive, const struct plm_stamp *start,
                                     const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    struct plm_dive *copy = NULL;
    struct plm_dive_builder *builder = plm_dive_builder_from(*dive, rules, sink);
    if (builder == NULL) {
        struct plmi_diags diags;
        plmi_diags_init(&diags, sink, plm_dive_info_get(*dive)->file);
        plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, 0, 0, "no memory for a copy of the dive");
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_info(builder)->start = *start;
    enum plm_status status = plm_dive_builder_finish(builder, &copy);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    plm_dive_free(*dive);
    *dive = copy;
    return PLM_STATUS_OK;
}

enum plm_status plmi_overlay_start(struct plm_dive **dive, const struct plm_stamp *start, const struct plm_rules *rules,
                                   const struct plm_diag_sink *sink)
{
    const struct plm_stamp *told = &plm_dive_info_get(*dive)->start;
    return told->known && told->has_clock ? PLM_STATUS_OK : start_replace(dive, start, rules, sink);
}

enum plm_status plmi_overlay_zone(struct plm_dive **dive, int zone_min, const struct plm_rules *rules,
                                  const struct plm_diag_sink *sink)
{
    struct plm_stamp start = plm_dive_info_get(*dive)->start;
    if (!start.known || !start.has_clock || start.has_zone) {
        return PLM_STATUS_OK;
    }
    start.has_zone = true;
    start.offset_min = zone_min;
    return start_replace(dive, &start, rules, sink);
}
