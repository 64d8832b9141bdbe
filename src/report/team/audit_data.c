/*
 * The audit for programs: JSON, and CSV with a row a record. Keys are stable; new ones may come.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "report/team/audit_view.h"
#include "report/view/view.h"
#include "report/output/whole.h"
#include "syntax/json.h"
#include "syntax/markup.h"

static void json_worst(struct plmi_json *json, const struct plm_audit_row *row)
{
    const struct plm_finding *worst = &row->worst;
    if (!row->has_worst) {
        plmi_json_null(json, "worst");
        return;
    }
    int digits = plmi_view_unit_digits(worst->unit);
    plmi_json_object_begin(json, "worst");
    plmi_json_text(json, "kind", worst->reviewer->kind);
    plmi_json_text(json, "severity", plm_severity_text(worst->severity));
    plmi_json_fixed(json, "value", worst->value, digits);
    plmi_json_fixed(json, "limit", worst->limit, digits);
    plmi_json_text(json, "unit", worst->unit);
    plmi_json_text(json, "hold", worst->hold == PLM_HOLD_UNTRIED ? NULL : plm_hold_text(worst->hold));
    plmi_json_fixed(json, "cost_decompression_min", worst->cost.known ? worst->cost.decompression_min : (double)NAN, 1);
    plmi_json_fixed(json, "cost_surfacing_gradient_points",
                    worst->cost.known ? worst->cost.surfacing_gradient_points : (double)NAN, 1);
    plmi_json_text(json, "text", worst->text);
    plmi_json_object_end(json);
}

static void json_row(struct plmi_json *json, const struct plmi_audit_view *view, size_t i)
{
    const struct plm_audit_row *row = &view->rows[i];
    struct plmi_text text;
    plmi_json_object_begin(json, NULL);
    for (size_t k = 0; k < plmi_audit_word_count; k++) {
        plmi_json_text(json, plmi_audit_words[k].key, plmi_audit_words[k].get(row));
    }
    plmi_text_init(&text);
    plmi_clock_write(&text, &row->start);
    plmi_json_text(json, "start", text.count ? text.bytes : NULL);
    for (size_t k = 0; k < plmi_audit_figure_count; k++) {
        plmi_json_fixed(json, plmi_audit_figures[k].key, plmi_audit_figures[k].get(row), plmi_audit_figures[k].digits);
    }
    plmi_json_bool(json, "carried", row->residual);
    if (row->other_record >= 0) {
        plmi_json_integer(json, "same_dive_as", row->other_record + 1);
    } else {
        plmi_json_null(json, "same_dive_as");
    }
    plmi_text_clear(&text);
    plmi_audit_doubt_write(&text, row);
    plmi_json_text(json, "clock_doubt", text.count ? text.bytes : NULL);
    plmi_text_free(&text);
    json_worst(json, row);
    plmi_json_object_end(json);
}

static void json_day(struct plmi_json *json, const char *key, const struct plmi_audit_day *day)
{
    plmi_json_object_begin(json, key);
    if (key == NULL) {
        plmi_json_text(json, "date", day->date[0] ? day->date : NULL);
    }
    plmi_json_integer(json, "dives", (long long)day->dives);
    plmi_json_integer(json, "divers", (long long)day->divers);
    plmi_json_integer(json, "records", (long long)day->records);
    plmi_json_fixed(json, "deepest_m", day->deepest_m, 1);
    plmi_json_integer(json, "serious", (long long)day->serious);
    plmi_json_integer(json, "caution", (long long)day->caution);
    plmi_json_integer(json, "note", (long long)day->note);
    plmi_json_object_end(json);
}

static void json_troubles(struct plmi_json *json, const struct plmi_audit_view *view)
{
    plmi_json_array_begin(json, "troubles");
    for (size_t i = 0; i < view->trouble_count; i++) {
        plmi_json_object_begin(json, NULL);
        plmi_json_text(json, "file", view->troubles[i].file);
        plmi_json_text(json, "text", view->troubles[i].text);
        plmi_json_bool(json, "used_in_part", view->troubles[i].partly);
        plmi_json_object_end(json);
    }
    plmi_json_array_end(json);
}

static void json_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    struct plmi_json json;
    plmi_json_init(&json, out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_integer(&json, "schema", 1);
    plmi_json_integer(&json, "files", (long long)view->files);
    plmi_json_integer(&json, "passed_over", (long long)view->passed_over);
    json_day(&json, "whole", &view->whole);
    plmi_json_array_begin(&json, "days");
    for (size_t i = 0; i < view->day_count; i++) {
        json_day(&json, NULL, &view->days[i]);
    }
    plmi_json_array_end(&json);
    plmi_json_array_begin(&json, "dives");
    for (size_t i = 0; i < view->row_count; i++) {
        json_row(&json, view, i);
    }
    plmi_json_array_end(&json);
    json_troubles(&json, view);
    plmi_json_texts(&json, "cautions", plmi_standing_cautions, plmi_standing_caution_count);
    plmi_json_object_end(&json);
    plmi_text_puts(out, "\n");
}

static void csv_row(struct plmi_text *out, const struct plm_audit_row *row)
{
    struct plmi_text text;
    for (size_t i = 0; i < plmi_audit_word_count; i++) {
        const char *word = plmi_audit_words[i].get(row);
        plmi_csv_cell(out, word != NULL ? word : "");
        plmi_text_puts(out, ",");
    }
    plmi_text_init(&text);
    plmi_clock_write(&text, &row->start);
    plmi_csv_cell(out, text.bytes != NULL ? text.bytes : "");
    for (size_t i = 0; i < plmi_audit_figure_count; i++) {
        plmi_text_puts(out, ",");
        plmi_number_fixed(out, plmi_audit_figures[i].get(row), plmi_audit_figures[i].digits);
    }
    plmi_text_printf(out, ",%s,", row->residual ? "yes" : "no");
    if (row->other_record >= 0) {
        plmi_text_printf(out, "%ld", row->other_record + 1);
    }
    plmi_text_puts(out, ",");
    plmi_text_clear(&text);
    plmi_audit_worst_write(&text, row);
    plmi_csv_cell(out, text.bytes != NULL ? text.bytes : "");
    plmi_text_puts(out, ",\n");
    out->failed = out->failed || text.failed;
    plmi_text_free(&text);
}

/* What was not used, or in part, is a row of its own with its file and nothing else. */
static void csv_trouble(struct plmi_text *out, const struct plm_audit_trouble *trouble)
{
    for (size_t i = 0; i < plmi_audit_word_count; i++) {
        if (strcmp(plmi_audit_words[i].key, "file") == 0) {
            plmi_csv_cell(out, trouble->file);
        }
        plmi_text_puts(out, ",");
    }
    for (size_t i = 0; i < plmi_audit_figure_count; i++) {
        plmi_text_puts(out, ",");
    }
    plmi_text_puts(out, ",,,,");
    plmi_csv_cell(out, trouble->text);
    plmi_text_puts(out, "\n");
}

static void csv_write(struct plmi_text *out, const struct plmi_audit_view *view)
{
    for (size_t i = 0; i < plmi_audit_word_count; i++) {
        plmi_text_printf(out, "%s,", plmi_audit_words[i].key);
    }
    plmi_text_puts(out, "start");
    for (size_t i = 0; i < plmi_audit_figure_count; i++) {
        plmi_text_printf(out, ",%s", plmi_audit_figures[i].key);
    }
    plmi_text_puts(out, ",carried,same_dive_as,worst,trouble\n");
    for (size_t i = 0; i < view->row_count; i++) {
        csv_row(out, &view->rows[i]);
    }
    for (size_t i = 0; i < view->trouble_count; i++) {
        csv_trouble(out, &view->troubles[i]);
    }
}

void plmi_audit_json(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    plmi_audit_view_write(out, what, options, json_write);
}

void plmi_audit_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    plmi_audit_view_write(out, what, options, csv_write);
}
