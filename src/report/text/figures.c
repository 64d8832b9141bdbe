/*
 * The figures of the text report and what was assumed, as rows of sentences with figures of the view in them.
 * Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/sentences.h"
#include "report/text/text.h"
#include "report/view/cells.h"

static void rows_write(struct plmi_page *page, const struct plmi_view *view, enum plmi_sentence_group group)
{
    struct plmi_text text;
    size_t count;
    const struct plmi_sentence *rows = plmi_sentences(group, &count);
    plmi_text_init(&text);
    for (size_t i = 0; i < count; i++) {
        if (!plmi_sentence_shown(view, &rows[i])) {
            continue;
        }
        plmi_view_sentence_write(&text, view, rows[i].sentence);
        plmi_page_made_row(page, rows[i].label, &text);
    }
}

static void loading_write(struct plmi_page *page, const struct plmi_view *view)
{
    plmi_page_heading(page, "TISSUE LOADING");
    rows_write(page, view, PLMI_SENTENCES_LOADING);
}

static void stop_row(struct plmi_page *page, double owed_min, double done_min, double difference_min)
{
    plmi_view_number_cell(page, 12, owed_min, 1);
    plmi_view_number_cell(page, 12, done_min, 1);
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_change_write(&text, difference_min, 1);
    plmi_page_made_cell(page, -17, &text);
    plmi_page_line_end(page);
}

static void stops_write(struct plmi_page *page, const struct plmi_view *view)
{
    if (view->stop_count == 0) {
        return;
    }
    plmi_page_cell(page, -10, "stop m");
    plmi_page_cell(page, -12, "owed min");
    plmi_page_cell(page, -12, "done min");
    plmi_page_cell(page, -17, "done less owed");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->stop_count; i++) {
        plmi_view_number_cell(page, 10, view->stops[i].depth_m, 1);
        stop_row(page, view->stops[i].owed_min, view->stops[i].done_min, view->stops[i].difference_min);
    }
    plmi_page_cell(page, -10, "all");
    stop_row(page, plmi_view_find(view, "owed_min")->value, plmi_view_find(view, "done_min")->value,
             plmi_view_find(view, "difference_min")->value);
}

static void decompression_write(struct plmi_page *page, const struct plmi_view *view)
{
    if (!view->decompression_known) {
        return;
    }
    plmi_page_heading(page, "DECOMPRESSION OWED AND DONE");
    rows_write(page, view, PLMI_SENTENCES_DECOMPRESSION);
    stops_write(page, view);
}

static void oxygen_write(struct plmi_page *page, const struct plmi_view *view)
{
    plmi_page_heading(page, "OXYGEN");
    rows_write(page, view, PLMI_SENTENCES_OXYGEN);
    plmi_page_cell(page, 22, "  Above bar");
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_view_number_cell(page, 8, view->bands[i].limit_bar, 1);
    }
    plmi_page_line_end(page);
    plmi_page_cell(page, 22, "  Minutes");
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_view_number_cell(page, 8, view->bands[i].over_min, 1);
    }
    plmi_page_line_end(page);
    rows_write(page, view, PLMI_SENTENCES_OXYGEN_ASIDE);
}

static void mix_write(struct plmi_page *page, const struct plmi_view_mix *mix)
{
    plmi_page_cell(page, 2, "");
    plmi_page_cell(page, 14, mix->name);
    plmi_page_cell(page, 10, mix->mode);
    plmi_view_number_cell(page, 9, mix->minutes, 1);
    plmi_view_number_cell(page, 12, mix->least_depth_m, 1);
    plmi_view_number_cell(page, 9, mix->most_depth_m, 1);
    plmi_view_number_cell(page, 13, mix->setpoint_low_bar, 2);
    plmi_view_number_cell(page, 9, mix->setpoint_high_bar, 2);
    plmi_page_line_end(page);
}

static void gas_write(struct plmi_page *page, const struct plmi_view *view)
{
    plmi_page_heading(page, "GAS BREATHED");
    rows_write(page, view, PLMI_SENTENCES_GAS);
    plmi_page_cell(page, 26, "  mix           mode");
    plmi_page_cell(page, -9, "minutes");
    plmi_page_cell(page, -12, "from m");
    plmi_page_cell(page, -9, "to m");
    plmi_page_cell(page, -13, "set point");
    plmi_page_cell(page, -9, "to bar");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->mix_count; i++) {
        mix_write(page, &view->mixes[i]);
    }
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
    plmi_page_heading(page, "ASSUMED");
    rows_write(page, view, PLMI_SENTENCES_ASSUMED);
}
