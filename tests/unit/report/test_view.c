/*
 * The view: figures as people read them, keys that are told apart, and nothing left out where nothing is known.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/view/sentences.h"
#include "report/view/view.h"
#include "report/view/build.h"
#include "support/made_dive.h"

static struct plm_rules rules;
static struct plm_debriefed one;
static struct plmi_view *view;

/* Replayed alone: neither decompression nor findings. */
static void setup(void)
{
    rules = plm_rules_default();
    struct made_dive made = made_start((double)NAN);
    made_loop(&made, 0.1, 0.7, 0.7);
    made_sample(&made, 0, 0);
    made_sample(&made, 180, 60);
    made_setpoint(&made, 1.3);
    made_sample(&made, 1200, 60);
    made_open(&made, 0.5, 0);
    made_sample(&made, 1800, 21);
    made_sample(&made, 3900, 0);
    one = (struct plm_debriefed){.dive = made_finish(&made), .replay = {.rules = &rules}};
    one.trace = made_replay(one.dive, &rules);
    ck_assert_int_eq(plmi_view_new(&view, &one), PLM_STATUS_OK);
}

static void teardown(void)
{
    plmi_view_free(view);
    plm_trace_free(one.trace);
    plm_dive_free(one.dive);
}

static const char *written(struct plmi_text *text, const char *key)
{
    plmi_text_clear(text);
    plmi_view_item_write(text, plmi_view_find(view, key));
    return text->bytes;
}

START_TEST(keys_are_told_apart)
{
    for (size_t i = 0; i < view->item_count; i++) {
        for (size_t j = 0; j < i; j++) {
            ck_assert_str_ne(view->items[i].key, view->items[j].key);
        }
    }
}
END_TEST

START_TEST(items_read_as_people_read)
{
    struct plmi_text text;
    plmi_text_init(&text);
    ck_assert_str_eq(written(&text, "max_depth_m"), "60.0 m");
    ck_assert_str_eq(written(&text, "duration_s"), "1:05:00");
    ck_assert_str_eq(written(&text, "max_depth_at_s"), "3:00");
    ck_assert_str_eq(written(&text, "gf_low_pct"), "30 %");
    ck_assert_str_eq(written(&text, "gas_assumed"), "no");
    ck_assert_str_eq(written(&text, "diver"), "-");
    ck_assert_str_eq(written(&text, "owed_min"), "-");
    plmi_text_free(&text);
}
END_TEST

START_TEST(numbers_and_durations)
{
    static const struct {
        double seconds;
        const char *want;
    } durations[] = {{0, "0:00"},         {59.6, "1:00"}, {3599.4, "59:59"},
                     {3599.6, "1:00:00"}, {-75, "-1:15"}, {36000, "10:00:00"}};
    struct plmi_text text;
    plmi_text_init(&text);
    for (size_t i = 0; i < sizeof durations / sizeof durations[0]; i++) {
        plmi_text_clear(&text);
        plmi_view_duration_write(&text, durations[i].seconds);
        ck_assert_str_eq(text.bytes, durations[i].want);
    }
    plmi_text_clear(&text);
    plmi_view_change_write(&text, 1.25, 1);
    plmi_view_change_write(&text, -0.04, 1);
    plmi_view_change_write(&text, 0.04, 1);
    plmi_view_number_write(&text, (double)INFINITY, 1, "min");
    ck_assert_str_eq(text.bytes, "+1.20.00.0never");
    plmi_text_free(&text);
}
END_TEST

START_TEST(sentences_take_figures)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_view_sentence_write(&text, view, "{max_depth_m} at {max_depth_at_s}, {model}.");
    ck_assert_str_eq(text.bytes, "60.0 m at 3:00, ZH-L16C.");
    plmi_text_free(&text);
}
END_TEST

static struct plmi_view_item *item_of(const char *key)
{
    for (size_t i = 0; i < view->item_count; i++) {
        if (strcmp(view->items[i].key, key) == 0) {
            return &view->items[i];
        }
    }
    ck_abort_msg("no item %s", key);
    return NULL;
}

/* Whether a sentence with this label is shown in a group. */
static bool shown(enum plmi_sentence_group group, const char *label)
{
    size_t count;
    const struct plmi_sentence *rows = plmi_sentences(group, &count);
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        any = any || (strcmp(rows[i].label, label) == 0 && plmi_sentence_shown(view, &rows[i]));
    }
    return any;
}

