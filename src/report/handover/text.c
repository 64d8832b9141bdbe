/*
 * The handover as plain text: 80 columns, and for one dive no more than 66 lines. Must not hold a figure that the view
 * lacks.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/handover/handover.h"
#include "report/text/plot.h"
#include "report/view/cells.h"
#include "report/output/whole.h"

#define LABEL_COLUMNS 14
#define PLOT_ROWS     8
#define PAGE_LINES    66

static void fact(struct plmi_page *page, const char *label, const char *text)
{
    plmi_page_cell(page, LABEL_COLUMNS, label);
    plmi_page_wrap(page, LABEL_COLUMNS, LABEL_COLUMNS, text[0] != '\0' ? text : "-");
}

static void fact_words(struct plmi_page *page, const struct plmi_view *view, const char *label,
                       void (*words)(struct plmi_text *, const struct plmi_view *))
{
    struct plmi_text text;
    plmi_text_init(&text);
    words(&text, view);
    fact(page, label, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static void fact_item(struct plmi_page *page, const struct plmi_view *view, const char *label, const char *key)
{
    const char *text = plmi_view_find(view, key)->text;
    fact(page, label, text != NULL ? text : "not recorded");
}

static void mix_row(struct plmi_page *page, const struct plmi_view_mix *mix)
{
    plmi_page_cell(page, LABEL_COLUMNS, "");
    plmi_page_cell(page, 10, mix->name);
    plmi_page_cell(page, 11, mix->mode);
    plmi_view_number_cell(page, 6, 100 * mix->o2_frac, 1);
    plmi_view_number_cell(page, 7, 100 * mix->he_frac, 1);
    plmi_view_number_cell(page, 8, mix->minutes, 1);
    plmi_view_number_cell(page, 7, mix->least_depth_m, 1);
    plmi_view_number_cell(page, 7, mix->most_depth_m, 1);
    if (!isnan(mix->setpoint_high_bar)) {
        plmi_view_number_cell(page, 8, mix->setpoint_high_bar, 2);
    }
    plmi_page_line_end(page);
}

static void mixes_write(struct plmi_page *page, const struct plmi_view *view)
{
    static const struct {
        int width;
        const char *head;
    } heads[] = {{LABEL_COLUMNS, "Breathed"},
                 {10, "mix"},
                 {11, "mode"},
                 {-6, "O2 %"},
                 {-7, "He %"},
                 {-8, "min"},
                 {-7, "from m"},
                 {-7, "to m"},
                 {-8, "set bar"}};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        plmi_page_cell(page, heads[i].width, heads[i].head);
    }
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->mix_count && i < PLMI_HANDOVER_MIXES_MAX; i++) {
        mix_row(page, &view->mixes[i]);
    }
    if (view->mix_count > PLMI_HANDOVER_MIXES_MAX) {
        plmi_page_cell(page, LABEL_COLUMNS, "");
        plmi_text_printf(page->out, "and %zu more\n", view->mix_count - PLMI_HANDOVER_MIXES_MAX);
    }
}

static void depths_write(struct plmi_page *page, const struct plmi_view *view)
{
    const size_t room = 10;
    size_t first = view->depth_count > room ? 1 : 0;
    plmi_page_cell(page, LABEL_COLUMNS, "Deeper than m");
    for (size_t i = first; i < view->depth_count && i - first < room; i++) {
        plmi_view_number_cell(page, 6, view->depths[i].deeper_m, 0);
    }
    plmi_page_line_end(page);
    plmi_page_cell(page, LABEL_COLUMNS, "minutes");
    for (size_t i = first; i < view->depth_count && i - first < room; i++) {
        plmi_view_number_cell(page, 6, view->depths[i].minutes, 1);
    }
    plmi_page_line_end(page);
}

static void dive_write(struct plmi_text *out, const struct plm_report_options *options, const struct plmi_view *view)
{
    struct plmi_page page = {.out = out, .colour = options->colour};
    const struct plmi_plot_options plot = {.columns = PLMI_PAGE_COLUMNS, .rows = PLOT_ROWS, .ascii = options->ascii};
    plmi_page_tone(&page, PLMI_PAGE_HEADING);
    plmi_text_puts(out, "FOR THE DIVING DOCTOR OR THE EMERGENCY SERVICE: facts of a dive, no diagnosis\n");
    plmi_page_tone(&page, PLMI_PAGE_PLAIN);
    fact(&page, "Diver", plmi_handover_diver(options, view));
    fact_words(&page, view, "Dived", plmi_handover_when);
    fact_item(&page, view, "Where", "site");
    fact_item(&page, view, "Recorder", "recorder");
    fact_words(&page, view, "Log", plmi_handover_log);
    fact_words(&page, view, "Stands on", plmi_handover_basis);
    plmi_text_puts(out, "\n");
    plmi_plot_write(&page, view, &plot);
    mixes_write(&page, view);
    depths_write(&page, view);
    fact_words(&page, view, "Decompression", plmi_handover_decompression);
    fact_words(&page, view, "Ceiling", plmi_handover_ceiling);
    fact_words(&page, view, "Ascent", plmi_handover_ascent);
    fact_words(&page, view, "Oxygen", plmi_handover_oxygen);
    fact_words(&page, view, "Tissues", plmi_handover_tissues);
    fact_words(&page, view, "Gas", plmi_handover_gas);
}

static void earlier_row(struct plmi_page *page, const struct plmi_handover_row *row)
{
    struct plmi_text cell;
    plmi_text_init(&cell);
    plmi_page_cell(page, LABEL_COLUMNS, "");
    plmi_handover_began(&cell, &row->dive->start);
    plmi_page_made_cell(page, 18, &cell);
    plmi_view_duration_write(&cell, row->dive->surfaced_s);
    plmi_page_made_cell(page, -8, &cell);
    plmi_view_number_cell(page, 8, row->dive->max_depth_m, 1);
    plmi_view_number_cell(page, 10, row->hours_before, 1);
    plmi_view_number_cell(page, 11, row->dive->surfacing_gradient_pct, 1);
    plmi_view_least_cell(page, 8, row->dive->cns_pct, 1, row->dive->cns_at_least);
    plmi_page_line_end(page);
}

static void earlier_write(struct plmi_page *page, const struct plmi_handover *handover)
{
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more, count = plmi_handover_earlier(handover, rows, &more);
    size_t same = plmi_handover_same_dive(handover), untimed = plmi_handover_untimed(handover);
    plmi_page_cell(page, LABEL_COLUMNS, "48 h before");
    if (count == 0) {
        plmi_text_printf(page->out, "%s\n", plmi_handover_none(handover));
    } else {
        plmi_text_puts(page->out, "began               lasted    to m   h before  gradient %   CNS %\n");
    }
    bool least = false;
    for (size_t i = 0; i < count; i++) {
        earlier_row(page, &rows[i]);
        least = least || rows[i].dive->cns_at_least;
    }
    if (least) {
        fact(page, "", plmi_view_least);
    }
    if (count > 0 && !handover->carried) {
        fact(page, "", plmi_handover_not_carried);
    }
    const struct {
        size_t count;
        const char *what;
    } others[] = {{more, "more, earlier, within the 48 hours"},
                  {same, "more record of this same dive"},
                  {untimed, "more without a time of day"}};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (others[i].count > 0) {
            plmi_page_cell(page, LABEL_COLUMNS, "");
            plmi_text_printf(page->out, "%zu %s\n", others[i].count, others[i].what);
        }
    }
}

/* spare: lines of the page that nothing else needs. */
static void blanks_write(struct plmi_page *page, int spare)
{
    for (size_t i = 0; i < plmi_handover_blank_count; i++) {
        const struct plmi_handover_blank *blank = &plmi_handover_blanks[i];
        int more = spare < 0 ? 0 : spare < blank->more ? spare : blank->more;
        spare -= more;
        plmi_text_printf(page->out, "%s:\n", blank->label);
        for (int line = 0; line < blank->lines + more; line++) {
            for (int column = 0; column < PLMI_PAGE_COLUMNS; column++) {
                plmi_text_puts(page->out, "_");
            }
            plmi_text_puts(page->out, "\n");
        }
    }
}

