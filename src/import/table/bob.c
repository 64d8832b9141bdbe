/*
 * What is too short and too shallow to be a dive between others. Must not decide where a dive begins or ends.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/bob.h"

#include <math.h>

#include "base/figure.h"

static double deepest_m(const struct plm_dive *dive)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    double deepest = 0;
    for (size_t i = 0; i < count; i++) {
        deepest = fmax(deepest, samples[i].depth_m);
    }
    return deepest;
}

static double wet_min(const struct plm_dive *dive, const struct plm_rules *rules)
{
    int64_t from_ms, to_ms;
    plm_dive_wet(dive, rules, &from_ms, &to_ms);
    return (double)(to_ms - from_ms) / 60e3;
}

bool plmi_bob_is(const struct plm_dive *dive, const struct plm_rules *rules)
{
    return wet_min(dive, rules) < rules->bob_max_min && deepest_m(dive) < rules->bob_max_m;
}

void plmi_bob_drop(struct plm_dive *dive, const struct plm_rules *rules, struct plmi_diags *diags)
{
    plmi_diags_add(diags, PLM_LEVEL_NOTE, PLM_DIAG_DIVE_SKIPPED, (long)plm_dive_info_get(dive)->line, 0,
                   "at the surface but for %s min down to %s m: no dive (rules bob_max_m, bob_max_min)",
                   plmi_figure(wet_min(dive, rules), 1).text, plmi_figure(deepest_m(dive), 1).text);
    plm_dive_free(dive);
}
