/*
 * The most complete of several records, by striking out: pairs alone would not settle it, as being alike within two
 * minutes is no order.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/completeness.h>

#include <math.h>

#include "base/diags.h"
#include "team/completeness.h"

/* Records within these of the best are alike. */
#define ALIKE_S      120.0
#define ALIKE_STEP_S 0.5

enum plm_status plm_completeness_find(struct plm_completeness *out, const struct plm_dive *dive,
                                      const struct plm_diag_sink *sink)
{
    struct plmi_series series;
    bool ok = plmi_series_init(&series, dive);
    if (ok) {
        struct plmi_completeness completeness = plmi_completeness_of(dive, &series);
        *out = (struct plm_completeness){completeness.covered_s, completeness.step_s, completeness.cells,
                                         completeness.gas};
    }
    plmi_series_free(&series);
    if (ok) {
        return PLM_STATUS_OK;
    }
    const struct plmi_diags diags = {sink, plm_dive_info_get(dive)->file};
    return plmi_diags_no_memory(&diags, 0, "to weigh the record");
}

/* What is compared in turn: more is better. */
static double merit(const struct plm_completeness *completeness, int turn)
{
    const double merits[] = {completeness->covered_s, completeness->gas ? 1 : 0, (double)completeness->cells,
                             -completeness->step_s};
    return merits[turn];
}

/* Whether a record is among the best of the first turns. */
static bool stays(const struct plm_completeness *list, size_t count, size_t index, int turns)
{
    static const double alike[] = {ALIKE_S, 0, 0, ALIKE_STEP_S};
    for (int turn = 0; turn < turns; turn++) {
        double best = -(double)INFINITY;
        for (size_t i = 0; i < count; i++) {
            if (stays(list, count, i, turn)) {
                best = fmax(best, merit(&list[i], turn));
            }
        }
        if (merit(&list[index], turn) < best - alike[turn]) {
            return false;
        }
    }
    return true;
}

size_t plm_completeness_best(const struct plm_completeness *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (stays(list, count, i, 4)) {
            return i;
        }
    }
    return 0;
}