/* "0.0 min above 5.2 g/L", "-50.2 % of the M-value gradient": figures that tell nothing. */
START_TEST(figures_that_tell_nothing_are_left_out)
{
    struct plmi_text text;
    plmi_text_init(&text);
    item_of("density_caution_min")->value = 0.0;
    item_of("density_note_min")->value = 0.04;
    ck_assert(!shown(PLMI_SENTENCES_GAS, "Dense gas"));
    item_of("density_note_min")->value = 0.05;
    ck_assert(shown(PLMI_SENTENCES_GAS, "Dense gas"));
    item_of("max_end_m")->value = 0.0;
    ck_assert(!shown(PLMI_SENTENCES_GAS, "Narcotic depth"));
    item_of("surfacing_gradient_pct")->value = -50.2;
    ck_assert_str_eq(written(&text, "surfacing_gradient_pct"), "below 0 %");
    item_of("surfacing_gradient_pct")->value = 0.0;
    ck_assert_str_eq(written(&text, "surfacing_gradient_pct"), "0.0 %");
    item_of("peak_gradient_pct")->value = -1.0;
    ck_assert(!shown(PLMI_SENTENCES_LOADING, "Highest"));
    plmi_text_free(&text);
}
END_TEST

START_TEST(mixes_in_order_of_use)
{
    ck_assert_uint_eq(view->mix_count, 2);
    ck_assert_str_eq(view->mixes[0].mode, "closed");
    ck_assert_str_eq(view->mixes[0].name, "10/70");
    /* From 0 to 1800 s: the switch counts from its own sample. */
    ck_assert_double_eq_tol(view->mixes[0].minutes + view->mixes[1].minutes, 65, 1e-9);
    ck_assert_double_eq_tol(view->mixes[0].setpoint_low_bar, 0.7, 1e-9);
    ck_assert_double_eq_tol(view->mixes[0].setpoint_high_bar, 1.3, 1e-9);
    ck_assert_str_eq(view->mixes[1].mode, "open");
    ck_assert(isnan(view->mixes[1].setpoint_low_bar));
    ck_assert_double_eq_tol(view->mixes[1].least_depth_m, 0, 1e-9);
}
END_TEST

/* Half as much again as at rest in one compartment, 0.2 bar of helium in another that holds a little more than at rest.
 */
START_TEST(the_start_is_told_where_it_is_carried)
{
    struct plmi_text text;
    struct plmi_view *carried = NULL;
    plmi_text_init(&text);
    ck_assert_str_eq(written(&text, "start_load_pct"), "-");
    ck_assert_str_eq(written(&text, "start_compartment"), "-");
    struct plm_debriefed later = one;
    later.start = (struct plm_start){.residual = true, .tissue = plm_tissue_saturated(1.01325, 0.0627, 0.7902)};
    later.start.tissue.n2_bar[11] *= 1.5;
    later.start.tissue.he_bar[2] = 0.2;
    ck_assert_int_eq(plmi_view_new(&carried, &later), PLM_STATUS_OK);
    ck_assert_double_eq_tol(plmi_view_find(carried, "start_load_pct")->value, 150, 1e-9);
    ck_assert_double_eq_tol(plmi_view_find(carried, "start_compartment")->value, 12, 1e-9);
    ck_assert_double_eq_tol(plmi_view_find(carried, "start_he_bar")->value, 0.2, 1e-12);
    plmi_view_free(carried);
    /* Helium counts as gas: (0.9506 x 0.7902 + 0.6) / (0.9506 x 0.7902) is 179.9 % (0.9506 bar: 1.01325 less vapour).
     */
    later.start.tissue.he_bar[2] = 0.6;
    ck_assert_int_eq(plmi_view_new(&carried, &later), PLM_STATUS_OK);
    ck_assert_double_eq_tol(plmi_view_find(carried, "start_load_pct")->value, 179.9, 0.1);
    ck_assert_double_eq_tol(plmi_view_find(carried, "start_compartment")->value, 3, 1e-9);
    plmi_view_free(carried);
    plmi_text_free(&text);
}
END_TEST

/* Depths are told to the decimetre: 52 mm apart are two depths there, 48 mm are one; half a second is no stretch of
 * time. */
