/*
 * What a diver carries at a moment: tissues, oxygen, time. Must not say that anything is enough.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/clock.h"
#include "base/number.h"
#include "report/ledger/view.h"
#include "report/view/view.h"
#include "report/output/whole.h"
#include "syntax/markup.h"
#include "tissue/oxygen.h"

/* As near as this a compartment counts as saturated with air. */
#define NEAR_FRAC 0.01

/* Dives that ended within this before the last one's end count as several. A convention of ours: the guideline says
 * "several days". */
#define SEVERAL_MS (INT64_C(48) * 3600000)

const char plmi_due_caution[] =
    "This is not a permission to dive or to fly. It tells what the model carries, not how the diver is.";

const char *const plmi_guideline_rows[PLMI_GUIDELINE_ROWS] = {
    "after one dive that needed no stops: at least 12 h",
    "after several dives, or days of diving: at least 18 h",
    "after dives that needed stops: substantially longer than 18 h",
};

const char plmi_guideline_source[] = "Workshop on flying after recreational diving, DAN 2002: for recreational dives, "
                                     "and divers without symptoms. The US Navy waits 48 h after an "
                                     "exceptional exposure.";

/* When a dive goes under water. */
static int64_t down_utc_ms(const struct plm_entry *entry)
{
    return entry->exposure.span.start_utc_ms + entry->exposure.span.wet_from_ms;
}

/* Which row the last dives point at. */
static int guideline_find(const struct plm_ledger_due *due)
{
    const struct plm_entry *last = due->past_count > 0 ? &due->past[due->past_count - 1] : NULL;
    int row = last != NULL ? 0 : -1;
    for (size_t i = 0; i < due->past_count; i++) {
        const struct plm_entry *entry = &due->past[i];
        int64_t apart_ms = down_utc_ms(last) - down_utc_ms(entry);
        if (apart_ms > SEVERAL_MS) {
            continue;
        }
        if (entry != last && row < 1) {
            row = 1;
        }
        if (!(entry->figures.owed_min <= 0)) {
            row = 2;
        }
    }
    return row;
}

struct plmi_due_view plmi_due_view_of(const struct plm_ledger_due *due, const struct plm_rules *rules)
{
    struct plmi_due_view view = {
        .due = due, .leading = 1, .hours_since_surfacing = (double)NAN, .guideline = guideline_find(due)};
    const struct plm_tissue *tissue = &due->residual.tissue;
    view.saturated_bar = plm_tissue_saturated(due->surface_bar, rules->water_vapour_bar, rules->air_n2_frac).n2_bar[0];
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        view.over_pct[i] = 100 * ((tissue->n2_bar[i] + tissue->he_bar[i]) / view.saturated_bar - 1);
        view.leading = view.over_pct[i] > view.over_pct[view.leading - 1] ? i + 1 : view.leading;
    }
    view.hours_to_saturation = plm_tissue_rest_s(tissue, rules->model, view.saturated_bar, NEAR_FRAC) / 3600;
    view.otu_run_allowed =
        due->residual.otu_run_days > 0 ? plmi_otu_total_allowed(due->residual.otu_run_days) : plmi_otu_total_allowed(1);
    if (due->past_count > 0) {
        const struct plm_entry *last = &due->past[due->past_count - 1];
        const struct plm_dive_span *span = &last->exposure.span;
        int64_t at_utc_ms = plm_stamp_utc_ms(&due->at);
        view.last_in_water = last->has_figures && isnan(last->figures.surfacing_gradient_pct);
        if (!view.last_in_water) {
            view.hours_since_surfacing = (double)(at_utc_ms - span->start_utc_ms - span->wet_to_ms) / 3600000;
        }
    }
    return view;
}

static void number_row(struct plmi_page *page, const char *label, double value, int digits, const char *unit,
                       const char *behind)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_number_write(&text, value, digits, unit);
    plmi_text_puts(&text, behind);
    plmi_page_made_row(page, label, &text);
}

