/*
 * The head of a dive on its page: who and when, the answer, and what decides next: cost, plan, surface, decompression.
 * Must not choose words that the view lacks for a judgement.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/html/debrief.h"

void plmi_html_sentence(struct plmi_text *out, const char *element, const char *class_name,
                        const struct plmi_view *view, const char *sentence)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_sentence_write(&text, view, sentence);
    plmi_html_made(out, element, class_name, &text);
}

void plmi_html_sentences(struct plmi_text *out, const struct plmi_view *view, enum plmi_sentence_group group)
{
    size_t count;
    const struct plmi_sentence *rows = plmi_sentences(group, &count);
    for (size_t i = 0; i < count; i++) {
        if (!plmi_sentence_shown(view, &rows[i])) {
            continue;
        }
        plmi_html_text(out, "dt", "", rows[i].label);
        plmi_html_sentence(out, "dd", "", view, rows[i].sentence);
    }
}

static void who_write(struct plmi_text *out, const struct plmi_view *view)
{
    static const char *const keys[] = {"diver", "start", "site", "recorder"};
    plmi_html_open(out, "p", "who");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const struct plmi_view_item *item = plmi_view_find(view, keys[i]);
        if (item->text != NULL) {
            plmi_html_text(out, i == 0 ? "b" : "span", "", item->text);
        }
    }
    plmi_html_sentence(out, "span", "", view, "{file}, dive {index}");
    plmi_html_close(out, "p");
}

static void term_sentence(struct plmi_text *out, const struct plmi_view *view, const char *label, const char *sentence)
{
    plmi_html_text(out, "dt", "", label);
    plmi_html_sentence(out, "dd", "", view, sentence);
}

/* What is needed to decide on: each in a sentence. */
static void brief_write(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "dl", "brief");
    term_sentence(out, view, "Dive",
                  "To {max_depth_m} at {max_depth_at_s}; {duration_s} recorded, {mean_depth_m} on average");
    if (view->cost_known) {
        plmi_html_term(out, "All put right at once", view->all_put_right_words);
    }
    if (view->plan_verdict != NULL) {
        plmi_html_term(out, "Plan", view->plan_verdict);
    }
    if (view->decompression_known) {
        term_sentence(out, view, "Decompression",
                      view->stop_count > 0 ? "{ceiling_state}; {owed_min} of stops required on leaving the bottom, "
                                             "{done_min} done at these stops"
                                           : "{ceiling_state}");
    }
    term_sentence(
        out, view, "At the surface",
        isnan(plmi_view_find(view, "ends_in_water_m")->value)
            ? "{surfacing_gradient_pct} of the M-value gradient, where {gf_high_pct} was set; oxygen clock {cns_pct}"
            : "not known: the record ends in the water, at {ends_in_water_m}; oxygen clock there {cns_pct}");
    plmi_html_close(out, "dl");
}

static void basis_write(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "ul", "basis");
    for (size_t i = 0; i < view->basis_count; i++) {
        plmi_html_text(out, "li", "", view->basis[i]);
    }
    plmi_html_close(out, "ul");
}

void plmi_html_answer(struct plmi_text *out, const struct plmi_view *view)
{
    plmi_html_open(out, "header", "answer");
    who_write(out, view);
    plmi_html_text(out, "h1", "", view->headline);
    brief_write(out, view);
    basis_write(out, view);
    plmi_html_close(out, "header");
}
