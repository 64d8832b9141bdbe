/*
 * The debrief as JSON, schema 1. Keys are stable; new ones may come. Must not hold a figure that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/version.h>

#include "report/view/writer.h"

/* Digits of depths and of doses in points, as the view's items have them. */
#define DEPTH_DIGITS   1
#define MINUTES_DIGITS 1

static void item_write(struct plmi_json *json, const struct plmi_view_item *item)
{
    if (item->style == PLMI_VIEW_TEXT) {
        plmi_json_text(json, item->key, item->text);
    } else if (item->style == PLMI_VIEW_FLAG) {
        plmi_json_bool(json, item->key, item->value > 0);
    } else {
        plmi_json_fixed(json, item->key, item->value, item->digits);
    }
}

static void section_begin(struct plmi_json *json, const struct plmi_view *view, enum plmi_view_section section)
{
    plmi_json_object_begin(json, plmi_view_section_text(section));
    for (size_t i = 0; i < view->item_count; i++) {
        if (view->items[i].section == section) {
            item_write(json, &view->items[i]);
        }
    }
}

static void section_write(struct plmi_json *json, const struct plmi_view *view, enum plmi_view_section section)
{
    section_begin(json, view, section);
    plmi_json_object_end(json);
}

static void decompression_write(struct plmi_json *json, const struct plmi_view *view)
{
    if (!view->decompression_known) {
        plmi_json_null(json, plmi_view_section_text(PLMI_VIEW_DECOMPRESSION));
        return;
    }
    section_begin(json, view, PLMI_VIEW_DECOMPRESSION);
    plmi_json_array_begin(json, "stops");
    for (size_t i = 0; i < view->stop_count; i++) {
        const struct plmi_view_stop *stop = &view->stops[i];
        plmi_json_object_begin(json, NULL);
        plmi_json_fixed(json, "depth_m", stop->depth_m, DEPTH_DIGITS);
        plmi_json_fixed(json, "owed_min", stop->owed_min, MINUTES_DIGITS);
        plmi_json_fixed(json, "done_min", stop->done_min, MINUTES_DIGITS);
        plmi_json_fixed(json, "difference_min", stop->difference_min, MINUTES_DIGITS);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
    plmi_json_object_end(json);
}

static void oxygen_write(struct plmi_json *json, const struct plmi_view *view)
{
    section_begin(json, view, PLMI_VIEW_OXYGEN);
    plmi_json_array_begin(json, "over");
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_json_object_begin(json, NULL);
        plmi_json_fixed(json, "limit_bar", view->bands[i].limit_bar, 1);
        plmi_json_fixed(json, "over_min", view->bands[i].over_min, MINUTES_DIGITS);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
    plmi_json_object_end(json);
}

static void gas_write(struct plmi_json *json, const struct plmi_view *view)
{
    section_begin(json, view, PLMI_VIEW_GAS);
    plmi_json_array_begin(json, "mixes");
    for (size_t i = 0; i < view->mix_count; i++) {
        const struct plmi_view_mix *mix = &view->mixes[i];
        plmi_json_object_begin(json, NULL);
        plmi_json_text(json, "mode", mix->mode);
        plmi_json_text(json, "mix", mix->name);
        plmi_json_fixed(json, "o2_frac", mix->o2_frac, 3);
        plmi_json_fixed(json, "he_frac", mix->he_frac, 3);
        plmi_json_fixed(json, "minutes", mix->minutes, MINUTES_DIGITS);
        plmi_json_fixed(json, "least_depth_m", mix->least_depth_m, DEPTH_DIGITS);
        plmi_json_fixed(json, "most_depth_m", mix->most_depth_m, DEPTH_DIGITS);
        plmi_json_fixed(json, "setpoint_low_bar", mix->setpoint_low_bar, 2);
        plmi_json_fixed(json, "setpoint_high_bar", mix->setpoint_high_bar, 2);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
    plmi_json_object_end(json);
}

static void cost_write(struct plmi_json *json, const char *key, const struct plm_cost *cost)
{
    if (cost == NULL || !cost->known) {
        plmi_json_null(json, key);
        return;
    }
    plmi_json_object_begin(json, key);
    plmi_json_fixed(json, "decompression_min", cost->decompression_min, 1);
    plmi_json_fixed(json, "surfacing_gradient_points", cost->surfacing_gradient_points, 1);
    plmi_json_fixed(json, "peak_gradient_points", cost->peak_gradient_points, 1);
    plmi_json_fixed(json, "cns_points", cost->cns_points, 1);
    plmi_json_text(json, "put_right", cost->put_right);
    plmi_json_object_end(json);
}

static void pair_write(struct plmi_json *json, const char *key, double low, double high, int digits)
{
    plmi_json_array_begin(json, key);
    plmi_json_fixed(json, NULL, low, digits);
    plmi_json_fixed(json, NULL, high, digits);
    plmi_json_array_end(json);
}

static void finding_write(struct plmi_json *json, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    plmi_json_object_begin(json, NULL);
    plmi_json_text(json, "kind", one->kind);
    plmi_json_text(json, "severity", one->severity);
    plmi_json_fixed(json, "from_s", finding->from_s, 0);
    plmi_json_fixed(json, "to_s", finding->to_s, 0);
    plmi_json_fixed(json, "from_depth_m", finding->from_depth_m, DEPTH_DIGITS);
    plmi_json_fixed(json, "to_depth_m", finding->to_depth_m, DEPTH_DIGITS);
    plmi_json_fixed(json, "value", finding->value, one->digits);
    plmi_json_fixed(json, "limit", finding->limit, one->digits);
    plmi_json_bool(json, "at_least", finding->at_least);
    plmi_json_text(json, "unit", finding->unit);
    plmi_json_integer(json, "times", finding->times);
    plmi_json_fixed(json, "held_s", finding->held_s, 0);
    plmi_json_array_begin(json, "lines");
    plmi_json_integer(json, NULL, finding->first_line);
    plmi_json_integer(json, NULL, finding->last_line);
    plmi_json_array_end(json);
    plmi_json_text(json, "text", finding->text);
    plmi_json_text(json, "hold", one->hold);
    if (one->hold != NULL) {
        pair_write(json, "value_range", finding->value_low, finding->value_high, one->digits);
    } else {
        plmi_json_null(json, "value_range");
    }
    plmi_json_bool(json, "cells_differ", finding->cells_differ);
    cost_write(json, "cost", &finding->cost);
    plmi_json_object_end(json);
}

static void plan_value_write(struct plmi_json *json, const char *key, const char *words, double value, int digits)
{
    if (words != NULL) {
        plmi_json_text(json, key, words);
    } else {
        plmi_json_fixed(json, key, value, digits);
    }
}

static void plan_write(struct plmi_json *json, const struct plmi_view *view)
{
    if (view->plan_verdict == NULL) {
        plmi_json_null(json, "plan");
        return;
    }
    plmi_json_object_begin(json, "plan");
    plmi_json_array_begin(json, "table");
    for (size_t i = 0; i < view->plan_row_count; i++) {
        const struct plmi_view_plan_row *row = &view->plan_rows[i];
        plmi_json_object_begin(json, NULL);
        plmi_json_text(json, "what", row->what);
        plan_value_write(json, "planned", row->planned_words, row->planned, row->digits);
        plan_value_write(json, "done", row->done_words, row->done, row->digits);
        plmi_json_fixed(json, "difference", row->difference, row->digits);
        plmi_json_text(json, "unit", row->unit);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
    plmi_json_text(json, "verdict", view->plan_verdict);
    plmi_json_text(json, "assumed", view->plan_assumed[0] != '\0' ? view->plan_assumed : NULL);
    plmi_json_object_end(json);
}

/* By each oxygen cell alone; what the dive was judged by stands in the other parts. */
static void cells_write(struct plmi_json *json, const struct plmi_view *view)
{
    plmi_json_array_begin(json, "cells");
    for (size_t i = 1; i < view->cell_count; i++) {
        const struct plmi_view_cell *cell = &view->cells[i];
        plmi_json_object_begin(json, NULL);
        plmi_json_integer(json, "cell", cell->cell);
        plmi_json_bool(json, "still", cell->still);
        plmi_json_fixed(json, "surfacing_gradient_pct", cell->surfacing_gradient_pct, 1);
        plmi_json_fixed(json, "cns_pct", cell->cns_pct, 1);
        plmi_json_bool(json, "cns_at_least", cell->cns_at_least);
        plmi_json_fixed(json, "owed_min", cell->owed_min, 1);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
}

static void findings_write(struct plmi_json *json, const struct plmi_view *view)
{
    plmi_json_array_begin(json, "findings");
    for (size_t i = 0; i < view->finding_count; i++) {
        finding_write(json, &view->findings[i]);
    }
    plmi_json_array_end(json);
    cost_write(json, "all_put_right", view->cost_known ? plm_findings_all_put_right(view->debriefed->findings) : NULL);
}

static void json_begin(struct plm_report *report)
{
    struct plmi_json *json = &report->json;
    plmi_json_init(json, &report->out, 2);
    plmi_json_object_begin(json, NULL);
    plmi_json_integer(json, "schema", 1);
    plmi_json_object_begin(json, "program");
    plmi_json_text(json, "name", "plimsoll");
    plmi_json_text(json, "version", plm_version_get());
    plmi_json_object_end(json);
    plmi_json_array_begin(json, "dives");
}

static void json_add(struct plm_report *report, const struct plmi_view *view)
{
    struct plmi_json *json = &report->json;
    plmi_json_object_begin(json, NULL);
    section_write(json, view, PLMI_VIEW_SOURCE);
    section_write(json, view, PLMI_VIEW_DIVE);
    section_write(json, view, PLMI_VIEW_PROFILE);
    section_write(json, view, PLMI_VIEW_MODEL);
    plmi_json_texts(json, "basis", view->basis, view->basis_count);
    section_write(json, view, PLMI_VIEW_COUNTS);
    section_write(json, view, PLMI_VIEW_LOADING);
    decompression_write(json, view);
    oxygen_write(json, view);
    gas_write(json, view);
    findings_write(json, view);
    cells_write(json, view);
    plan_write(json, view);
    plmi_json_texts(json, "cautions", view->cautions, view->caution_count);
    plmi_json_object_end(json);
}

static void json_end(struct plm_report *report)
{
    plmi_json_array_end(&report->json);
    plmi_json_object_end(&report->json);
    plmi_text_puts(&report->out, "\n");
}

const struct plmi_writer plmi_writer_json = {
    .begin = json_begin,
    .add_view = json_add,
    .end = json_end,
};
