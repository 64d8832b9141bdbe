/*
 * The debrief for a person: who and when, the answer, the figures, what was assumed, the cautions. 80 columns.
 * Must not hold a figure that the view lacks.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/output/whole.h"
#include "report/text/plot.h"
#include "report/text/text.h"
#include "report/view/writer.h"

#define PLOT_ROWS 14

static void title_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const char *const keys[] = {"start", "diver", "site", "recorder"};
    struct plmi_text line;
    plmi_text_init(&line);
    plmi_view_sentence_write(&line, view, "{file}, dive {index}");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const struct plmi_view_item *item = plmi_view_find(view, keys[i]);
        if (item->text != NULL) {
            plmi_text_printf(&line, ", %s", item->text);
        }
    }
    plmi_page_tone(page, PLMI_PAGE_HEADING);
    plmi_page_made_wrap(page, 0, 2, &line);
    plmi_page_tone(page, PLMI_PAGE_PLAIN);
    plmi_view_sentence_write(&line, view,
                             "To {max_depth_m} at {max_depth_at_s}; {duration_s} recorded, {mean_depth_m} on average");
    if (!isnan(plmi_view_find(view, "ends_in_water_m")->value)) {
        plmi_view_sentence_write(&line, view, "; the record ends in the water, at {ends_in_water_m}");
    }
    plmi_page_made_wrap(page, 0, 2, &line);
    for (size_t i = 0; i < view->basis_count; i++) {
        plmi_page_wrap(page, 0, 2, view->basis[i]);
    }
}

static void picture_write(struct plmi_page *page, const struct plmi_view *view,
                          const struct plm_report_options *options)
{
    const struct plmi_plot_options plot = {
        .columns = options->columns, .rows = PLOT_ROWS, .ascii = options->ascii, .legend = true};
    plmi_text_puts(page->out, "\n");
    plmi_plot_write(page, view, &plot);
}

static void text_add(struct plm_report *report, const struct plmi_view *view)
{
    struct plmi_page page = {.out = &report->out, .colour = report->options.colour};
    if (report->dives > 0) {
        plmi_text_puts(&report->out, "\n\n");
    }
    title_write(&page, view);
    picture_write(&page, view, &report->options);
    plmi_text_report_findings(&page, view, report->options.verbose);
    plmi_text_report_cells(&page, view);
    plmi_text_report_plan(&page, view);
    plmi_text_report_figures(&page, view);
    plmi_text_report_assumed(&page, view);
    if (report->options.verbose && view->debriefed->verdict != NULL) {
        plmi_text_report_verdict(&page, view->debriefed->verdict);
    }
    plmi_whole_cautions(&page, view->cautions, view->caution_count);
}

const struct plmi_writer plmi_writer_text = {
    .add_view = text_add,
};
