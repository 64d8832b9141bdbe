/*
 * The answer of the text report: a table at a glance, then each finding with its words; and the plan.
 * Must not change order or severity.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "base/number.h"
#include "report/text/text.h"

#define DETAIL_INDENT 4

static const enum plmi_page_tone tones[] = {PLMI_PAGE_NOTE, PLMI_PAGE_CAUTION, PLMI_PAGE_SERIOUS};

static void number_cell(struct plmi_page *page, int width, struct plmi_text *text, double value, int digits)
{
    plmi_view_number_write(text, value, digits, "");
    plmi_page_made_cell(page, width, text);
}

static void depth_cell(struct plmi_page *page, int width, struct plmi_text *text, const struct plm_finding *finding)
{
    plmi_view_number_write(text, finding->from_depth_m, 1, "");
    if (fabs(finding->to_depth_m - finding->from_depth_m) >= 0.05) {
        plmi_text_puts(text, "-");
        plmi_view_number_write(text, finding->to_depth_m, 1, "");
    }
    plmi_page_made_cell(page, width, text);
}

/* One line of the table. */
static void glance_row(struct plmi_page *page, struct plmi_text *text, size_t number,
                       const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    plmi_text_printf(text, "%zu", number);
    plmi_page_made_cell(page, -3, text);
    plmi_page_cell(page, 1, "");
    plmi_page_tone(page, tones[finding->severity]);
    plmi_page_cell(page, 8, one->severity);
    plmi_page_tone(page, PLMI_PAGE_PLAIN);
    plmi_page_cell(page, 20, one->kind);
    plmi_view_duration_write(text, finding->from_s);
    plmi_page_made_cell(page, -8, text);
    plmi_view_duration_write(text, finding->to_s);
    plmi_page_made_cell(page, -8, text);
    depth_cell(page, -12, text, finding);
    number_cell(page, -7, text, finding->value, one->digits);
    number_cell(page, -7, text, one->limit, one->digits);
    plmi_page_cell(page, 1, "");
    plmi_page_cell(page, 5, finding->unit);
    plmi_page_line_end(page);
}

static void glance_write(struct plmi_page *page, const struct plmi_view *view)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_page_cell(page, 4, "");
    plmi_page_cell(page, 28, "");
    plmi_page_cell(page, -8, "from");
    plmi_page_cell(page, -8, "to");
    plmi_page_cell(page, -12, "depth m");
    plmi_page_cell(page, -7, "value");
    plmi_page_cell(page, -7, "limit");
    plmi_page_line_end(page);
    for (size_t i = 0; i < view->finding_count; i++) {
        glance_row(page, &text, i + 1, &view->findings[i]);
    }
    plmi_text_free(&text);
}

static void words_write(struct plmi_page *page, const char *words)
{
    if (words[0] == '\0') {
        return;
    }
    plmi_page_cell(page, DETAIL_INDENT, "");
    plmi_page_wrap(page, DETAIL_INDENT, DETAIL_INDENT, words);
}

/* The words of one finding: what happened, whether it holds, what it cost. */
static void detail_write(struct plmi_page *page, size_t number, const struct plmi_view_finding *one)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "%zu", number);
    plmi_page_made_cell(page, -3, &text);
    plmi_page_cell(page, 1, "");
    plmi_text_puts(&text, one->finding->text);
    if (one->place[0] != '\0') {
        plmi_text_printf(&text, " [%s]", one->place);
    }
    plmi_page_made_wrap(page, DETAIL_INDENT, DETAIL_INDENT, &text);
    words_write(page, one->hold_words);
    words_write(page, one->cost_words);
    words_write(page, one->compared_words);
}

static void meaning_write(struct plmi_page *page, const struct plm_explanation *explanation)
{
    plmi_page_row(page, "  what it means", explanation->what);
    plmi_page_row(page, "  what to ask", explanation->ask);
}

static bool same_group(const struct plmi_view_finding *a, const struct plmi_view_finding *b)
{
    return a->finding->kind == b->finding->kind && a->finding->severity == b->finding->severity;
}

static void group_heading(struct plmi_page *page, const struct plmi_view_finding *one)
{
    plmi_text_puts(page->out, "\n");
    plmi_page_cell(page, DETAIL_INDENT, "");
    plmi_page_tone(page, tones[one->finding->severity]);
    plmi_page_cell(page, 1, one->severity);
    plmi_page_cell(page, 1, ": ");
    plmi_page_cell(page, 1, one->meaning);
    plmi_page_tone(page, PLMI_PAGE_PLAIN);
    plmi_page_line_end(page);
}

/* Findings one by one; those of one kind and severity under one heading. */
static void details_write(struct plmi_page *page, const struct plmi_view *view, bool verbose)
{
    const struct plmi_view_finding *list = view->findings;
    for (size_t i = 0; i < view->finding_count; i++) {
        if (i == 0 || !same_group(&list[i], &list[i - 1])) {
            group_heading(page, &list[i]);
        }
        detail_write(page, i + 1, &list[i]);
        if (verbose && (i + 1 == view->finding_count || !same_group(&list[i], &list[i + 1]))) {
            meaning_write(page, list[i].finding->reviewer->explanation);
        }
    }
}

void plmi_text_report_findings(struct plmi_page *page, const struct plmi_view *view, bool verbose)
{
    struct plmi_text heading;
    plmi_text_init(&heading);
    plmi_text_printf(&heading, "WHAT WAS EXCEEDED: %s", view->headline);
    plmi_page_heading(page, heading.bytes != NULL ? heading.bytes : "");
    page->out->failed = page->out->failed || heading.failed;
    plmi_text_free(&heading);
    if (view->finding_count == 0) {
        return;
    }
    glance_write(page, view);
    details_write(page, view, verbose);
    if (view->cost_known) {
        plmi_text_puts(page->out, "\n");
        plmi_text_puts(page->out, "    all of these put right at once\n");
        words_write(page, view->all_put_right_words);
    }
}
