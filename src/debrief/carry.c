/*
 * Surface intervals inside one file: stated by the log, else by its clocks. Must not guess one.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "base/clock.h"
#include "debrief/carry.h"

/* A stated interval and the clocks may differ by this much: recorders end a dive some time after surfacing. */
#define CLOCK_DOUBT_S 900.0
/* An interval is stated in whole minutes, from record to record or from water to water: one between the two, give or
 * take this, says what the clocks say. */
#define CLOCK_SAME_S 60.0

void plmi_carry_init(struct plmi_carry *carry, const struct plm_start *first)
{
    *carry = (struct plmi_carry){.first = first};
}

static struct plm_start saturated(void)
{
    return (struct plm_start){.anchor_bar = (double)NAN, .surface_interval_s = (double)NAN};
}

static double clock_seconds(const struct plm_stamp *stamp, bool by_zone)
{
    return ((double)stamp->local_ms - (by_zone ? 60e3 * stamp->offset_min : 0)) / 1e3;
}

/* [s] from leaving the water in the last dive to entering it in this one by their clocks; NaN where one is not known.
 */
static double interval_by_clock_s(const struct plmi_carry *carry, const struct plm_stamp *start, int64_t wet_from_ms)
{
    if (!carry->start.known || !carry->start.has_clock || !start->known || !start->has_clock) {
        return (double)NAN;
    }
    bool by_zone = carry->start.has_zone && start->has_zone;
    return clock_seconds(start, by_zone) - clock_seconds(&carry->start, by_zone) + (double)wet_from_ms / 1e3 -
           carry->wet_to_s;
}

static void doubt_tell(struct plmi_diags *diags, const struct plm_dive_info *info, double stated_s, double clock_s)
{
    struct plmi_text stated, clock;
    plmi_text_init(&stated);
    plmi_text_init(&clock);
    plmi_clock_duration(&stated, stated_s);
    plmi_clock_duration(&clock, clock_s);
    if (!stated.failed && !clock.failed) {
        plmi_diags_add(
            diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, (long)info->line, 0,
            "the surface interval before dive %d is told as %s and is %s by the start times; the one told is taken",
            info->index, stated.bytes, clock.bytes);
    }
    plmi_text_free(&stated);
    plmi_text_free(&clock);
}

/* [s] the surface interval to go by; INFINITY: desaturated; NaN: not known, which is reported. */
static double interval_find_s(struct plmi_carry *carry, const struct plm_dive_info *info, int64_t wet_from_ms,
                              struct plmi_diags *diags)
{
    double stated_s = info->surface_interval_s;
    double clock_s = interval_by_clock_s(carry, &info->start, wet_from_ms);
    if (!isnan(stated_s)) {
        if (isfinite(stated_s) && fabs(stated_s - clock_s) > CLOCK_DOUBT_S) {
            carry->doubted = true;
            doubt_tell(diags, info, stated_s, clock_s);
        }
        double records_s = clock_s - (double)wet_from_ms / 1e3 - (carry->duration_s - carry->wet_to_s);
        return stated_s >= records_s - CLOCK_SAME_S && stated_s <= clock_s + CLOCK_SAME_S ? clock_s : stated_s;
    }
    if (clock_s >= 0) {
        return clock_s;
    }
    carry->doubted = true;
    plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, (long)info->line, 0,
                   isnan(clock_s)
                       ? "no surface interval is known before dive %d; it starts saturated with air"
                       : "dive %d is in the water before the dive above it has left it; it starts saturated with air",
                   info->index);
    return (double)NAN;
}

struct plm_start plmi_carry_into(struct plmi_carry *carry, const struct plm_dive *dive, const struct plm_rules *rules,
                                 struct plmi_diags *diags)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    if (!carry->any) {
        return carry->first != NULL ? *carry->first : saturated();
    }
    if (info->group != carry->group) {
        return saturated();
    }
    int64_t wet_from_ms, wet_to_ms;
    plm_dive_wet(dive, rules, &wet_from_ms, &wet_to_ms);
    double interval_s = interval_find_s(carry, info, wet_from_ms, diags);
    if (!isfinite(interval_s)) {
        return saturated();
    }
    if (carry->in_water) {
        carry->doubted = true;
        plmi_diags_add(diags, PLM_LEVEL_WARNING, PLM_DIAG_INTERVAL, (long)info->line, 0,
                       "the record of dive %d ends in the water; dive %d starts with what it shows, as if the diver "
                       "had surfaced there",
                       carry->index, info->index);
    }
    struct plm_start start = plm_start_rest(&carry->end, interval_s, carry->surface_bar, rules);
    start.residual = true;
    start.from = carry->from;
    start.surface_interval_s = interval_s;
    return start;
}

void plmi_carry_keep(struct plmi_carry *carry, const struct plm_dive *dive, const struct plm_trace *trace,
                     const struct plm_rules *rules)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    carry->any = true;
    carry->surface_bar = plm_trace_assumed(trace)->surface_bar;
    carry->end = plm_start_after(trace, 0, carry->surface_bar, rules);
    carry->group = info->group;
    carry->index = info->index;
    carry->start = info->start;
    int64_t wet_from_ms, wet_to_ms;
    plm_dive_wet(dive, rules, &wet_from_ms, &wet_to_ms);
    carry->duration_s = plm_trace_summary_get(trace)->duration_s;
    carry->wet_to_s = (double)wet_to_ms / 1e3;
    carry->in_water = info->ends_in_water;
    snprintf(carry->from, sizeof carry->from, "dive %d%s", info->index,
             info->ends_in_water ? ", whose record ends in the water" : "");
}
