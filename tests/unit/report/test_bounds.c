/*
 * Bounds of what is told: stops short, bands of depth and of oxygen, what never ends, no water at all between diver and
 * ceiling. Expectations are worked out by hand from the profiles.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/handover/handover.h"
#include "report/view/sentences.h"
#include "report/view/view.h"
#include "report/view/build.h"
#include "support/made_dive.h"
#include "support/memory_sink.h"
#include "support/suite.h"

struct seen {
    struct plm_rules rules;
    struct plm_debriefed one;
    struct plmi_view *view;
};

static void see(struct seen *seen, struct made_dive *made)
{
    seen->rules = made->rules;
    seen->one = (struct plm_debriefed){.dive = made_finish(made), .replay = {.rules = &seen->rules}};
    seen->one.trace = made_replay(seen->one.dive, &seen->rules);
    ck_assert_int_eq(plmi_view_new(&seen->view, &seen->one), PLM_STATUS_OK);
}

static void forget(struct seen *seen)
{
    plmi_view_free(seen->view);
    plm_trace_free(seen->one.trace);
    plm_dive_free(seen->one.dive);
}

static struct made_dive plain_dive(void)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 600, 20);
    made_sample(&made, 900, 0);
    return made;
}

static void set(struct plmi_view *view, const char *key, double value)
{
    for (size_t i = 0; i < view->item_count; i++) {
        if (strcmp(view->items[i].key, key) == 0) {
            view->items[i].value = value;
        }
    }
}

static void set_text(struct plmi_view *view, const char *key, const char *text)
{
    for (size_t i = 0; i < view->item_count; i++) {
        if (strcmp(view->items[i].key, key) == 0) {
            view->items[i].text = text;
        }
    }
}

/* What the ceiling was on surfacing comes first; a stop that was shorter than the table's is none that was left out. */
START_TEST(a_handover_begins_with_the_ceiling_on_surfacing)
{
    struct seen seen;
    struct made_dive made = plain_dive();
    see(&seen, &made);
    struct plmi_view_stop stops[] = {{6, 4, 9, 5}, {3, 9, 0.3, -8.7}};
    struct plmi_text text;
    seen.view->stops = stops;
    seen.view->stop_count = 2;
    seen.view->decompression_known = true;
    set(seen.view, "owed_min", 13);
    set(seen.view, "done_min", 9.3);
    set_text(seen.view, "ceiling_state", "the ceiling cleared 4:55 before surfacing");
    plmi_text_init(&text);
    plmi_handover_decompression(&text, seen.view);
    ck_assert_msg(strstr(text.bytes, "the ceiling cleared 4:55 before surfacing") == text.bytes, "%s", text.bytes);
    ck_assert_msg(strstr(text.bytes, "13.0 min of stops required then; 9.3 min done") != NULL, "%s", text.bytes);
    ck_assert_msg(strstr(text.bytes, "8.7") == NULL, "%s", text.bytes);
    plmi_text_clear(&text);
    seen.view->stop_count = 0;
    set_text(seen.view, "ceiling_state", "no stops required by the model");
    plmi_handover_decompression(&text, seen.view);
    ck_assert_msg(strstr(text.bytes, "no stops required by the model; bottom left") == text.bytes, "%s", text.bytes);
    ck_assert_msg(strstr(text.bytes, "done") == NULL, "%s", text.bytes);
    plmi_text_free(&text);
    forget(&seen);
}
END_TEST

/* A sample at the edge of the shallow band, 6 m, is in it. Rates are those of the intervals that led there: 4, 10 and 3
 * m/min. */
START_TEST(the_edge_of_the_shallow_band_is_shallow)
{
    struct seen seen;
    struct made_dive made = made_start(1.0);
    made.rules.ascent_shallow_band_m = 6;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 600, 20);
    made_sample(&made, 660, 16);
    made_sample(&made, 720, 6);
    made_sample(&made, 780, 3);
    made_sample(&made, 900, 0);
    see(&seen, &made);
    const struct plmi_view_climb *deep = &seen.view->climbs[PLMI_VIEW_CLIMB_DEEP],
                                 *shallow = &seen.view->climbs[PLMI_VIEW_CLIMB_SHALLOW];
    ck_assert_double_eq_tol(shallow->depth_m, 6, 1e-9);
    ck_assert_double_eq_tol(shallow->rate_m_min, 10, 1e-9);
    ck_assert_double_eq_tol(shallow->at_s, 720, 1e-9);
    ck_assert_double_eq_tol(deep->depth_m, 16, 1e-9);
    ck_assert_double_eq_tol(deep->rate_m_min, 4, 1e-9);
    forget(&seen);
}
END_TEST

/*
 * Told as at 1.3 bar is what lies between 1.25 and 1.35: five of the ten minutes from 1.2 to 1.4 bar, none of the ten
 * at 1.38, and on the way down to 0.7 bar a seventh of the 42 s that 0.7 bar take: 6 s.
 */
START_TEST(minutes_at_1_3_bar)
{
    struct seen seen;
    struct made_dive made = made_start(1.0);
    made_loop(&made, 0.2, 0.3, 0.7);
    made_sample_po2(&made, 0, 0, 0.7);
    made_sample_po2(&made, 60, 20, 1.2);
    made_sample_po2(&made, 660, 20, 1.4);
    made_sample_po2(&made, 720, 20, 1.38);
    made_sample_po2(&made, 1320, 20, 1.38);
    made_sample_po2(&made, 1321, 20, 1.4);
    made_sample_po2(&made, 1363, 20, 0.7);
    made_sample_po2(&made, 1500, 0, 0.7);
    see(&seen, &made);
    ck_assert_double_eq_tol(plmi_view_find(seen.view, "at_1_3_min")->value, 5 + 6.0 / 60, 1e-9);
    forget(&seen);
}
END_TEST

