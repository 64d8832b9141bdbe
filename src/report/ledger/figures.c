/*
 * The figures of days and dives as tables, and how each is written. Must not know the order of any report.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/clock.h"
#include "base/number.h"
#include "report/ledger/view.h"
#include "report/view/view.h"
#include "report/output/whole.h"
#include "syntax/markup.h"

#define DAY_FIGURE(name, value)              \
    static double day_##name(const void *of) \
    {                                        \
        const struct plm_day *day = of;      \
        return value;                        \
    }

DAY_FIGURE(dives, (double)day->dives)
DAY_FIGURE(cns_pct, day->cns_pct)
DAY_FIGURE(cns_day_pct, day->cns_day_pct)
DAY_FIGURE(cns_beyond, day->cns_beyond_min)
DAY_FIGURE(po2, day->max_po2_bar)
DAY_FIGURE(otu, day->otu)
DAY_FIGURE(otu_allowed, day->otu_allowed)
DAY_FIGURE(esot, day->esot)
DAY_FIGURE(gradient, day->surfacing_gradient_pct)
DAY_FIGURE(runtime, day->runtime_s / 60)
DAY_FIGURE(depth, day->max_depth_m)
DAY_FIGURE(run_days, day->run_days)
DAY_FIGURE(otu_run, day->otu_run)
DAY_FIGURE(otu_run_allowed, day->otu_run_allowed)
DAY_FIGURE(otu_used, 100 * day->otu_run / day->otu_run_allowed)

static const struct plmi_ledger_figure day_rows[] = {
    {"dives", 0, day_dives, NULL},
    {"cns_pct", 1, day_cns_pct, day_cns_beyond},
    {"cns_day_pct", 1, day_cns_day_pct, day_cns_beyond},
    {"otu", 1, day_otu, NULL},
    {"otu_allowed", 0, day_otu_allowed, NULL},
    {"esot", 1, day_esot, NULL},
    {"surfacing_gradient_pct", 1, day_gradient, NULL},
    {"runtime_min", 1, day_runtime, NULL},
    {"max_depth_m", 1, day_depth, NULL},
    {"days_since_rest_day", 0, day_run_days, NULL},
    {"otu_run", 1, day_otu_run, NULL},
    {"otu_run_allowed", 0, day_otu_run_allowed, NULL},
    {"otu_run_used_pct", 1, day_otu_used, NULL},
    {"cns_beyond_min", 1, day_cns_beyond, NULL},
    {"max_po2_bar", 2, day_po2, NULL},
};

#define DIVE_FIGURE(name, value)              \
    static double dive_##name(const void *of) \
    {                                         \
        const struct plm_entry *entry = of;   \
        return value;                         \
    }

DIVE_FIGURE(runtime, (double)entry->exposure.span.duration_ms / 60000)
DIVE_FIGURE(depth, entry->figures.max_depth_m)
DIVE_FIGURE(mean, entry->figures.mean_depth_m)
DIVE_FIGURE(interval, entry->figures.surface_interval_s / 60)
DIVE_FIGURE(gradient, entry->figures.surfacing_gradient_pct)
DIVE_FIGURE(peak, entry->figures.peak_gradient_pct)
DIVE_FIGURE(cns_start, entry->figures.cns_start_pct)
DIVE_FIGURE(cns, entry->figures.cns_pct)
DIVE_FIGURE(cns_day, entry->figures.cns_day_before_pct + entry->figures.cns_day_pct)
DIVE_FIGURE(cns_beyond, entry->figures.cns_beyond_min)
DIVE_FIGURE(cns_beyond_before, entry->figures.cns_beyond_before_min)
DIVE_FIGURE(cns_beyond_24h, entry->figures.cns_beyond_before_min + entry->figures.cns_beyond_min)
DIVE_FIGURE(otu, entry->figures.otu)
DIVE_FIGURE(otu_day, entry->figures.otu_before + entry->figures.otu)
DIVE_FIGURE(esot, entry->figures.esot)
DIVE_FIGURE(po2, entry->figures.max_po2_bar)
DIVE_FIGURE(owed, entry->figures.owed_min)
DIVE_FIGURE(done, entry->figures.done_min)
DIVE_FIGURE(surface, entry->figures.surface_bar)
DIVE_FIGURE(records, (double)entry->exposure.record_count)

static const struct plmi_ledger_figure dive_rows[] = {
    {"runtime_min", 1, dive_runtime, NULL},
    {"max_depth_m", 1, dive_depth, NULL},
    {"mean_depth_m", 1, dive_mean, NULL},
    {"surface_interval_min", 1, dive_interval, NULL},
    {"surfacing_gradient_pct", 1, dive_gradient, NULL},
    {"peak_gradient_pct", 1, dive_peak, NULL},
    {"cns_start_pct", 1, dive_cns_start, dive_cns_beyond_before},
    {"cns_pct", 1, dive_cns, dive_cns_beyond_24h},
    {"cns_day_pct", 1, dive_cns_day, dive_cns_beyond_24h},
    {"otu", 1, dive_otu, NULL},
    {"otu_24h", 1, dive_otu_day, NULL},
    {"esot", 1, dive_esot, NULL},
    {"max_po2_bar", 2, dive_po2, NULL},
    {"owed_min", 1, dive_owed, NULL},
    {"done_min", 1, dive_done, NULL},
    {"surface_bar", 5, dive_surface, NULL},
    {"records", 0, dive_records, NULL},
    {"cns_beyond_min", 1, dive_cns_beyond, NULL},
    {"cns_beyond_24h_min", 1, dive_cns_beyond_24h, NULL},
};

const struct plmi_ledger_figures plmi_ledger_day_figures = {day_rows, sizeof day_rows / sizeof day_rows[0]};
const struct plmi_ledger_figures plmi_ledger_dive_figures = {dive_rows, sizeof dive_rows / sizeof dive_rows[0]};

const struct plmi_ledger_figure *plmi_ledger_figure_find(const struct plmi_ledger_figures *figures, const char *key)
{
    for (size_t i = 0; i < figures->count; i++) {
        if (strcmp(figures->rows[i].key, key) == 0) {
            return &figures->rows[i];
        }
    }
    assert(false && "a figure of this key");
    return &figures->rows[0];
}

void plmi_ledger_figure_write(struct plmi_text *out, const struct plmi_ledger_figure *figure, const void *of)
{
    plmi_view_least_write(out, figure->get(of), figure->digits, plmi_ledger_figure_least(figure, of));
}

bool plmi_ledger_figure_least(const struct plmi_ledger_figure *figure, const void *of)
{
    return figure->beyond_min != NULL && figure->beyond_min(of) > 0;
}

bool plmi_ledger_beyond_write(struct plmi_text *out, const struct plm_day *day)
{
    if (!(day->cns_beyond_min > 0)) {
        return false;
    }
    plmi_ledger_date_write(out, day->day);
    plmi_text_puts(out, ": ");
    plmi_view_number_write(out, day->cns_beyond_min, 1, "min");
    plmi_text_puts(out, " of oxygen above the table of limits within 24 h, ");
    plmi_view_number_write(out, day->max_po2_bar, 2, "bar");
    plmi_text_puts(out, " at the most on the day. No limit is published there: the clocks are at least so much (+).");
    return true;
}

void plmi_ledger_date_write(struct plmi_text *out, int64_t day)
{
    struct plm_stamp stamp = {.local_ms = day * 86400000, .known = true};
    plmi_clock_write(out, &stamp);
}

void plmi_ledger_start_write(struct plmi_text *out, const struct plm_dive_span *span)
{
    struct plm_stamp stamp = plm_stamp_of(span->start_utc_ms, span->offset_min);
    plmi_clock_write(out, &stamp);
}

size_t plmi_ledger_diver_run(const struct plm_ledger_listed *listed, size_t first)
{
    size_t end = first + 1;
    while (end < listed->dive_count &&
           strcmp(listed->dives[end].exposure.diver, listed->dives[first].exposure.diver) == 0) {
        end++;
    }
    return end - first;
}

void plmi_ledger_figures_json(struct plmi_json *json, const struct plmi_ledger_figures *figures, const void *of)
{
    for (size_t i = 0; i < figures->count; i++) {
        plmi_json_fixed(json, figures->rows[i].key, figures->rows[i].get(of), figures->rows[i].digits);
    }
}

void plmi_ledger_figures_head(struct plmi_text *out, const struct plmi_ledger_figures *figures)
{
    for (size_t i = 0; i < figures->count; i++) {
        plmi_text_printf(out, ",%s", figures->rows[i].key);
    }
}

void plmi_ledger_figures_cells(struct plmi_text *out, const struct plmi_ledger_figures *figures, const void *of)
{
    for (size_t i = 0; i < figures->count; i++) {
        plmi_text_puts(out, ",");
        plmi_number_fixed(out, figures->rows[i].get(of), figures->rows[i].digits);
    }
}

void plmi_ledger_findings_json(struct plmi_json *json, size_t serious, size_t caution, size_t note)
{
    plmi_json_object_begin(json, "findings");
    plmi_json_integer(json, "serious", (long long)serious);
    plmi_json_integer(json, "caution", (long long)caution);
    plmi_json_integer(json, "note", (long long)note);
    plmi_json_object_end(json);
}

void plmi_ledger_dive_json(struct plmi_json *json, const struct plm_entry *entry, bool with_diver)
{
    struct plmi_text start;
    plmi_text_init(&start);
    plmi_ledger_start_write(&start, &entry->exposure.span);
    plmi_json_object_begin(json, NULL);
    plmi_json_integer(json, "dive", entry->exposure.id);
    if (with_diver) {
        plmi_json_text(json, "diver", entry->exposure.diver);
    }
    plmi_json_text(json, "start", start.bytes);
    plmi_json_text(json, "log", entry->exposure.log_name);
    plmi_json_text(json, "sha256", entry->exposure.log_sha256);
    plmi_json_integer(json, "index", entry->exposure.log_index);
    plmi_ledger_figures_json(json, &plmi_ledger_dive_figures, entry);
    plmi_ledger_findings_json(json, entry->figures.serious, entry->figures.caution, entry->figures.note);
    plmi_json_text(json, "worst", entry->figures.worst);
    plmi_json_text(json, "program", entry->figures.program);
    plmi_json_object_end(json);
    json->out->failed = json->out->failed || start.failed;
    plmi_text_free(&start);
}

void plmi_ledger_cautions_json(struct plmi_json *json, const char *own)
{
    plmi_json_array_begin(json, "cautions");
    plmi_json_text(json, NULL, own);
    for (size_t i = 0; i < plmi_standing_caution_count; i++) {
        plmi_json_text(json, NULL, plmi_standing_cautions[i]);
    }
    plmi_json_array_end(json);
}
