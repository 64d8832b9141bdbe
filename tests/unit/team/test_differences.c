/*
 * What two records tell differently about clock and depth: signs in words, and from when on it is told. What is planted
 * in the records is the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/reconcile.h>

#include "base/number.h"
#include "support/made_dive.h"
#include "support/planted.h"
#include "support/suite.h"

struct pair {
    struct plm_rules rules;
    struct plm_replay_options options;
    struct plm_debriefed records[2];
    struct plm_reconciliation *reconciliation;
};

static void compare(struct pair *pair, const struct planted *a, const struct planted *b)
{
    const struct planted *planted[2] = {a, b};
    pair->rules = plm_rules_default();
    pair->options = plm_replay_options_default(&pair->rules);
    for (int i = 0; i < 2; i++) {
        pair->records[i] = (struct plm_debriefed){.dive = planted_record(planted[i])};
        pair->records[i].trace = made_replay(pair->records[i].dive, &pair->rules);
    }
    const struct plm_debriefed *both[2] = {&pair->records[0], &pair->records[1]};
    ck_assert_int_eq(plm_reconcile(&pair->reconciliation, both, 2, &pair->options, NULL), PLM_STATUS_OK);
    ck_assert(plm_reconciliation_same_dive(pair->reconciliation));
}

static void forget(struct pair *pair)
{
    plm_reconciliation_free(pair->reconciliation);
    for (int i = 0; i < 2; i++) {
        plm_trace_free(pair->records[i].trace);
        plm_dive_free(pair->records[i].dive);
    }
}

/* The nth difference of a kind; NULL where there are not so many. */
static const struct plm_difference *difference(const struct pair *pair, enum plm_difference_kind kind, int nth)
{
    size_t count;
    const struct plm_reconciled_pair *found = plm_reconciliation_pairs(pair->reconciliation, &count);
    for (size_t i = 0; i < found->count; i++) {
        if (found->differences[i].kind == kind && nth-- == 0) {
            return &found->differences[i];
        }
    }
    return NULL;
}

/* A clock that shows less is behind, one that shows more ahead; one with more seconds in a true million runs fast. A
 * minute and 100 ppm are let go. */
START_TEST(clocks_in_words)
{
    static const struct {
        double behind_s, fast_ppm;
        const char *late, *drift;
    } rows[] = {
        {300, 0, "behind", NULL},     {-300, 0, "ahead", NULL},      {0, 400, NULL, "fast"}, {0, -400, NULL, "slow"},
        {300, 400, "behind", "fast"}, {-300, -400, "ahead", "slow"}, {50, 60, NULL, NULL},   {-50, -60, NULL, NULL},
        {61, 0, "behind", NULL},      {59, 0, NULL, NULL},
    };
    static const char *const words[] = {"behind", "ahead", "fast", "slow"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct pair pair;
        const struct planted right = {.recorder = "unit", .step_s = 2};
        const struct planted off = {
            .recorder = "wrist", .step_s = 2, .behind_s = rows[i].behind_s, .fast_ppm = rows[i].fast_ppm};
        compare(&pair, &right, &off);
        const struct plm_difference *clock = difference(&pair, PLM_DIFFERENCE_CLOCK, 0);
        ck_assert_msg((clock != NULL) == (rows[i].late || rows[i].drift), "row %zu", i);
        for (size_t k = 0; k < 4 && clock != NULL; k++) {
            const char *wanted = k < 2 ? rows[i].late : rows[i].drift;
            bool want = wanted != NULL && strcmp(wanted, words[k]) == 0;
            ck_assert_msg((strstr(clock->text, words[k]) != NULL) == want, "row %zu: %s", i, clock->text);
        }
        forget(&pair);
    }
}
END_TEST

/*
 * Samples every 5 s; b shows 2 m more from 1000 s on. Of 13 samples the last is a minute behind the first, which is not
 * told; with the 14th it is. 0.9 m more for five minutes are not told, 1.1 m are.
 */
START_TEST(depths_apart_for_more_than_a_minute)
{
    static const struct {
        double wrong_m, to_s;
        bool told;
    } rows[] = {{2, 1005, false}, {2, 1065, false},   {2, 1070, true},
                {-2, 1070, true}, {0.9, 1300, false}, {1.1, 1300, true}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct pair pair;
        const struct planted right = {.recorder = "unit", .step_s = 5};
        const struct planted wrong = {.recorder = "wrist",
                                      .step_s = 5,
                                      .wrong_m = rows[i].wrong_m,
                                      .wrong_from_s = 1000,
                                      .wrong_to_s = rows[i].to_s};
        compare(&pair, &right, &wrong);
        const struct plm_difference *depth = difference(&pair, PLM_DIFFERENCE_DEPTH, 0);
        ck_assert_msg((depth != NULL) == rows[i].told, "%g m until %g s", rows[i].wrong_m, rows[i].to_s);
        ck_assert_ptr_null(difference(&pair, PLM_DIFFERENCE_DEPTH, 1));
        if (depth != NULL) {
            ck_assert_double_eq_tol(depth->from_s, 1000, 1e-9);
            ck_assert_double_eq_tol(depth->to_s, rows[i].to_s - 5, 1e-9);
        }
        forget(&pair);
    }
}
END_TEST

/* [m] of "60.1 m". */
static double metres(const char *text)
{
    double depth_m;
    const char *end = strstr(text, " m");
    ck_assert_ptr_nonnull(end);
    ck_assert(plmi_number_parse(text, (size_t)(end - text), '.', &depth_m));
    return depth_m;
}

