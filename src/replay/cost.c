/*
 * The marginal cost of bottom time.
 * Must not judge it.
 * SPDX-License-Identifier: MIT
 */
#include "replay/cost.h"

#include <math.h>
#include <plimsoll/decompression.h>

#include "ascent/way.h"
#include "gas/mix.h"
#include "replay/trace.h"
#include "tissue/tissue.h"

/* [s] */
static const double minute_s = 60.0;

/* The tissues after a minute more where the diver is. */
static void stay(struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules,
                 double po2_bar)
{
    double ambient_bar = plm_ambient_bar(from->surface_bar, from->depth_m, from->water_kg_m3);
    struct plmi_inspired inspired =
        from->gas.mode == PLM_MODE_CLOSED
            ? plmi_inspired_loop(&from->gas.mix, ambient_bar, po2_bar, rules->water_vapour_bar)
            : plmi_inspired_open(&from->gas.mix, ambient_bar, rules->water_vapour_bar);
    struct plmi_leg leg = {minute_s, inspired.n2_bar, inspired.n2_bar, inspired.he_bar, inspired.he_bar};
    struct plmi_decay decay;
    plmi_decay_init(&decay, model);
    plmi_tissue_step(&from->tissue, &leg, &decay);
}

double plmi_minute_cost_min(const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                            const struct plm_rules *rules, double po2_bar)
{
    struct plmi_ascent_from later = *from;
    stay(&later, model, rules, po2_bar);
    double now_s = plmi_tts_s(from, model, rules), later_s = plmi_tts_s(&later, model, rules);
    if (!isfinite(now_s) || !isfinite(later_s)) {
        return (double)NAN;
    }
    double way_s = plmi_way_s(rules, from->depth_m, 0.0);
    /* [s] travel adds up with rounding: below this nothing is waited for. */
    const double waited_s = 1e-3;
    bool owed = now_s > way_s + waited_s || later_s > way_s + waited_s;
    return owed ? (later_s - now_s) / minute_s : (double)NAN;
}

enum plm_status plm_decompression_costs(double *values, size_t count, const struct plm_dive *dive,
                                        const struct plm_trace *trace, const struct plm_replay_options *options)
{
    const struct plm_trace_summary *summary = &trace->summary;
    const struct plm_zhl16 *model = plm_zhl16_get(options->rules->model);
    if (count != trace->count) {
        return PLM_STATUS_ARGUMENT;
    }
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, dive);
    for (size_t i = 0; i < count; i++) {
        values[i] = (double)NAN;
        if (i >= summary->descent_start && i <= summary->bottom_end) {
            const struct plm_point *point = &trace->points[i];
            plmi_ascent_from_point(&from, &trace->assumed, point);
            values[i] = plmi_minute_cost_min(&from, model, options->rules, point->po2_bar);
        }
    }
    return PLM_STATUS_OK;
}
