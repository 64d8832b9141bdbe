/*
 * A schedule from every point.
 * Must not decide how a schedule runs: the floor ascent does.
 * SPDX-License-Identifier: MIT
 */
#include "replay/schedules.h"

#include "ascent/way.h"
#include "replay/ascent_from.h"

/* Is anything waited for on the way up? Travel alone adds up with rounding. */
static bool stops_owed(const struct plm_point *point, const struct plm_rules *rules)
{
    const double rounding_s = 1e-6;
    return point->tts_s > plmi_way_s(rules, point->depth_m, 0.0) + rounding_s;
}

void plmi_schedules_fill(struct plm_trace *trace, const struct plm_dive *dive, const struct plm_rules *rules)
{
    const struct plm_zhl16 *model = plm_zhl16_get(rules->model);
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, dive);
    for (size_t i = 0; i < trace->count; i++) {
        struct plm_point *point = &trace->points[i];
        plmi_ascent_from_point(&from, &trace->assumed, point);
        point->tts_s = plmi_tts_s(&from, model, rules);
        point->no_stop_s = stops_owed(point, rules) ? 0.0 : plmi_no_stop_s(&from, model, rules);
    }
}