START_TEST(when_a_finding_was)
{
    static const struct {
        double to_s, to_m;
        const char *words;
    } rows[] = {
        {60.0, 10.0, "1:00, 10.0 m"},
        {60.4, 10.048, "1:00, 10.0 m"},
        {60.6, 10.052, "1:00 to 1:01, 10.0 to 10.1 m"},
        {125.0, 9.948, "1:00 to 2:05, 10.0 to 9.9 m"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct plm_finding finding = {.kind = PLM_FINDING_LOG_GAP,
                                            .from_s = 60,
                                            .to_s = rows[i].to_s,
                                            .from_depth_m = 10,
                                            .to_depth_m = rows[i].to_m,
                                            .value = NAN,
                                            .limit = NAN,
                                            .unit = "",
                                            .value_low = NAN,
                                            .value_high = NAN};
        struct plmi_view_finding words = {.finding = &finding};
        plmi_view_finding_words(view, &words);
        ck_assert_str_eq(words.when, rows[i].words);
    }
}
END_TEST

/* All sentences of the head, each behind a bar. */
static const char *basis_of(const struct plm_debriefed *debriefed)
{
    static char all[1024];
    struct plmi_view *head = NULL;
    ck_assert_int_eq(plmi_view_new(&head, debriefed), PLM_STATUS_OK);
    all[0] = '\0';
    for (size_t i = 0; i < head->basis_count; i++) {
        size_t n = strlen(all);
        (void)snprintf(all + n, sizeof all - n, "|%s", head->basis[i]);
    }
    plmi_view_free(head);
    return all;
}

/* Every guess, and each way in which a clock is silent; who told the gradient factors is always there. */
START_TEST(the_head_tells_what_figures_stand_on)
{
    static const struct {
        double surface_bar, altitude_m, cell_bar;
        bool gas, mode, date, clock, zone;
        enum plm_factors_from from;
        double low_pct;
        const char *words;
    } rows[] = {
        {1.0, NAN, NAN, true, true, true, true, true, PLM_FACTORS_CARD, 30,
         "|Gradient factors 30/70, from the dive card"},
        {1.0, NAN, NAN, true, true, true, true, true, PLM_FACTORS_LOG, 32.5,
         "|Gradient factors 32.5/70, recorded in the log"},
        {1.0, NAN, NAN, true, true, true, true, true, PLM_FACTORS_OPTION, 30,
         "|Gradient factors 30/70, set by an option or a rules file"},
        {NAN, NAN, NAN, false, false, true, true, false, PLM_FACTORS_ASSUMED, 30,
         "|Assumed: gradient factors 30/70; no option, card or log names any|Assumed: air; the log names no gas"
         "|Assumed: open circuit; the log names no breathing mode"
         "|Assumed: surface pressure 1.013 bar; the log names none"
         "|Assumed: the clock shows local time; the log names no time zone"},
        /* 500 m by the standard atmosphere: 954.6 hPa, ISO 2533 */
        {NAN, 500, 1.0, true, false, true, false, false, PLM_FACTORS_CARD, 30,
         "|Gradient factors 30/70, from the dive card"
         "|Assumed: closed loop, by set points or cells; the log names no breathing mode"
         "|Assumed: surface pressure 0.955 bar, from altitude 500 m by the log; the log names none"
         "|Not known: time of day; the log names a date alone"},
        {1.0, NAN, NAN, true, true, false, false, false, PLM_FACTORS_CARD, 30,
         "|Gradient factors 30/70, from the dive card|Not known: date and time of day; the log names none"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct made_dive made = made_start(rows[i].surface_bar);
        struct plm_rules judged = rules;
        struct plm_dive_info *info = plm_dive_builder_info(made.builder);
        judged.gf_low_pct = rows[i].low_pct;
        info->altitude_m = rows[i].altitude_m;
        info->start = (struct plm_stamp){.known = rows[i].date, .has_clock = rows[i].clock, .has_zone = rows[i].zone};
        if (rows[i].gas && isnan(rows[i].cell_bar)) {
            made_open(&made, 0.32, 0);
        } else if (rows[i].gas) {
            made_loop(&made, 0.21, 0, 1.0);
        }
        made_sample(&made, 0, 0);
        made_sample(&made, 300, 20);
        made_sample(&made, 900, 0);
        info->mode_known = rows[i].mode;
        struct plm_debriefed headed = {
            .dive = made_finish(&made), .factors_from = rows[i].from, .replay = {.rules = &judged}};
        headed.trace = made_replay(headed.dive, &judged);
        ck_assert_str_eq(basis_of(&headed), rows[i].words);
        plm_trace_free(headed.trace);
        plm_dive_free(headed.dive);
    }
}
END_TEST

START_TEST(nothing_found_is_no_proof)
{
    ck_assert_uint_eq(view->finding_count, 0);
    ck_assert_ptr_null(strstr(view->headline, "safe"));
    ck_assert_uint_ge(view->caution_count, 3);
    ck_assert(!view->decompression_known);
    ck_assert_ptr_null(view->plan_verdict);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("view");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, keys_are_told_apart);
    tcase_add_test(tests, items_read_as_people_read);
    tcase_add_test(tests, numbers_and_durations);
    tcase_add_test(tests, sentences_take_figures);
    tcase_add_test(tests, figures_that_tell_nothing_are_left_out);
    tcase_add_test(tests, mixes_in_order_of_use);
    tcase_add_test(tests, the_start_is_told_where_it_is_carried);
    tcase_add_test(tests, when_a_finding_was);
    tcase_add_test(tests, the_head_tells_what_figures_stand_on);
    tcase_add_test(tests, nothing_found_is_no_proof);
    Suite *suite = suite_create("report");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