static void tissues_write(struct plmi_page *page, const struct plmi_due_view *view)
{
    struct plmi_text text;
    plmi_page_heading(page, "TISSUES");
    if (view->last_in_water) {
        plmi_page_row(
            page, "last dive",
            "its record ends in the water: what it left is not all known, and all here is the least that it can be");
    }
    number_row(page, "leading", view->leading, 0, "",
               view->over_pct[view->leading - 1] >= 0.05 ? "" : " (none is over saturation)");
    plmi_text_init(&text);
    plmi_view_number_write(&text, view->hours_to_saturation, 1, "h");
    plmi_text_puts(&text, " until all are within 1 % of saturation with air");
    plmi_page_made_row(page, "to saturation", &text);
    plmi_text_puts(&text, "percent over saturation with air at ");
    plmi_number_fixed(&text, view->due->surface_bar, 5);
    plmi_text_puts(&text, " bar, compartments 1 to 16:");
    plmi_page_made_row(page, "inert gas", &text);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        struct plmi_text cell;
        plmi_text_init(&cell);
        plmi_view_change_write(&cell, view->over_pct[i], 1);
        if (i % 8 == 0) {
            plmi_text_puts(page->out, "  ");
        }
        plmi_page_made_cell(page, -8, &cell);
        if (i % 8 == 7) {
            plmi_page_line_end(page);
        }
    }
}

/* An oxygen clock; it is the least that it can be where minutes beyond its table are in it. */
static void clock_row(struct plmi_page *page, const char *label, double percent, const struct plm_start *carried)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_puts(&text, carried->cns_beyond_min > 0 ? "at least " : "");
    plmi_view_number_write(&text, percent, 1, "%");
    plmi_page_made_row(page, label, &text);
}

static void oxygen_write(struct plmi_page *page, const struct plmi_due_view *view)
{
    const struct plm_start *carried = &view->due->residual;
    struct plmi_text run;
    plmi_page_heading(page, "OXYGEN");
    clock_row(page, "CNS left", carried->cns_pct, carried);
    clock_row(page, "CNS of 24 h", carried->cns_day_pct, carried);
    if (carried->cns_beyond_min > 0) {
        number_row(page, "above the table", carried->cns_beyond_min, 1, "min",
                   " of oxygen in 24 h where no limit is published");
    }
    number_row(page, "OTU of 24 h", carried->otu_day, 1, "OTU", "");
    plmi_text_init(&run);
    plmi_text_puts(&run, " of ");
    plmi_number_fixed(&run, view->otu_run_allowed, 0);
    plmi_text_printf(&run, " that REPEX allows over %d day%s, this one included",
                     carried->otu_run_days > 0 ? carried->otu_run_days : 1, carried->otu_run_days > 1 ? "s" : "");
    number_row(page, "OTU of the run", carried->otu_run, 1, "OTU", run.bytes != NULL ? run.bytes : "");
    page->out->failed = page->out->failed || run.failed;
    plmi_text_free(&run);
    number_row(page, "ESOT of 24 h", carried->esot_day, 1, "", "");
}

static void flying_write(struct plmi_page *page, const struct plmi_due_view *view)
{
    plmi_page_heading(page, "SINCE THE LAST DIVE");
    number_row(page, "at the surface", view->hours_since_surfacing, 1, "h", "");
    plmi_text_puts(page->out, "  Published guideline on flying; > is what the last 48 h of diving point at:\n");
    for (int i = 0; i < PLMI_GUIDELINE_ROWS; i++) {
        plmi_text_puts(page->out, i == view->guideline ? "  > " : "    ");
        plmi_text_printf(page->out, "%s\n", plmi_guideline_rows[i]);
    }
    plmi_text_puts(page->out, "  ");
    plmi_page_wrap(page, 2, 2, plmi_guideline_source);
}

void plmi_ledger_due_text(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_due *due = what;
    struct plmi_due_view view = plmi_due_view_of(due, options->rules);
    struct plmi_page page = {.out = out, .colour = options->colour};
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_text_printf(out, "%s carries at ", due->diver);
    plmi_clock_write(out, &due->at);
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    plmi_page_line_end(&page);
    if (due->past_count == 0) {
        plmi_page_wrap(&page, 0, 0, "The ledger knows no dive before: saturated with air.");
    }
    plmi_page_wrap(&page, 0, 0, plmi_due_caution);
    tissues_write(&page, &view);
    oxygen_write(&page, &view);
    flying_write(&page, &view);
    plmi_ledger_cautions_text(&page, plmi_ledger_own_caution);
}

static void numbers_json(struct plmi_json *json, const char *key, const double numbers[PLM_COMPARTMENTS], int digits)
{
    plmi_json_array_begin(json, key);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        plmi_json_fixed(json, NULL, numbers[i], digits);
    }
    plmi_json_array_end(json);
}

static void flying_json(struct plmi_json *json, const struct plmi_due_view *view)
{
    plmi_json_object_begin(json, "flying_guideline");
    plmi_json_text(json, "text", view->guideline >= 0 ? plmi_guideline_rows[view->guideline] : NULL);
    plmi_json_text(json, "source", plmi_guideline_source);
    plmi_json_object_end(json);
}

