/*
 * Which of several records stands for a dive: the most complete, whatever the order in which they came.
 * SPDX-License-Identifier: MIT
 */
#include "logbook/best_record.h"

#include <stdlib.h>

#include <plimsoll/completeness.h>

enum plm_status plmi_best_record_weigh(struct plm_logbook *logbook, const struct plm_dive *dive,
                                       struct plm_record *record)
{
    struct plm_completeness worth;
    enum plm_status status = plm_completeness_find(&worth, dive, logbook->sink);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    record->covered_s = worth.covered_s;
    record->step_s = worth.step_s;
    record->cells = worth.cells;
    record->gas = worth.gas;
    return status;
}

enum plm_status plmi_best_record_choose(struct plm_logbook *logbook, int64_t exposure, bool *changed)
{
    struct plm_records *records = NULL;
    size_t count = 0;
    enum plm_status status = plm_ledger_records(&records, logbook->ledger, exposure);
    const struct plm_record *list = status == PLM_STATUS_OK ? plm_records_get(records, &count) : NULL;
    struct plm_completeness *worths = calloc(count + 1, sizeof *worths);
    if (status == PLM_STATUS_OK && worths == NULL) {
        plmi_logbook_tell(logbook, PLM_LEVEL_ERROR, NULL, "no memory for the records of dive %lld",
                          (long long)exposure);
        status = PLM_STATUS_MEMORY;
    }
    *changed = false;
    for (size_t i = 0; status == PLM_STATUS_OK && i < count; i++) {
        worths[i] = (struct plm_completeness){list[i].covered_s, list[i].step_s, list[i].cells, list[i].gas};
    }
    if (status == PLM_STATUS_OK) {
        const struct plm_record *best = &list[plm_completeness_best(worths, count)];
        *changed = !best->best;
        status = *changed ? plm_ledger_record_choose(logbook->ledger, best) : PLM_STATUS_OK;
    }
    free(worths);
    plm_records_free(records);
    return status;
}
