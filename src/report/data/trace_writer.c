/*
 * A trace as CSV and as JSON lines: one line a sample. Must not round anything but by the table of columns.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>

#include "base/number.h"
#include "report/data/trace_columns.h"
#include "report/view/writer.h"

/* Bytes gathered before they go to the sink. */
#define GATHER_BYTES 65536

static bool column_wanted(const struct plm_report *report, const struct plmi_trace_column *column)
{
    return !column->schedule || report->options.schedules;
}

/* How one point is written. */
typedef void point_add(struct plm_report *report, const struct plm_point *point, double cost_min);

/* Calls add for every point, and gives what it gathered to the sink now and then. costs: NULL none. */
static enum plm_status points_write(struct plm_report *report, const struct plm_debriefed *debriefed,
                                    const double *costs, point_add *add)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(debriefed->trace, &count);
    for (size_t i = 0; i < count; i++) {
        add(report, &points[i], costs != NULL ? costs[i] : (double)NAN);
        if (report->out.count < GATHER_BYTES && !report->out.failed) {
            continue;
        }
        enum plm_status status = plmi_writer_flush(report);
        if (status != PLM_STATUS_OK) {
            return status;
        }
    }
    return plmi_writer_flush(report);
}

/* The points with what one more minute at each would have cost, where schedules are wanted. */
static enum plm_status trace_write(struct plm_report *report, const struct plm_debriefed *debriefed, point_add *add)
{
    size_t count;
    (void)plm_trace_points(debriefed->trace, &count);
    if (!report->options.schedules) {
        return points_write(report, debriefed, NULL, add);
    }
    double *costs = calloc(count, sizeof *costs);
    if (costs == NULL) {
        report->out.failed = true;
        return plmi_writer_flush(report);
    }
    enum plm_status status =
        plm_decompression_costs(costs, count, debriefed->dive, debriefed->trace, &debriefed->replay);
    if (status == PLM_STATUS_OK) {
        status = points_write(report, debriefed, costs, add);
    }
    free(costs);
    return status;
}

static void csv_begin(struct plm_report *report)
{
    size_t count;
    const struct plmi_trace_column *columns = plmi_trace_columns(&count);
    for (size_t i = 0; i < count; i++) {
        if (column_wanted(report, &columns[i])) {
            plmi_text_printf(&report->out, "%s%s", i > 0 ? "," : "", columns[i].name);
        }
    }
    plmi_text_puts(&report->out, "\n");
}

static void csv_point(struct plm_report *report, const struct plm_point *point, double cost_min)
{
    size_t count;
    const struct plmi_trace_column *columns = plmi_trace_columns(&count);
    struct plmi_text *out = &report->out;
    for (size_t i = 0; i < count; i++) {
        if (!column_wanted(report, &columns[i])) {
            continue;
        }
        if (i > 0) {
            plmi_text_add(out, ",", 1);
        }
        if (columns[i].type == PLMI_TRACE_MODE) {
            plmi_text_puts(out, plm_mode_text(point->mode));
            continue;
        }
        double value = plmi_trace_value(&columns[i], point, cost_min);
        if (isinf(value)) {
            plmi_text_puts(out, "inf");
        } else {
            plmi_number_fixed(out, value, columns[i].digits);
        }
    }
    plmi_text_add(out, "\n", 1);
}

static enum plm_status csv_trace(struct plm_report *report, const struct plm_debriefed *debriefed)
{
    return trace_write(report, debriefed, csv_point);
}

static void jsonl_point(struct plm_report *report, const struct plm_point *point, double cost_min)
{
    size_t count;
    const struct plmi_trace_column *columns = plmi_trace_columns(&count);
    struct plmi_json json;
    plmi_json_init(&json, &report->out, 0);
    plmi_json_object_begin(&json, NULL);
    for (size_t i = 0; i < count; i++) {
        if (!column_wanted(report, &columns[i])) {
            continue;
        }
        if (columns[i].type == PLMI_TRACE_MODE) {
            plmi_json_text(&json, columns[i].name, plm_mode_text(point->mode));
        } else {
            plmi_json_fixed(&json, columns[i].name, plmi_trace_value(&columns[i], point, cost_min), columns[i].digits);
        }
    }
    plmi_json_object_end(&json);
    plmi_text_add(&report->out, "\n", 1);
}

static enum plm_status jsonl_trace(struct plm_report *report, const struct plm_debriefed *debriefed)
{
    return trace_write(report, debriefed, jsonl_point);
}

const struct plmi_writer plmi_writer_trace_csv = {
    .begin = csv_begin,
    .add_debriefed = csv_trace,
};

const struct plmi_writer plmi_writer_trace_jsonl = {
    .add_debriefed = jsonl_trace,
};
