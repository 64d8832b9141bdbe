/*
 * The figures of the text report and what was assumed, as rows of sentences with figures of the view in them.
 * Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/text.h"

/* A labelled sentence that is told where the item of `known` has a value, and a value that suits. */
enum told { KNOWN, ABOVE_ZERO, ZERO, POSITIVE, NEGATIVE, UNKNOWN };
struct row { const char *label, *known, *sentence; enum told told; };

static bool row_told(const struct plmi_view *view, const struct row *row)
{
    const struct plmi_view_item *item = plmi_view_find(view, row->known);
    switch (row->told) {
    case UNKNOWN: return isnan(item->value);
    case NEGATIVE: return item->value < 0;
    case POSITIVE: return item->value >= 0;
    case ABOVE_ZERO: return item->value > 0;
    case ZERO: return fabs(item->value) <= 0;
    case KNOWN: break;
    }
    if (item->style == PLMI_VIEW_TEXT)
        return item->text != NULL;
    return item->style == PLMI_VIEW_FLAG ? item->value > 0 : !isnan(item->value);
}

static void rows_write(struct plmi_page *page, const struct plmi_view *view, const struct row *rows, size_t count)
{
    struct plmi_text text;
    plmi_text_init(&text);
    for (size_t i = 0; i < count; i++) {
        if (!row_told(view, &rows[i]))
            continue;
        plmi_text_clear(&text);
        plmi_view_sentence_write(&text, view, rows[i].sentence);
        plmi_page_row(page, rows[i].label, text.bytes != NULL ? text.bytes : "");
        page->out->failed = page->out->failed || text.failed;
    }
    plmi_text_free(&text);
}

static void number_cell(struct plmi_page *page, int width, double value, int digits)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_number_write(&text, value, digits, "");
    plmi_page_cell(page, width, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static void loading_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct row rows[] = {
        {"At the surface", "surfacing_gradient_pct", "{surfacing_gradient_pct} of the M-value gradient, compartment {surfacing_compartment}", KNOWN},
        {"Highest", "peak_gradient_pct", "{peak_gradient_pct} at {peak_at_s}, {peak_depth_m}, compartment {leading_compartment}", KNOWN},
        {"Deepest ceiling", "deepest_ceiling_m", "{deepest_ceiling_m}", ABOVE_ZERO},
        {"Deepest ceiling", "deepest_ceiling_m", "none: the surface was open throughout", ZERO},
        {"Nearest to ceiling", "min_clearance_m", "{min_clearance_m} below it, at {min_clearance_at_s}", POSITIVE},
        {"Nearest to ceiling", "min_clearance_m", "{min_clearance_m}: above it, at {min_clearance_at_s}", NEGATIVE},
        {"Gradients achieved", "achieved_gf_low_pct",
         "{achieved_gf_low_pct} low, {achieved_gf_high_pct} high: by these, and by none more cautious, the dive breaks no ceiling", KNOWN},
        {"Gradients achieved", "achieved_gf_low_pct", "{achieved_gf_high_pct} high, and no low passes the dive without a ceiling broken", UNKNOWN},
    };
    plmi_page_heading(page, "TISSUE LOADING");
    rows_write(page, view, rows, sizeof rows / sizeof rows[0]);
}

static void stop_row(struct plmi_page *page, double owed_min, double done_min, double difference_min)
{
    number_cell(page, -12, owed_min, 1);
    number_cell(page, -12, done_min, 1);
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_change_write(&text, difference_min, 1);
    plmi_page_cell(page, -17, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
    plmi_page_line_end(page);
}

static void stops_write(struct plmi_page *page, const struct plmi_view *view)
{
    if (view->stop_count == 0)
        return;
    plmi_page_cell(page, -10, "stop m");
    plmi_page_cell(page, -12, "owed min");
    plmi_page_cell(page, -12, "done min");
    plmi_page_cell(page, -17, "done less owed");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->stop_count; i++) {
        number_cell(page, -10, view->stops[i].depth_m, 1);
        stop_row(page, view->stops[i].owed_min, view->stops[i].done_min, view->stops[i].difference_min);
    }
    plmi_page_cell(page, -10, "all");
    stop_row(page, plmi_view_find(view, "owed_min")->value, plmi_view_find(view, "done_min")->value,
             plmi_view_find(view, "difference_min")->value);
}

static void decompression_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct row rows[] = {
        {"Bottom left", "bottom_end_s", "at {bottom_end_s} from {bottom_end_depth_m}", KNOWN},
        {"Owed then", "owed_min", "{owed_min} of stops; {tts_s} to the surface, travel included", KNOWN},
        {"Done since", "done_min", "{done_min} at these stops; {ascent_s} to the surface", KNOWN},
        {"One more minute", "deco_cost_min_per_min", "there would have cost {deco_cost_min_per_min} more of decompression", KNOWN},
        {"On bail-out", "bailout_tts_s", "{bailout_tts_s} to the surface, had the loop been left there for the open-circuit mixes carried", KNOWN},
    };
    if (!view->decompression_known)
        return;
    plmi_page_heading(page, "DECOMPRESSION OWED AND DONE");
    rows_write(page, view, rows, sizeof rows / sizeof rows[0]);
    stops_write(page, view);
}

