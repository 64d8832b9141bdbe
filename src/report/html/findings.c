/*
 * What was exceeded, a row a finding: what and when, by how much, whether it holds, what it cost. Must not change order
 * or severity.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/review.h>
#include <math.h>

#include "report/html/debrief.h"
#include "syntax/markup.h"

static const struct plmi_html_column columns[] = {
    {"What was exceeded", ""}, {"By how much", ""}, {"Does it hold", ""}, {"What it cost", ""}};

enum { WHAT, MEASURE, HOLD, COST, COLUMNS };

/* [px] of the gauge */
#define GAUGE_PX 14
/* Share of the gauge that the greatest of its figures takes [%]. */
#define GAUGE_FULL_PCT 92

static bool gauge_known(const struct plm_finding *finding)
{
    return isfinite(finding->value) && isfinite(finding->limit) && finding->value >= 0 && finding->limit >= 0 &&
           (finding->value > 0 || finding->limit > 0);
}

/* The value as a bar, the limit as a line across it, the span over the recorder's tolerance as a rule upon it. */
static void gauge_write(struct plmi_text *out, const struct plmi_view_finding *one)
{
    const struct plm_finding *finding = one->finding;
    struct plmi_text desc;
    if (!gauge_known(finding)) {
        return;
    }
    bool range = isfinite(finding->value_low) && isfinite(finding->value_high);
    double most = fmax(fmax(finding->value, finding->limit), range ? finding->value_high : 0);
    const struct plmi_svg_scale scale = {0, most, 0, GAUGE_FULL_PCT};
    plmi_text_init(&desc);
    plmi_text_printf(&desc, "%s. %s", one->measure, one->hold_words);
    plmi_svg_begin(out, "gauge", GAUGE_PX,
                   &(struct plmi_svg_name){"Value against limit", desc.bytes != NULL ? desc.bytes : ""});
    double value_pct = plmi_svg_scale_held_pct(&scale, finding->value),
           limit_pct = plmi_svg_scale_held_pct(&scale, finding->limit);
    plmi_svg_rect(out, "within", 0, 25, fmin(value_pct, limit_pct), 50);
    plmi_svg_rect(out, one->severity, fmin(value_pct, limit_pct), 25, fabs(value_pct - limit_pct), 50);
    if (range) {
        double low_pct = plmi_svg_scale_held_pct(&scale, fmax(finding->value_low, 0)),
               high_pct = plmi_svg_scale_held_pct(&scale, finding->value_high);
        plmi_svg_line(out, "span", low_pct, 50, fmax(high_pct, low_pct + 0.4), 50);
    }
    plmi_svg_line(out, "bound", limit_pct, 0, limit_pct, 100);
    plmi_svg_end(out);
    out->failed = out->failed || desc.failed;
    plmi_text_free(&desc);
}

/* What the kind means, and what to ask; shut until wanted. */
static void meaning_write(struct plmi_text *out, const struct plm_explanation *explanation)
{
    plmi_html_open(out, "details", "");
    plmi_html_text(out, "summary", "", "What it means, what to ask");
    plmi_html_text(out, "p", "", explanation->what);
    plmi_html_text(out, "p", "", explanation->ask);
    plmi_html_close(out, "details");
}

static void what_write(struct plmi_text *out, const struct plmi_view_finding *one, const char *id, size_t number)
{
    plmi_html_cell_open(out, &columns[WHAT]);
    plmi_html_open(out, "div", "flag");
    plmi_text_printf(out, "<a class=\"badge %s\" href=\"#%s-pictures\"", one->severity, id);
    if (!isnan(one->finding->from_s)) {
        plmi_text_printf(out, " data-at=\"%ld\"", lround(one->finding->from_s));
    }
    plmi_text_printf(out, ">%zu</a>", number);
    plmi_html_open(out, "div", "told");
    plmi_text_puts(out, "<p class=\"kind\">");
    plmi_html_text(out, "b", one->severity, one->severity);
    plmi_html_text(out, "span", "", one->meaning);
    plmi_html_text(out, "span", "when", one->when);
    plmi_text_puts(out, "</p>\n");
    plmi_html_open(out, "p", "");
    plmi_markup_text(out, one->finding->text);
    if (one->place[0] != '\0') {
        plmi_text_puts(out, " ");
        plmi_html_text(out, "span", "place", one->place);
    }
    plmi_html_close(out, "p");
    meaning_write(out, one->finding->reviewer->explanation);
    plmi_html_close(out, "div");
    plmi_html_close(out, "div");
    plmi_html_close(out, "td");
}

static void row_write(struct plmi_text *out, const struct plmi_view_finding *one, const char *id, size_t number)
{
    plmi_text_printf(out, "<tr id=\"%s-finding-%zu\" class=\"%s\">", id, number, one->severity);
    what_write(out, one, id, number);
    plmi_html_cell_open(out, &columns[MEASURE]);
    plmi_html_text(out, "p", "measure", one->measure);
    gauge_write(out, one);
    plmi_html_close(out, "td");
    plmi_html_cell(out, &columns[HOLD], one->hold_words);
    plmi_html_cell_open(out, &columns[COST]);
    plmi_html_text(out, "p", one->cost_words[0] != '\0' ? "" : "none",
                   one->cost_words[0] != '\0' ? one->cost_words : "-");
    if (one->compared_words[0] != '\0') {
        plmi_html_text(out, "p", "aside", one->compared_words);
    }
    plmi_html_close(out, "td");
    plmi_text_puts(out, "</tr>\n");
}

void plmi_html_findings(struct plmi_text *out, const struct plmi_view *view, const char *id)
{
    if (view->finding_count == 0) {
        return;
    }
    plmi_html_open(out, "section", "findings");
    plmi_html_table_begin(out, "", "What was exceeded, worst first", columns, COLUMNS);
    for (size_t i = 0; i < view->finding_count; i++) {
        row_write(out, &view->findings[i], id, i + 1);
    }
    plmi_html_table_end(out);
    plmi_html_close(out, "section");
}
