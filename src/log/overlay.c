/*
 * Lays over a dive what the caller tells: one edited copy through the builder, never a change in place.
 * SPDX-License-Identifier: MIT
 */
#include "log/overlay.h"

#include <plimsoll/dive_builder.h>

#include "base/diags.h"
#include "import/card/lay.h"

/* The start that a dive has under the overlay: the card's word, then the caller's where there is none. */
static struct plm_stamp start_under(const struct plmi_overlay *overlay, const struct plm_stamp *stated,
                                    const struct plm_stamp *first)
{
    struct plm_stamp start = *stated;
    if (overlay->card != NULL) {
        plmi_card_lay_start(&start, first, overlay->card);
    }
    if (first == NULL && overlay->start != NULL && !(start.known && start.has_clock)) {
        start = *overlay->start;
    }
    if (overlay->has_zone && start.known && start.has_clock && !start.has_zone) {
        start.has_zone = true;
        start.offset_min = overlay->zone_min;
    }
    return start;
}

static bool stamp_same(const struct plm_stamp *a, const struct plm_stamp *b)
{
    return a->local_ms == b->local_ms && a->offset_min == b->offset_min && a->known == b->known &&
           a->has_zone == b->has_zone && a->has_clock == b->has_clock;
}

enum plm_status plmi_overlay_lay(struct plm_dive **dive, const struct plmi_overlay *overlay,
                                 const struct plm_stamp *first, const struct plm_rules *rules,
                                 const struct plm_diag_sink *sink)
{
    const struct plm_dive_info *info = plm_dive_info_get(*dive);
    const struct plm_stamp start = start_under(overlay, &info->start, first);
    struct plm_dive *laid = NULL;
    if (overlay->card == NULL && stamp_same(&start, &info->start)) {
        return PLM_STATUS_OK;
    }
    struct plm_dive_builder *builder = plm_dive_builder_from(*dive, rules, sink);
    if (builder == NULL) {
        const struct plmi_diags diags = {sink, info->file};
        return plmi_diags_no_memory(&diags, 0, "for a copy of the dive");
    }
    plm_dive_builder_info(builder)->start = start;
    enum plm_status status = overlay->card != NULL ? plmi_card_lay(builder, *dive, overlay->card, sink) : PLM_STATUS_OK;
    if (status != PLM_STATUS_OK) {
        plm_dive_builder_free(builder);
        return status;
    }
    status = plm_dive_builder_finish(builder, &laid);
    if (status == PLM_STATUS_OK) {
        plm_dive_free(*dive);
        *dive = laid;
    }
    return status;
}
