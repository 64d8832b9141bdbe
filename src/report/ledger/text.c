/*
 * The ledger for people: who dived, a diver's days, their oxygen, the dives. 80 columns.
 * Must not hold a figure that the tables of figures lack.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/ledger/view.h"
#include "report/view/view.h"
#include "report/output/whole.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

const char plmi_ledger_own_caution[] =
    "The ledger knows the logs that were added to it and no others: a dive that is missing is missing in every figure.";

void plmi_ledger_cautions_text(struct plmi_page *page, const char *own)
{
    plmi_whole_cautions(page, plmi_standing_cautions, plmi_standing_caution_count);
    plmi_text_puts(page->out, "  - ");
    plmi_page_wrap(page, 4, 4, own);
}

void plmi_ledger_heads_write(struct plmi_page *page, int first_width, const char *first,
                             const struct plmi_ledger_column *columns, size_t count)
{
    plmi_text_puts(page->out, "  ");
    plmi_page_cell(page, first_width, first);
    for (size_t i = 0; i < count; i++) {
        plmi_page_cell(page, -columns[i].width, columns[i].head);
    }
    plmi_page_line_end(page);
    plmi_text_puts(page->out, "  ");
    plmi_page_cell(page, first_width, "");
    for (size_t i = 0; i < count; i++) {
        plmi_page_cell(page, -columns[i].width, columns[i].unit);
    }
    plmi_page_line_end(page);
}

void plmi_ledger_cells_write(struct plmi_page *page, const struct plmi_ledger_figures *figures,
                             const struct plmi_ledger_column *columns, size_t count, const void *of)
{
    for (size_t i = 0; i < count; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        plmi_ledger_figure_write(&text, plmi_ledger_figure_find(figures, columns[i].key), of);
        plmi_page_made_cell(page, -columns[i].width, &text);
    }
}

/* A cell flush left of what a writer writes. */
#define TEXT_CELL(page, width, write)             \
    do {                                          \
        struct plmi_text cell_;                   \
        plmi_text_init(&cell_);                   \
        write;                                    \
        plmi_page_made_cell(page, width, &cell_); \
    } while (0)

static void days_write(struct plmi_page *page, const struct plm_ledger_shown *shown)
{
    static const struct plmi_ledger_column columns[] = {{"dives", "", "dives", 6},
                                                        {"runtime", "min", "runtime_min", 9},
                                                        {"deepest", "m", "max_depth_m", 9},
                                                        {"surfacing", "gradient %", "surfacing_gradient_pct", 12}};
    plmi_page_heading(page, "DAY BY DAY");
    plmi_ledger_heads_write(page, 10, "", columns, LENGTH(columns));
    for (size_t i = 0; i < shown->day_count; i++) {
        const struct plm_day *day = &shown->days[i];
        plmi_text_puts(page->out, "  ");
        TEXT_CELL(page, 10, plmi_ledger_date_write(&cell_, day->day));
        plmi_ledger_cells_write(page, &plmi_ledger_day_figures, columns, LENGTH(columns), day);
        plmi_text_puts(page->out, "  ");
        plmi_page_tone(page, day->serious > 0   ? PLMI_PAGE_SERIOUS
                             : day->caution > 0 ? PLMI_PAGE_CAUTION
                                                : PLMI_PAGE_PLAIN);
        plmi_view_counts_write(page->out, day->serious, day->caution, day->note);
        plmi_page_tone(page, PLMI_PAGE_PLAIN);
        plmi_page_line_end(page);
    }
}

static void oxygen_write(struct plmi_page *page, const struct plm_ledger_shown *shown)
{
    static const struct plmi_ledger_column columns[] = {{"CNS", "%", "cns_pct", 7},
                                                        {"CNS 24 h", "%", "cns_day_pct", 9},
                                                        {"OTU", "day", "otu", 7},
                                                        {"share", "of day", "otu_allowed", 7},
                                                        {"days", "of run", "days_since_rest_day", 7},
                                                        {"OTU", "of run", "otu_run", 8},
                                                        {"allowed", "by REPEX", "otu_run_allowed", 9},
                                                        {"used", "%", "otu_run_used_pct", 6},
                                                        {"ESOT", "day", "esot", 8}};
    plmi_page_heading(page, "OXYGEN");
    plmi_ledger_heads_write(page, 10, "", columns, LENGTH(columns));
    for (size_t i = 0; i < shown->day_count; i++) {
        plmi_text_puts(page->out, "  ");
        TEXT_CELL(page, 10, plmi_ledger_date_write(&cell_, shown->days[i].day));
        plmi_ledger_cells_write(page, &plmi_ledger_day_figures, columns, LENGTH(columns), &shown->days[i]);
        plmi_page_line_end(page);
    }
    plmi_text_puts(page->out, "  ");
    plmi_page_wrap(page, 2, 2,
                   "CNS: highest at the end of a dive, what was carried into it included; over 24 hours by the table's "
                   "second limit. A run "
                   "of days ends with a day without a dive. Allowed by REPEX (Hamilton, Kenyon, Peterson, NOAA 1988) "
                   "over as many days; a "
                   "day's share is that by the number of days. ESOT is told without a limit.");
}