void plmi_ledger_due_json(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_due *due = what;
    const struct plm_start *carried = &due->residual;
    struct plmi_due_view view = plmi_due_view_of(due, options->rules);
    struct plmi_json json;
    struct plmi_text at;
    plmi_text_init(&at);
    plmi_clock_write(&at, &due->at);
    plmi_json_init(&json, out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_text(&json, "diver", due->diver);
    plmi_json_text(&json, "at", at.bytes);
    numbers_json(&json, "n2_bar", carried->tissue.n2_bar, 6);
    numbers_json(&json, "he_bar", carried->tissue.he_bar, 6);
    plmi_json_fixed(&json, "cns_pct", carried->cns_pct, 1);
    plmi_json_fixed(&json, "otu_24h", carried->otu_day, 1);
    plmi_json_fixed(&json, "hours_since_surfacing", view.hours_since_surfacing, 2);
    plmi_json_bool(&json, "last_dive_ends_in_water", view.last_in_water);
    plmi_json_fixed(&json, "hours_to_saturation_within_1_pct", view.hours_to_saturation, 2);
    plmi_json_fixed(&json, "cns_day_pct", carried->cns_day_pct, 1);
    plmi_json_fixed(&json, "cns_beyond_24h_min", carried->cns_beyond_min, 1);
    plmi_json_fixed(&json, "esot_24h", carried->esot_day, 1);
    plmi_json_fixed(&json, "otu_run", carried->otu_run, 1);
    plmi_json_integer(&json, "otu_run_days", carried->otu_run_days);
    plmi_json_fixed(&json, "otu_run_allowed", view.otu_run_allowed, 0);
    plmi_json_fixed(&json, "surface_bar", due->surface_bar, 5);
    plmi_json_fixed(&json, "saturated_bar", view.saturated_bar, 6);
    numbers_json(&json, "over_saturation_pct", view.over_pct, 1);
    plmi_json_integer(&json, "leading_compartment", view.leading);
    flying_json(&json, &view);
    plmi_ledger_cautions_json(&json, plmi_due_caution);
    plmi_json_object_end(&json);
    plmi_text_puts(out, "\n");
    out->failed = out->failed || at.failed;
    plmi_text_free(&at);
}

void plmi_ledger_due_csv(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_due *due = what;
    struct plmi_due_view view = plmi_due_view_of(due, options->rules);
    const struct {
        const char *key;
        double value;
        int digits;
    } rows[] = {{"cns_pct", due->residual.cns_pct, 1},
                {"cns_day_pct", due->residual.cns_day_pct, 1},
                {"cns_beyond_24h_min", due->residual.cns_beyond_min, 1},
                {"otu_24h", due->residual.otu_day, 1},
                {"esot_24h", due->residual.esot_day, 1},
                {"otu_run", due->residual.otu_run, 1},
                {"otu_run_days", due->residual.otu_run_days, 0},
                {"otu_run_allowed", view.otu_run_allowed, 0},
                {"hours_since_surfacing", view.hours_since_surfacing, 2},
                {"hours_to_saturation_within_1_pct", view.hours_to_saturation, 2},
                {"surface_bar", due->surface_bar, 5},
                {"leading_compartment", view.leading, 0}};
    const size_t count = sizeof rows / sizeof rows[0];
    plmi_text_puts(out, "diver,at");
    for (size_t i = 0; i < count; i++) {
        plmi_text_printf(out, ",%s", rows[i].key);
    }
    for (int i = 1; i <= PLM_COMPARTMENTS; i++) {
        plmi_text_printf(out, ",n2_%d_bar", i);
    }
    for (int i = 1; i <= PLM_COMPARTMENTS; i++) {
        plmi_text_printf(out, ",he_%d_bar", i);
    }
    plmi_text_puts(out, "\n");
    plmi_csv_cell(out, due->diver);
    plmi_text_puts(out, ",");
    plmi_clock_write(out, &due->at);
    for (size_t i = 0; i < count; i++) {
        plmi_text_puts(out, ",");
        plmi_number_fixed(out, rows[i].value, rows[i].digits);
    }
    for (int i = 0; i < 2 * PLM_COMPARTMENTS; i++) {
        plmi_text_puts(out, ",");
        plmi_number_fixed(out,
                          i < PLM_COMPARTMENTS ? due->residual.tissue.n2_bar[i]
                                               : due->residual.tissue.he_bar[i - PLM_COMPARTMENTS],
                          6);
    }
    plmi_text_puts(out, "\n");
}