static void oxygen_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct row rows[] = {
        {"CNS clock", "cns_pct", "{cns_pct} of a single exposure, {cns_day_pct} of 24 hours", KNOWN},
        {"Dose", "otu", "{otu}; ESOT {esot}", KNOWN},
        {"Oxygen pressure", "max_po2_bar", "lowest {min_po2_bar} at {min_po2_at_s}, highest {max_po2_bar} at {max_po2_at_s}", KNOWN},
    };
    plmi_page_heading(page, "OXYGEN");
    rows_write(page, view, rows, sizeof rows / sizeof rows[0]);
    plmi_page_cell(page, 22, "  Above bar");
    for (int i = 0; i < PLM_PO2_BANDS; i++)
        number_cell(page, -8, view->bands[i].limit_bar, 1);
    plmi_page_line_end(page);
    plmi_page_cell(page, 22, "  Minutes");
    for (int i = 0; i < PLM_PO2_BANDS; i++)
        number_cell(page, -8, view->bands[i].over_min, 1);
    plmi_page_line_end(page);
    if (plmi_view_find(view, "at_1_3_min")->value > 0) {
        static const struct row guideline = {
            "At 1.3 bar", "at_1_3_min",
            "{at_1_3_min} at 1.25 to 1.35 bar. For information: a guideline of 2025 (Hoyt et al.) accepts at 1.3 alone "
            "240 min of work with 240 min of resting decompression", KNOWN};
        rows_write(page, view, &guideline, 1);
    }
}

static void mix_write(struct plmi_page *page, const struct plmi_view_mix *mix)
{
    plmi_page_cell(page, 2, "");
    plmi_page_cell(page, 14, mix->name);
    plmi_page_cell(page, 10, mix->mode);
    number_cell(page, -9, mix->minutes, 1);
    number_cell(page, -12, mix->least_depth_m, 1);
    number_cell(page, -9, mix->most_depth_m, 1);
    number_cell(page, -13, mix->setpoint_low_bar, 2);
    number_cell(page, -9, mix->setpoint_high_bar, 2);
    plmi_page_line_end(page);
}

static void gas_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct row rows[] = {
        {"Density", "max_density_g_l",
         "{max_density_g_l} at the most, at {max_density_at_s}; {density_note_min} above {density_note_g_l}, {density_caution_min} above "
         "{density_caution_g_l}", KNOWN},
        {"Narcotic depth", "max_end_m", "{max_end_m} at the most", KNOWN},
    };
    plmi_page_heading(page, "GAS BREATHED");
    rows_write(page, view, rows, sizeof rows / sizeof rows[0]);
    plmi_page_cell(page, 26, "  mix           mode");
    plmi_page_cell(page, -9, "minutes");
    plmi_page_cell(page, -12, "from m");
    plmi_page_cell(page, -9, "to m");
    plmi_page_cell(page, -13, "set point");
    plmi_page_cell(page, -9, "to bar");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->mix_count; i++)
        mix_write(page, &view->mixes[i]);
}

void plmi_text_report_figures(struct plmi_page *page, const struct plmi_view *view)
{
    loading_write(page, view);
    decompression_write(page, view);
    oxygen_write(page, view);
    gas_write(page, view);
}

void plmi_text_report_assumed(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct row rows[] = {
        {"Model", "model", "{model}, gradient factors {gf_low_pct} low, {gf_high_pct} high", KNOWN},
        {"At the start", "start_from", "{start_from}; CNS {start_cns_pct}", KNOWN},
        {"Surface pressure", "surface_bar", "{surface_bar} ({surface_from})", KNOWN},
        {"Depth shown by", "water_kg_m3", "{water_kg_m3} ({water_from})", KNOWN},
        {"Oxygen pressure", "oxygen_from", "by {oxygen_from}", KNOWN},
        {"Schedules", "stop_step_m",
         "stops every {stop_step_m}, the last at {last_stop_m}, ascent {schedule_rate_m_min}, stop mixes to {deco_po2_max_bar} of oxygen", KNOWN},
        {"Tolerance", "tolerance_depth_m", "of the recorder: half its step, at least {tolerance_depth_m}, and {tolerance_depth_pct} of depth", KNOWN},
        {"Log", "samples", "{samples} samples, read as {format}", KNOWN},
        {"SHA-256", "sha256", "{sha256}", KNOWN},
    };
    plmi_page_heading(page, "ASSUMED");
    rows_write(page, view, rows, sizeof rows / sizeof rows[0]);
}
