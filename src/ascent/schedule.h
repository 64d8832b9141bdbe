/*
 * From a state to the surface: stops, time to surface, no-stop time, by the rules. Pure; no allocation; deterministic.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_ASCENT_SCHEDULE_H
#define PLM_ASCENT_SCHEDULE_H

#include <plimsoll/rules.h>
#include <plimsoll/status.h>
#include <plimsoll/tissue.h>

#include "ascent/from.h"

#define PLMI_STOPS_MAX 512

/* A stop: where, for how long, on which mix (the diluent on the loop). */
struct plmi_stop {
    double depth_m, wait_s, mix_o2_frac, mix_he_frac;
};

struct plmi_schedule {
    enum plm_status status; /* OK; UNSOLVABLE: a stop that never clears (rules->schedule_max_h);
                               ARGUMENT: the start or a rule is no number or out of range */
    int stop_count;
    /* deepest first; only those with a wait > 0; more than fit: added to the last */
    struct plmi_stop stops[PLMI_STOPS_MAX];
    /* to the surface, waits and travel; INFINITY when UNSOLVABLE, NaN when ARGUMENT */
    double tts_s;
    double stop_total_s;          /* waits alone */
    struct plm_tissue at_surface; /* meaningful when OK */
};

/*
 * The ascent from a state. Conventions:
 *  - depths: from the start to the next multiple of the stop step above it, so on to the last stop, then to the
 *    surface. Where the start is between stops and the next depth is not clear, the wait is at the start.
 *  - rates: rules->schedule_rate_m_min, and schedule_shallow_rate_m_min from schedule_shallow_band_m up.
 *  - mixes: chosen at the deeper end of each leg, for a wait there and for the travel on to the next depth: a mix is
 *    taken as soon as a multiple of the stop step allows it. Highest PO2 within its limit (exceeded by no more than
 *    rules->deco_po2_slack_bar), and within rules->deco_density_max_g_l where any carried mix is.
 *  - loop: rules->deco_setpoint_bar, where it is not 0, from the start of the ascent on.
 *  - anchor: starts at the deeper of the given one and the present ceiling at GF low, and deepens on the way.
 *  - at or above the surface: nothing to do, tts 0.
 */
void plmi_schedule_find(struct plmi_schedule *out, const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                        const struct plm_rules *rules);
/* Time to surface alone [s]; INFINITY when a stop never clears; NaN for a start that cannot be. */
double plmi_tts_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model, const struct plm_rules *rules);
/*
 * [s] how long the depth, mix and set point of the start can be kept so that the schedule from there still has no
 * stop: the direct ascent arrives within GF high at the surface, and within GF at every stop depth passed. 0 when
 * stops are owed; at most rules->no_stop_max_min; NaN for a start that cannot be. Within 1e-3 s.
 */
double plmi_no_stop_s(const struct plmi_ascent_from *from, const struct plm_zhl16 *model,
                      const struct plm_rules *rules);

#endif
