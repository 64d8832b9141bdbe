/*
 * How complete a record is, and which of two is the more so.
 * SPDX-License-Identifier: MIT
 */
#include "team/completeness.h"

#include <math.h>

static size_t cells_of(const struct plm_dive *dive)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    size_t most = 0;
    for (size_t i = 0; i < count; i++) {
        size_t cells = 0;
        for (int k = 0; k < PLM_CELLS; k++) {
            cells += isnan(samples[i].cell_bar[k]) ? 0 : 1;
        }
        most = cells > most ? cells : most;
    }
    return most;
}

struct plmi_completeness plmi_completeness_of(const struct plm_dive *dive, const struct plmi_series *series)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plmi_completeness completeness = {
        .cells = cells_of(dive), .gas = info->gas_known, .stamp = info->start.known, .step_s = series->step_s};
    for (size_t i = 1; i < series->count; i++) {
        double dt_s = series->time_s[i] - series->time_s[i - 1];
        bool gap = dt_s > series->gap_s;
        completeness.covered_s += gap ? 0.0 : dt_s;
        completeness.gaps += gap;
    }
    return completeness;
}

double plmi_completeness_compare(const struct plmi_completeness *a, const struct plmi_completeness *b)
{
    if (fabs(a->covered_s - b->covered_s) > 120.0) {
        return a->covered_s - b->covered_s;
    }
    if (a->gas != b->gas) {
        return a->gas ? 1.0 : -1.0;
    }
    if (a->cells != b->cells) {
        return (double)a->cells - (double)b->cells;
    }
    if (fabs(a->step_s - b->step_s) > 0.5) {
        return b->step_s - a->step_s;
    }
    return (a->stamp ? 1.0 : 0.0) - (b->stamp ? 1.0 : 0.0);
}
