/*
 * The columns of a trace, one table for CSV and JSON lines. Order and names are stable for ever.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_DATA_TRACE_COLUMNS_H
#define PLM_REPORT_DATA_TRACE_COLUMNS_H

#include <plimsoll/trace.h>

enum plmi_trace_column_type {
    PLMI_TRACE_TIME,
    PLMI_TRACE_DOUBLE,
    PLMI_TRACE_INTEGER,
    PLMI_TRACE_MODE,
    PLMI_TRACE_COST
};

struct plmi_trace_column {
    const char *name;
    enum plmi_trace_column_type type;
    int digits;    /* behind the point */
    bool schedule; /* there only with schedules */
    size_t offset; /* of the field in struct plm_point; 0 for a cost, which stands beside it */
};

const struct plmi_trace_column *plmi_trace_columns(size_t *count);
/* The value of a column of numbers, NaN where unknown; cost_min: of a minute more there. */
double plmi_trace_value(const struct plmi_trace_column *column, const struct plm_point *point, double cost_min);

#endif