/* Sentences as one paragraph. */
static void paragraph_write(struct plmi_page *page, const char *label, const char *const *sentences, size_t count)
{
    struct plmi_text text;
    plmi_text_init(&text);
    for (size_t i = 0; i < count; i++) {
        plmi_text_printf(&text, "%s%s", i > 0 ? " " : "", sentences[i]);
    }
    fact(page, label, text.bytes != NULL ? text.bytes : "");
    page->out->failed = page->out->failed || text.failed;
    plmi_text_free(&text);
}

static int lines_of(const struct plmi_text *text)
{
    int lines = 0;
    for (size_t i = 0; i < text->count; i++) {
        lines += text->bytes[i] == '\n';
    }
    return lines;
}

static int blank_lines(void)
{
    int lines = 2; /* before and behind */
    for (size_t i = 0; i < plmi_handover_blank_count; i++) {
        lines += 1 + plmi_handover_blanks[i].lines;
    }
    return lines;
}

static void rest_write(struct plmi_text *out, const struct plm_report_options *options,
                       const struct plmi_handover *handover)
{
    struct plmi_page page = {.out = out, .colour = options->colour};
    struct plmi_text foot;
    struct plmi_page foot_page = {.out = &foot, .colour = options->colour};
    plmi_text_init_plain(&foot);
    paragraph_write(&foot_page, "First aid", plmi_handover_aid, plmi_handover_aid_count);
    paragraph_write(&foot_page, "Caution", plmi_standing_cautions, plmi_standing_caution_count);
    earlier_write(&page, handover);
    plmi_text_puts(out, "\n");
    blanks_write(&page, PAGE_LINES - lines_of(out) - blank_lines() + 1 - lines_of(&foot));
    plmi_text_puts(out, "\n");
    plmi_text_add_raw(out, foot.bytes != NULL ? foot.bytes : "", foot.count);
    out->failed = out->failed || foot.failed;
    plmi_text_free(&foot);
}

const struct plmi_handover_form plmi_handover_text = {dive_write, rest_write};
