/*
 * Finding the gradient factors that a dive would just have passed with.
 * Must not replay tissues: tensions don't depend on gradient factors.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/achieved.h"
#include "replay/limits.h"
#include "replay/trace.h"

/* [bar] a ceiling deeper than the diver by less, 1 mm of water, is not exceeded: the surfacing gradient itself puts a
 * ceiling at the surface. */
static const double slack_bar = 1e-4;

/*
 * Whether a dive passes under some bounds. Under a larger GF low more passes as long as there is an anchor; a GF low
 * that is never met leaves no anchor, and GF high alone may fail what a line from there to a lower anchor lets pass.
 */
enum outcome { PASSES, FAILS_BELOW_ANCHOR, FAILS_WITHOUT_ANCHOR };

static enum outcome outcome_of(const struct plm_trace *trace, const struct plmi_bounds *bounds,
                               const struct plm_start *start, double surface_depth_m)
{
    double anchor_bar = start->anchor_bar;
    /* Nowhere is the line of gradient factors below its lower end: above that end's ceiling nothing is exceeded. */
    double least_frac = fmin(bounds->low_frac, bounds->high_frac);
    for (size_t i = 0; i < trace->count; i++) {
        const struct plm_point *point = &trace->points[i];
        bool on_surface = point->depth_m < surface_depth_m;
        struct plmi_limits limits;
        plmi_limits_find(&limits, &point->tissue, bounds->model);
        anchor_bar = plmi_anchor_next_bar(bounds, &limits, anchor_bar, on_surface);
        double reached_bar = point->ambient_bar + slack_bar;
        if (plmi_limits_constant_bar(&limits, least_frac, NULL) > reached_bar &&
            plmi_anchored_ceiling_bar(bounds, &limits, anchor_bar) > reached_bar) {
            return isnan(anchor_bar) ? FAILS_WITHOUT_ANCHOR : FAILS_BELOW_ANCHOR;
        }
    }
    return PASSES;
}

double plmi_achieved_gf_low_pct(const struct plm_trace *trace, double high_pct, const struct plm_rules *rules)
{
    struct plmi_bounds bounds = plmi_bounds_of(rules, trace->assumed.surface_bar);
    /* A gradient below 1 percent at the surface: nothing is owed there at any factor. */
    bounds.high_frac = fmax(high_pct, 1.0) / 100.0;
    int too_low = 0, least = 101;
    bool passes = false;
    while (least - too_low > 1) {
        int tried = (too_low + least) / 2;
        bounds.low_frac = tried / 100.0;
        enum outcome outcome = outcome_of(trace, &bounds, &trace->start, rules->surface_depth_m);
        if (outcome == FAILS_BELOW_ANCHOR) {
            too_low = tried;
        } else {
            least = tried;
            passes = outcome == PASSES;
        }
    }
    return passes ? (double)least : (double)NAN;
}