/* Of the sentences about the nearest to the ceiling one is told, whatever the water between; with none known, none. */
START_TEST(a_diver_at_the_ceiling_is_told)
{
    static const struct {
        double clearance_m;
        int above, below;
    } rows[] = {{-0.01, 1, 0}, {0, 0, 1}, {0.01, 0, 1}, {(double)NAN, 0, 0}};
    struct seen seen;
    struct made_dive made = plain_dive();
    see(&seen, &made);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t count;
        const struct plmi_sentence *sentences = plmi_sentences(PLMI_SENTENCES_LOADING, &count);
        int above = 0, below = 0;
        set(seen.view, "min_clearance_m", rows[i].clearance_m);
        for (size_t k = 0; k < count; k++) {
            if (strcmp(sentences[k].known, "min_clearance_m") != 0 || !plmi_sentence_shown(seen.view, &sentences[k])) {
                continue;
            }
            above += sentences[k].when == PLMI_WHEN_NEGATIVE;
            below += sentences[k].when != PLMI_WHEN_NEGATIVE;
        }
        ck_assert_msg(above == rows[i].above && below == rows[i].below, "%g m: %d above, %d below", rows[i].clearance_m,
                      above, below);
    }
    forget(&seen);
}
END_TEST

/* [out] the cell of a column in the row of a table; cells have no quotes here. */
static void cell_of(char cell[32], const char *table, const char *column, int row)
{
    const char *line = table, *head = table;
    int at = 0;
    for (const char *c = strstr(table, column); c >= head; head++) {
        at += *head == ',';
    }
    for (int i = 0; i < row; i++) {
        line = strchr(line, '\n') + 1;
    }
    for (; at > 0; at--) {
        line = strchr(line, ',') + 1;
    }
    size_t n = strcspn(line, ",\n");
    ck_assert_uint_lt(n, 32);
    memcpy(cell, line, n);
    cell[n] = '\0';
}

/* No way up on helium with a schedule of two hours at most: the time to the surface is no number, and a table says so.
 * At the surface it is 0. */
START_TEST(what_never_ends_is_inf_in_a_table)
{
    struct plm_rules rules = plm_rules_default();
    rules.schedule_max_h = 2;
    struct made_dive made = made_start(1.01325);
    made_loop(&made, 0.05, 0.95, 0.5);
    made_sample(&made, 0, 0);
    made_sample(&made, 300, 100);
    made_sample(&made, 40000, 100);
    struct plm_debriefed one = {.dive = made_finish(&made), .replay = plm_replay_options_default(&rules)};
    one.replay.schedules = true;
    ck_assert_int_eq(plm_replay(&one.trace, one.dive, &one.replay, NULL), PLM_STATUS_OK);
    struct plm_report_options options = plm_report_options_default(&rules);
    options.schedules = true;
    struct plm_report *report;
    struct plmi_text text;
    char cell[32];
    plmi_text_init(&text);
    struct plm_sink sink = memory_sink(&text);
    ck_assert_int_eq(plm_report_open(&report, PLM_REPORT_TRACE, "csv", &options, &sink, NULL), PLM_STATUS_OK);
    ck_assert_int_eq(plm_report_add(report, &one), PLM_STATUS_OK);
    ck_assert_int_eq(plm_report_finish(report), PLM_STATUS_OK);
    cell_of(cell, text.bytes, ",tts_s", 1);
    ck_assert_str_eq(cell + strspn(cell, "0."), "");
    ck_assert_str_ne(cell, "");
    cell_of(cell, text.bytes, ",tts_s", 3);
    ck_assert_str_eq(cell, "inf");
    plm_report_free(report);
    plmi_text_free(&text);
    plm_trace_free(one.trace);
    plm_dive_free(one.dive);
}
END_TEST

START_TEST(formats_end_behind_the_last)
{
    size_t count = plm_report_format_count();
    ck_assert_uint_gt(count, 0);
    ck_assert_ptr_nonnull(plm_report_format_get(count - 1));
    ck_assert_ptr_null(plm_report_format_get(count));
}
END_TEST

/* Depths are told with one digit: half of it is the least that shows as two. */
START_TEST(two_depths_of_a_finding_from_half_a_digit_on)
{
    static const struct {
        double to_m;
        const char *when;
    } CASES[] = {{0.049, "1:00, 0.0 m"}, {0.05, "1:00, 0.0 to 0.1 m"}, {0.051, "1:00, 0.0 to 0.1 m"}};
    struct made_dive made = plain_dive();
    struct seen seen;
    see(&seen, &made);
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const struct plm_finding finding = {.from_s = 60,
                                            .to_s = 60,
                                            .from_depth_m = 0,
                                            .to_depth_m = CASES[i].to_m,
                                            .value = NAN,
                                            .limit = NAN,
                                            .unit = "m",
                                            .text = ""};
        struct plmi_view_finding words = {.finding = &finding};
        plmi_view_finding_words(seen.view, &words);
        ck_assert_str_eq(words.when, CASES[i].when);
    }
    forget(&seen);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_handover_begins_with_the_ceiling_on_surfacing,
                                  the_edge_of_the_shallow_band_is_shallow,
                                  minutes_at_1_3_bar,
                                  a_diver_at_the_ceiling_is_told,
                                  what_never_ends_is_inf_in_a_table,
                                  formats_end_behind_the_last,
                                  two_depths_of_a_finding_from_half_a_digit_on};
    return SUITE_RUN("bounds", tests);
}
