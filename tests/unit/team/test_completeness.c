/*
 * The most complete of several records, in whatever order they come.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/completeness.h>

#include "support/made_dive.h"
#include "support/suite.h"
#include "team/completeness.h"

START_TEST(merits_come_in_turn)
{
    static const struct plm_completeness longer = {3600, 10, 0, false}, gas = {3500, 10, 0, true},
                                         cells = {3500, 10, 3, true}, fine = {3500, 1, 3, true};
    const struct plm_completeness list[] = {longer, gas, cells, fine};
    const struct plm_completeness much_longer[] = {{3700, 10, 0, false}, fine};
    ck_assert_uint_eq(plm_completeness_best(list, 1), 0);
    ck_assert_uint_eq(plm_completeness_best(list, 2), 1);
    ck_assert_uint_eq(plm_completeness_best(list, 3), 2);
    ck_assert_uint_eq(plm_completeness_best(list, 4), 3);
    ck_assert_uint_eq(plm_completeness_best(much_longer, 2), 0);
}
END_TEST

/* In pairs a is like b, b like c, and c longer than a: a choice by pairs would depend on their order. */
START_TEST(order_does_not_matter)
{
    static const struct plm_completeness three[] = {{3600, 1, 3, true}, {3700, 10, 0, true}, {3790, 5, 0, true}};
    static const int orders[][3] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    for (int i = 0; i < 6; i++) {
        const struct plm_completeness list[] = {three[orders[i][0]], three[orders[i][1]], three[orders[i][2]]};
        ck_assert_int_eq(orders[i][plm_completeness_best(list, 3)], 2);
    }
}
END_TEST

/* Of two: which is worth more, by each merit in turn, on both sides of what is alike. A merit that comes later never
 * outweighs. */
START_TEST(one_of_two)
{
    static const struct {
        struct plmi_completeness a, b;
        int more;
    } rows[] = {
        {{.covered_s = 3721, .step_s = 10},
         {.covered_s = 3600, .step_s = 1, .cells = 3, .gas = true, .stamp = true},
         1},
        {{.covered_s = 3720, .step_s = 10}, {.covered_s = 3600, .step_s = 10}, 0},
        {{.covered_s = 3720, .step_s = 10}, {.covered_s = 3600, .step_s = 10, .gas = true}, -1},
        {{.covered_s = 3600, .step_s = 10, .gas = true},
         {.covered_s = 3600, .step_s = 1, .cells = 3, .stamp = true},
         1},
        {{.covered_s = 3600, .step_s = 10, .cells = 1}, {.covered_s = 3600, .step_s = 1, .stamp = true}, 1},
        {{.covered_s = 3600, .step_s = 1.4}, {.covered_s = 3600, .step_s = 2, .stamp = true}, 1},
        {{.covered_s = 3600, .step_s = 1.5}, {.covered_s = 3600, .step_s = 2}, 0},
        {{.covered_s = 3600, .step_s = 1.5}, {.covered_s = 3600, .step_s = 2, .stamp = true}, -1},
        {{.covered_s = 3600, .step_s = 1.5}, {.covered_s = 3600, .step_s = 2.02, .stamp = true}, 1},
        {{.covered_s = 3600, .step_s = 2}, {.covered_s = 3600, .step_s = 2}, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double ab = plmi_completeness_compare(&rows[i].a, &rows[i].b),
               ba = plmi_completeness_compare(&rows[i].b, &rows[i].a);
        ck_assert_msg((ab > 0) - (ab < 0) == rows[i].more && (ba > 0) - (ba < 0) == -rows[i].more, "row %zu: %g and %g",
                      i, ab, ba);
    }
}
END_TEST

START_TEST(a_gap_is_not_covered)
{
    struct made_dive made = made_start(1.0);
    struct plm_completeness worth;
    made_loop(&made, 0.2, 0.4, 1.2);
    for (int i = 0; i <= 60; i++) {
        if (i < 20 || i > 30) {
            made_sample_cells(&made, i * 10, i == 0 || i == 60 ? 0 : 20, 1.2, 1.2, 1.2);
        }
    }
    struct plm_dive *dive = made_finish(&made);
    ck_assert_int_eq(plm_completeness_find(&worth, dive, NULL), PLM_STATUS_OK);
    ck_assert_double_eq_tol(worth.covered_s, 480, 1e-9);
    ck_assert_double_eq_tol(worth.step_s, 10, 1e-9);
    ck_assert(worth.cells == 3 && worth.gas);
    plm_dive_free(dive);
}
END_TEST

/* Up to a minute no recorder is said to have slept (a convention of ours); a second more is a gap. */
START_TEST(a_gap_is_more_than_a_minute)
{
    for (int longer = 0; longer <= 1; longer++) {
        struct made_dive made = made_start(1.0);
        struct plm_completeness worth;
        made_open(&made, 0.21, 0);
        for (int i = 0; i <= 30; i++) {
            made_sample(&made, i * 10 + (i > 15 ? 50 + longer : 0), i == 0 || i == 30 ? 0 : 20);
        }
        struct plm_dive *dive = made_finish(&made);
        ck_assert_int_eq(plm_completeness_find(&worth, dive, NULL), PLM_STATUS_OK);
        ck_assert_double_eq_tol(worth.covered_s, longer ? 290 : 350, 1e-9);
        plm_dive_free(dive);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {merits_come_in_turn, order_does_not_matter, one_of_two, a_gap_is_not_covered,
                                  a_gap_is_more_than_a_minute};
    return SUITE_RUN("worth", tests);
}