/*
 * 2 m more on the level at 60 m and again at 12 m, each for 200 s: two stretches, told with the mean of each record.
 * The body's mean over them is taken here from the body itself.
 */
START_TEST(depths_are_told_on_average)
{
    struct pair pair;
    const struct planted right = {.recorder = "unit", .step_s = 5};
    const struct planted wrong = {.recorder = "wrist",
                                  .step_s = 5,
                                  .wrong_m = 2,
                                  .wrong_from_s = 1000,
                                  .wrong_to_s = 1200,
                                  .wrong_again_s = 1600};
    compare(&pair, &right, &wrong);
    for (int k = 0; k < 2; k++) {
        const struct plm_difference *depth = difference(&pair, PLM_DIFFERENCE_DEPTH, k);
        double from_s = 1000 + 1600 * k, mean_m = 0;
        for (int i = 0; i < 40; i++) {
            mean_m += planted_depth_m(0, from_s + 5 * i) / 40;
        }
        ck_assert_ptr_nonnull(depth);
        ck_assert_double_eq_tol(depth->from_s, from_s, 1e-9);
        ck_assert_double_eq_tol(metres(depth->a), mean_m, 0.051);
        ck_assert_double_eq_tol(metres(depth->b), mean_m + 2, 0.08);
    }
    ck_assert_ptr_null(difference(&pair, PLM_DIFFERENCE_DEPTH, 2));
    forget(&pair);
}
END_TEST

/* No samples from 1900 to 1998 s of the truth: told in the time of the first record, whichever of the two it is, and
 * who has them. */
START_TEST(gaps_are_told_in_the_first_one_s_time)
{
    const struct planted holed = {
        .recorder = "holed", .step_s = 2, .begin_s = 70, .gap_from_s = 1900, .gap_to_s = 1998};
    const struct planted whole = {.recorder = "whole", .step_s = 5};
    for (int swapped = 0; swapped < 2; swapped++) {
        struct pair pair;
        compare(&pair, swapped ? &holed : &whole, swapped ? &whole : &holed);
        const struct plm_difference *gap = difference(&pair, PLM_DIFFERENCE_GAP, 0);
        ck_assert_ptr_nonnull(gap);
        ck_assert_double_eq_tol(gap->from_s, swapped ? 1830 : 1900, 0.5);
        ck_assert_double_eq_tol(gap->to_s, swapped ? 1928 : 1998, 0.5);
        ck_assert_ptr_nonnull(strstr(gap->text, "holed has no samples"));
        ck_assert_ptr_nonnull(strstr(gap->text, "whole has them"));
        ck_assert_str_eq(swapped ? gap->a : gap->b, "no samples");
        ck_assert_str_eq(swapped ? gap->b : gap->a, "recorded");
        forget(&pair);
    }
}
END_TEST

/* 5 hPa are let go, more is told, each record's as it says. */
START_TEST(surface_pressures)
{
    static const struct {
        double b_bar;
        const char *told;
    } rows[] = {{1.0149, NULL}, {1.0151, "1.015 bar"}, {1.0051, NULL}, {1.0049, "1.005 bar"}, {0, NULL}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct pair pair;
        const struct planted a = {.recorder = "unit", .step_s = 5, .surface_bar = 1.01},
                             b = {.recorder = "wrist", .step_s = 5, .surface_bar = rows[i].b_bar};
        compare(&pair, &a, &b);
        const struct plm_difference *surface = difference(&pair, PLM_DIFFERENCE_SURFACE, 0);
        ck_assert_msg((surface != NULL) == (rows[i].told != NULL), "%g bar", rows[i].b_bar);
        if (surface != NULL) {
            ck_assert_str_eq(surface->a, "1.010 bar");
            ck_assert_str_eq(surface->b, rows[i].told);
        }
        forget(&pair);
    }
}
END_TEST

/* What each record is worth is told in figures: 5500 s are 92 min; 98 s of gap are not recorded, and 90 min are left.
 */
START_TEST(the_verdict_tells_what_each_has)
{
    struct pair pair;
    const struct planted unit = {.recorder = "unit", .step_s = 2, .cells = true, .gap_from_s = 1900, .gap_to_s = 1998},
                         wrist = {.recorder = "wrist", .step_s = 5};
    compare(&pair, &unit, &wrist);
    const char *verdict = plm_reconciliation_verdict(pair.reconciliation);
    ck_assert_msg(strstr(verdict, "record 1 is the more complete") != NULL, "%s", verdict);
    ck_assert_msg(strstr(verdict, "90 min recorded, a sample every 2 s, 1 gap, 3 oxygen cells") != NULL, "%s", verdict);
    ck_assert_msg(strstr(verdict, "92 min recorded, a sample every 5 s, 0 gaps, no oxygen cells") != NULL, "%s",
                  verdict);
    ck_assert_msg(strstr(verdict, "no breathing gas") == NULL && verdict[strlen(verdict) - 1] == '.', "%s", verdict);
    forget(&pair);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {clocks_in_words,
                                  depths_apart_for_more_than_a_minute,
                                  depths_are_told_on_average,
                                  gaps_are_told_in_the_first_one_s_time,
                                  surface_pressures,
                                  the_verdict_tells_what_each_has};
    return SUITE_RUN("differences", tests);
}
