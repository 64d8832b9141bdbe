/*
 * The plan of a table as a verdict that people read.
 * SPDX-License-Identifier: MIT
 */
#include "import/table/verdict.h"

#include <stdlib.h>

static const char *column_evidence(const struct plmi_column *column)
{
    if (column->evidence[0] != '\0') {
        return column->evidence;
    }
    return column->meaning == PLMI_MEANING_OTHER ? "known, and not needed"
           : column->header[0] == '\0'           ? "it has no name"
                                                 : "the name is not known";
}

static const char *time_text(const struct plmi_table_plan *plan)
{
    switch (plan->time_kind) {
    case PLMI_TIME_KIND_NUMBER: return "elapsed, as a number";
    case PLMI_TIME_KIND_ELAPSED: return "elapsed, with colons";
    case PLMI_TIME_KIND_CLOCK: return "by the clock";
    case PLMI_TIME_KIND_STAMP: return "by date and clock";
    case PLMI_TIME_KIND_INTERVAL: break;
    }
    return "";
}

bool plmi_table_verdict(struct plmi_table_plan *plan)
{
    struct plm_verdict_column *columns = calloc(plan->count + 1, sizeof *columns);
    if (columns == NULL) {
        return false;
    }
    for (size_t i = 0; i < plan->count; i++) {
        const struct plmi_column *column = &plan->columns[i];
        bool named = column->read || column->meaning > PLMI_MEANING_OTHER;
        columns[i] = (struct plm_verdict_column){
            .index = i + 1,
            .header = column->header,
            .meaning = column->meaning == PLMI_MEANING_CELL && column->read
                           ? plmi_plan_text(plan, "oxygen cell %d", column->cell + 1)
                           : plmi_meaning_info(named && column->read ? column->meaning : PLMI_MEANING_OTHER)->name,
            .unit = column->read && column->unit != NULL ? column->unit->name : "",
            .evidence = column_evidence(column),
            .read = column->read,
            .guessed = column->read && column->guessed,
        };
    }
    if (plan->time_kind != PLMI_TIME_KIND_INTERVAL) {
        plmi_plan_fact(plan, "Time", time_text(plan), "the columns that there are, and their values");
    }
    plan->verdict.facts = plan->facts;
    plan->verdict.columns = columns;
    plan->verdict.column_count = plan->count;
    return true;
}