/* Days on which the clocks are the least that they can be. */
static void beyond_write(struct plmi_page *page, const struct plm_ledger_shown *shown)
{
    for (size_t i = 0; i < shown->day_count; i++) {
        struct plmi_text text;
        plmi_text_init(&text);
        if (plmi_ledger_beyond_write(&text, &shown->days[i])) {
            plmi_text_puts(page->out, "  ");
            plmi_page_made_wrap(page, 2, 2, &text);
        }
    }
}

static void dives_write(struct plmi_page *page, const struct plm_entry *dives, size_t count)
{
    static const struct plmi_ledger_column columns[] = {{"deepest", "m", "max_depth_m", 8},
                                                        {"runtime", "min", "runtime_min", 9},
                                                        {"interval", "min", "surface_interval_min", 10},
                                                        {"surf.", "%", "surfacing_gradient_pct", 7},
                                                        {"CNS", "%", "cns_pct", 7},
                                                        {"OTU", "", "otu", 7},
                                                        {"re-", "cords", "records", 6}};
    plmi_page_heading(page, "DIVES");
    plmi_ledger_heads_write(page, 24, " dive  start", columns, LENGTH(columns));
    for (size_t i = 0; i < count; i++) {
        const struct plm_figures *figures = &dives[i].figures;
        plmi_text_puts(page->out, "  ");
        TEXT_CELL(page, -5, plmi_text_printf(&cell_, "%lld", (long long)dives[i].exposure.id));
        plmi_text_puts(page->out, "  ");
        TEXT_CELL(page, 17, {
            plmi_ledger_start_write(&cell_, &dives[i].exposure.span);
            if (cell_.count > 16) {
                cell_.bytes[16] = '\0';
            }
        });
        plmi_ledger_cells_write(page, &plmi_ledger_dive_figures, columns, LENGTH(columns), &dives[i]);
        plmi_page_line_end(page);
        if (figures->serious + figures->caution == 0) {
            continue;
        }
        plmi_text_puts(page->out, "         ");
        plmi_page_tone(page, figures->serious > 0 ? PLMI_PAGE_SERIOUS : PLMI_PAGE_CAUTION);
        plmi_view_counts_write(page->out, figures->serious, figures->caution, figures->note);
        plmi_page_tone(page, PLMI_PAGE_PLAIN);
        plmi_page_line_end(page);
        if (figures->worst != NULL) {
            plmi_text_puts(page->out, "         ");
            plmi_page_wrap(page, 9, 9, figures->worst);
        }
    }
}

void plmi_ledger_headline_write(struct plmi_text *out, const struct plm_ledger_shown *shown)
{
    plmi_text_printf(out, "%s: %zu dive%s on %zu day%s", shown->diver, shown->dive_count,
                     shown->dive_count == 1 ? "" : "s", shown->day_count, shown->day_count == 1 ? "" : "s");
}

void plmi_ledger_show_text(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_shown *shown = what;
    struct plmi_page page = {.out = out, .colour = options->colour};
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_ledger_headline_write(out, shown);
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    plmi_page_line_end(&page);
    if (shown->day_count > 0) {
        days_write(&page, shown);
        oxygen_write(&page, shown);
        beyond_write(&page, shown);
        dives_write(&page, shown->dives, shown->dive_count);
    }
    plmi_ledger_cautions_text(&page, plmi_ledger_own_caution);
}

void plmi_ledger_list_text(struct plmi_text *out, const void *what, const struct plm_report_options *options)
{
    const struct plm_ledger_listed *listed = what;
    struct plmi_page page = {.out = out, .colour = options->colour};
    size_t divers = 0;
    for (size_t i = 0; i < listed->dive_count; i += plmi_ledger_diver_run(listed, i)) {
        divers++;
    }
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_text_printf(out, "%zu diver%s, %zu dive%s", divers, divers == 1 ? "" : "s", listed->dive_count,
                     listed->dive_count == 1 ? "" : "s");
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    plmi_page_line_end(&page);
    for (size_t i = 0; i < listed->dive_count; i += plmi_ledger_diver_run(listed, i)) {
        size_t count = plmi_ledger_diver_run(listed, i);
        plmi_page_heading(&page, listed->dives[i].exposure.diver);
        for (size_t k = i; k < i + count; k++) {
            const struct plm_exposure *exposure = &listed->dives[k].exposure;
            plmi_text_puts(out, "  ");
            TEXT_CELL(&page, -5, plmi_text_printf(&cell_, "%lld", (long long)exposure->id));
            plmi_text_puts(out, "  ");
            TEXT_CELL(&page, 27, plmi_ledger_start_write(&cell_, &exposure->span));
            TEXT_CELL(&page, -6,
                      plmi_ledger_figure_write(&cell_,
                                               plmi_ledger_figure_find(&plmi_ledger_dive_figures, "max_depth_m"),
                                               &listed->dives[k]));
            plmi_text_printf(out, " m  %s, dive %d", exposure->log_name, exposure->log_index);
            if (exposure->record_count > 1) {
                plmi_text_printf(out, "; %zu records", exposure->record_count);
            }
            plmi_page_line_end(&page);
        }
    }
    plmi_ledger_cautions_text(&page, plmi_ledger_own_caution);
}
