/*
 * The table of a trace's columns. Must not format anything.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "report/data/trace_columns.h"

#define AT(field) offsetof(struct plm_point, field)
#define NUMBER(name, digits)                              \
    {                                                     \
#name, PLMI_TRACE_DOUBLE, digits, false, AT(name) \
    }
#define SCHEDULED(name, digits)                          \
    {                                                    \
#name, PLMI_TRACE_DOUBLE, digits, true, AT(name) \
    }
#define TENSION(gas, number)                                                                                       \
    {                                                                                                              \
#gas "_" #number "_bar", PLMI_TRACE_DOUBLE, 6, false, AT(tissue.gas##_bar) + ((number)-1) * sizeof(double) \
    }
#define TENSIONS(gas)                                                                                            \
    TENSION(gas, 1), TENSION(gas, 2), TENSION(gas, 3), TENSION(gas, 4), TENSION(gas, 5), TENSION(gas, 6),        \
        TENSION(gas, 7), TENSION(gas, 8), TENSION(gas, 9), TENSION(gas, 10), TENSION(gas, 11), TENSION(gas, 12), \
        TENSION(gas, 13), TENSION(gas, 14), TENSION(gas, 15), TENSION(gas, 16)

static const struct plmi_trace_column columns[] = {
    {"time_s", PLMI_TRACE_TIME, 3, false, AT(time_ms)},
    NUMBER(depth_m, 3),
    NUMBER(ambient_bar, 6),
    {"mode", PLMI_TRACE_MODE, 0, false, AT(mode)},
    NUMBER(o2_frac, 4),
    NUMBER(he_frac, 4),
    NUMBER(po2_bar, 6),
    NUMBER(ceiling_m, 3),
    NUMBER(clearance_m, 3),
    NUMBER(gradient_pct, 3),
    NUMBER(surfacing_gradient_pct, 3),
    {"leading_compartment", PLMI_TRACE_INTEGER, 0, false, AT(leading)},
    NUMBER(cns_pct, 3),
    NUMBER(otu, 3),
    NUMBER(esot, 3),
    SCHEDULED(tts_s, 1),
    SCHEDULED(no_stop_s, 1),
    NUMBER(density_g_l, 4),
    NUMBER(end_m, 2),
    NUMBER(relative_rate_pct_min, 3),
    NUMBER(rate_m_min, 3),
    NUMBER(rate_error_m_min, 3),
    {"deco_cost_min_per_min", PLMI_TRACE_COST, 2, true, 0},
    TENSIONS(n2),
    TENSIONS(he),
};

const struct plmi_trace_column *plmi_trace_columns(size_t *count)
{
    *count = sizeof columns / sizeof columns[0];
    return columns;
}

double plmi_trace_value(const struct plmi_trace_column *column, const struct plm_point *point, double cost_min)
{
    if (column->type == PLMI_TRACE_COST) {
        return cost_min;
    }
    const char *field = (const char *)point + column->offset;
    if (column->type == PLMI_TRACE_TIME) {
        return (double)point->time_ms / 1e3;
    }
    if (column->type == PLMI_TRACE_INTEGER) {
        return point->leading;
    }
    double value;
    memcpy(&value, field, sizeof value);
    return value;
}
