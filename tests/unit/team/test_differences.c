/*
 * What two records tell differently about clock and depth: signs in words, and from when on it is told. What is planted in the records is
 * the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include <plimsoll/reconcile.h>

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
    for (size_t i = 0; i < found->count; i++)
        if (found->differences[i].kind == kind && nth-- == 0)
            return &found->differences[i];
    return NULL;
}

/* A clock that shows less is behind, one that shows more ahead; one with more seconds in a true million runs fast. A minute and 100 ppm are let go. */
START_TEST(clocks_in_words)
{
    static const struct { double behind_s, fast_ppm; const char *late, *drift; } rows[] = {
        {300, 0, "behind", NULL},       {-300, 0, "ahead", NULL},      {0, 400, NULL, "fast"},          {0, -400, NULL, "slow"},
        {300, 400, "behind", "fast"},   {-300, -400, "ahead", "slow"}, {50, 60, NULL, NULL},            {-50, -60, NULL, NULL},
        {61, 0, "behind", NULL},        {59, 0, NULL, NULL},
    };
    static const char *const words[] = {"behind", "ahead", "fast", "slow"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct pair pair;
        const struct planted right = {.recorder = "unit", .step_s = 2};
        const struct planted off = {.recorder = "wrist", .step_s = 2, .behind_s = rows[i].behind_s, .fast_ppm = rows[i].fast_ppm};
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
 * Samples every 5 s; b shows 2 m more from 1000 s on. Of 13 samples the last is a minute behind the first, which is not told; with the 14th it is.
 * 0.9 m more for five minutes are not told, 1.1 m are.
 */
START_TEST(depths_apart_for_more_than_a_minute)
{
    static const struct { double wrong_m, to_s; bool told; } rows[] = {
        {2, 1005, false}, {2, 1065, false}, {2, 1070, true}, {-2, 1070, true}, {0.9, 1300, false}, {1.1, 1300, true}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct pair pair;
        const struct planted right = {.recorder = "unit", .step_s = 5};
        const struct planted wrong = {.recorder = "wrist", .step_s = 5, .wrong_m = rows[i].wrong_m, .wrong_from_s = 1000, .wrong_to_s = rows[i].to_s};
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

int main(void)
{
    const TTest *const tests[] = {clocks_in_words, depths_apart_for_more_than_a_minute};
    return SUITE_RUN("differences", tests);
}
