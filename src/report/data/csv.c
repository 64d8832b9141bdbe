/*
 * The debrief as tables: one row a dive, or one row a finding. Must not hold a figure that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include "base/number.h"
#include "report/view/writer.h"
#include "syntax/markup.h"

static void cell_separate(struct plmi_text *out, bool first)
{
    if (!first) {
        plmi_text_add(out, ",", 1);
    }
}

static void item_cell(struct plmi_text *out, const struct plmi_view_item *item)
{
    if (item->style == PLMI_VIEW_TEXT && item->text != NULL) {
        plmi_csv_cell(out, item->text);
    } else if (item->style == PLMI_VIEW_FLAG) {
        plmi_text_puts(out, item->value > 0 ? "yes" : "no");
    } else if (item->style != PLMI_VIEW_TEXT) {
        plmi_number_fixed(out, item->value, item->digits);
    }
}

static void dive_head(struct plmi_text *out, const struct plmi_view *view)
{
    for (size_t i = 0; i < view->item_count; i++) {
        cell_separate(out, i == 0);
        plmi_text_puts(out, view->items[i].key);
    }
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_text_puts(out, ",over_");
        plmi_number_fixed(out, view->bands[i].limit_bar, 1);
        plmi_text_puts(out, "_bar_min");
    }
    plmi_text_puts(out, "\n");
}

static void dive_row(struct plm_report *report, const struct plmi_view *view)
{
    struct plmi_text *out = &report->out;
    if (report->dives == 0) {
        dive_head(out, view);
    }
    for (size_t i = 0; i < view->item_count; i++) {
        cell_separate(out, i == 0);
        item_cell(out, &view->items[i]);
    }
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_text_puts(out, ",");
        plmi_number_fixed(out, view->bands[i].over_min, 1);
    }
    plmi_text_puts(out, "\n");
}

static void findings_head(struct plm_report *report)
{
    plmi_text_puts(
        &report->out,
        "file,index,start,diver,kind,severity,hold,from_s,to_s,from_depth_m,to_depth_m,value,limit,unit,times,held_s,"
        "value_low,"
        "value_high,"
        "cost_decompression_min,cost_surfacing_gradient_points,cost_peak_gradient_points,cost_cns_points,put_right,"
        "first_line,last_line,text\n");
}

static void number_cell(struct plmi_text *out, double value, int digits)
{
    plmi_text_puts(out, ",");
    plmi_number_fixed(out, value, digits);
}

static void text_cell(struct plmi_text *out, const char *text)
{
    plmi_text_puts(out, ",");
    if (text != NULL) {
        plmi_csv_cell(out, text);
    }
}

static void cost_cells(struct plmi_text *out, const struct plm_cost *cost)
{
    if (!cost->known) {
        plmi_text_puts(out, ",,,,,");
        return;
    }
    number_cell(out, cost->decompression_min, 1);
    number_cell(out, cost->surfacing_gradient_points, 1);
    number_cell(out, cost->peak_gradient_points, 1);
    number_cell(out, cost->cns_points, 1);
    text_cell(out, cost->put_right);
}

static void finding_row(struct plmi_text *out, const struct plmi_view *view, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    item_cell(out, plmi_view_find(view, "file"));
    plmi_text_puts(out, ",");
    item_cell(out, plmi_view_find(view, "index"));
    plmi_text_puts(out, ",");
    item_cell(out, plmi_view_find(view, "start"));
    plmi_text_puts(out, ",");
    item_cell(out, plmi_view_find(view, "diver"));
    text_cell(out, one->kind);
    text_cell(out, one->severity);
    text_cell(out, one->hold);
    number_cell(out, finding->from_s, 0);
    number_cell(out, finding->to_s, 0);
    number_cell(out, finding->from_depth_m, 1);
    number_cell(out, finding->to_depth_m, 1);
    number_cell(out, finding->value, one->digits);
    number_cell(out, finding->limit, one->digits);
    text_cell(out, finding->unit);
    number_cell(out, finding->times, 0);
    number_cell(out, finding->held_s, 0);
    number_cell(out, finding->value_low, one->digits);
    number_cell(out, finding->value_high, one->digits);
    cost_cells(out, &finding->cost);
    number_cell(out, finding->first_line, 0);
    number_cell(out, finding->last_line, 0);
    text_cell(out, finding->text);
    plmi_text_puts(out, "\n");
}

static void findings_rows(struct plm_report *report, const struct plmi_view *view)
{
    for (size_t i = 0; i < view->finding_count; i++) {
        finding_row(&report->out, view, &view->findings[i]);
    }
}

const struct plmi_writer plmi_writer_csv = {
    .add_view = dive_row,
};

const struct plmi_writer plmi_writer_findings_csv = {
    .begin = findings_head,
    .add_view = findings_rows,
};
