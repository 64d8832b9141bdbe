/*
 * The figures on the page: loading, oxygen, gas; and what was assumed. Must not compute.
 * SPDX-License-Identifier: MIT
 */
#include "base/number.h"
#include "report/html/debrief.h"

static void group_begin(struct plmi_text *out, const char *title, const struct plmi_view *view,
                        enum plmi_sentence_group group)
{
    plmi_html_open(out, "div", "group");
    plmi_html_text(out, "h3", "", title);
    plmi_html_open(out, "dl", "");
    plmi_html_sentences(out, view, group);
    plmi_html_close(out, "dl");
}

static void bands_write(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "table", "bands");
    plmi_html_text(out, "caption", "", "Minutes above an oxygen pressure");
    plmi_text_puts(out, "<thead><tr><th scope=\"row\">bar</th>");
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_text_puts(out, "<th scope=\"col\" class=\"n\">");
        plmi_number_fixed(out, view->bands[i].limit_bar, 1);
        plmi_text_puts(out, "</th>");
    }
    plmi_text_puts(out, "</tr></thead>\n<tbody><tr><th scope=\"row\">min</th>");
    static const struct plmi_html_column column = {"", "n"};
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        plmi_html_number_cell(out, &column, view->bands[i].over_min, 1);
    }
    plmi_text_puts(out, "</tr>");
    plmi_html_table_end(out);
}

static void mixes_write(struct plmi_text *out, const struct plmi_view *view)
{
    static const struct plmi_html_column columns[] = {
        {"mix", ""}, {"mode", ""}, {"min", "n"}, {"from m", "n"}, {"to m", "n"}, {"set point", "n"}, {"to bar", "n"}};
    plmi_html_table_begin(out, "breathed", "Mixes breathed", columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < view->mix_count; i++) {
        const struct plmi_view_mix *mix = &view->mixes[i];
        plmi_text_puts(out, "<tr>");
        plmi_html_cell(out, &columns[0], mix->name);
        plmi_html_cell(out, &columns[1], mix->mode);
        plmi_html_number_cell(out, &columns[2], mix->minutes, 1);
        plmi_html_number_cell(out, &columns[3], mix->least_depth_m, 1);
        plmi_html_number_cell(out, &columns[4], mix->most_depth_m, 1);
        plmi_html_number_cell(out, &columns[5], mix->setpoint_low_bar, 2);
        plmi_html_number_cell(out, &columns[6], mix->setpoint_high_bar, 2);
        plmi_text_puts(out, "</tr>\n");
    }
    plmi_html_table_end(out);
}

void plmi_html_figures(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "section", "figures");
    plmi_html_text(out, "h2", "", "Figures");
    plmi_html_open(out, "div", "groups");
    group_begin(out, "Tissue loading", view, PLMI_SENTENCES_LOADING);
    plmi_html_close(out, "div");
    group_begin(out, "Oxygen", view, PLMI_SENTENCES_OXYGEN);
    bands_write(out, view);
    plmi_html_open(out, "dl", "");
    plmi_html_sentences(out, view, PLMI_SENTENCES_OXYGEN_ASIDE);
    plmi_html_close(out, "dl");
    plmi_html_close(out, "div");
    group_begin(out, "Gas breathed", view, PLMI_SENTENCES_GAS);
    mixes_write(out, view);
    plmi_html_close(out, "div");
    plmi_html_close(out, "div");
    plmi_html_close(out, "section");
}

void plmi_html_assumed(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "section", "assumed");
    plmi_html_text(out, "h2", "", "What was assumed");
    plmi_html_open(out, "dl", "");
    plmi_html_sentences(out, view, PLMI_SENTENCES_ASSUMED);
    plmi_html_close(out, "dl");
    plmi_html_close(out, "section");
}
