/*
 * Parts of mixes. Source of the bounds: the advice on omitted and inconsistent parts of mixes for the open XML dive
 * format (sum off by more than 0.005 is told, by more than 0.02 refused), which holds for every format here.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>

#include "dive/mix_parts.h"
#include "unit/diag_list.h"

static const struct {
    struct plmi_mix_parts parts;
    int usable;
    double o2, he;
    const char *told; /* NULL: nothing */
} CASES[] = {
    {{0.21, NAN, NAN, NAN, NAN}, 1, 0.21, 0, NULL},
    {{0.21, 0, 0.79, 0, 0}, 1, 0.21, 0, NULL},
    {{0.18, 0.45, 0.37, NAN, NAN}, 1, 0.18, 0.45, NULL},
    {{1, NAN, NAN, NAN, NAN}, 1, 1, 0, NULL},
    {{1, 0, 0, NAN, NAN}, 1, 1, 0, NULL},
    {{0.1, 0.9, NAN, NAN, NAN}, 1, 0.1, 0.9, NULL},
    {{NAN, NAN, 0.68, NAN, NAN}, 1, 0.32, 0, "tells no oxygen"},
    {{NAN, 0.5, NAN, NAN, NAN}, 0, 0, 0, "neither oxygen nor nitrogen"},
    {{21, 0, 79, NAN, NAN}, 1, 0.21, 0, "read as percent"},
    {{18, 45, NAN, NAN, NAN}, 1, 0.18, 0.45, "read as percent"},
    {{1.5, NAN, NAN, NAN, NAN}, 0, 0, 0, "neither 1 nor 100"},
    {{0.2, 1.5, NAN, NAN, NAN}, 0, 0, 0, "neither 1 nor 100"},
    {{0.2, NAN, 1.5, NAN, NAN}, 0, 0, 0, "neither 1 nor 100"},
    {{0.2, NAN, NAN, 1.5, NAN}, 0, 0, 0, "neither 1 nor 100"},
    {{0.2, NAN, NAN, NAN, 1.5}, 0, 0, 0, "neither 1 nor 100"},
    {{0.7, 0.7, NAN, NAN, NAN}, 0, 0, 0, "cannot be"},
    {{0.2095, 0, 0.78, NAN, NAN}, 1, 0.2095, 0, "instead of 1; nitrogen takes"},
    {{0.21, 0, 0.75, NAN, NAN}, 0, 0, 0, "come to 0.96 instead of 1"},
    {{0.21, 0, 0.78, 0.01, NAN}, 1, 0.21, 0, "argon"},
    {{0.04, 0, 0, 0, 0.96}, 0, 0, 0, "hydrogen"},
    {{0, 0, 1, NAN, NAN}, 0, 0, 0, "cannot be"},
    {{-0.1, 0, 1.1, NAN, NAN}, 0, 0, 0, "neither 1 nor 100"},
    {{0.5, -0.1, NAN, NAN, NAN}, 0, 0, 0, "cannot be"},
};

START_TEST(parts_settle)
{
    struct diag_list told;
    struct plm_diag_sink sink = diag_list_sink(&told);
    struct plmi_diags diags;
    struct plmi_mix_parts parts = CASES[_i].parts;
    plmi_diags_init(&diags, &sink, "m");
    ck_assert_int_eq(plmi_mix_parts_settle(&parts, "x", 7, &diags), CASES[_i].usable);
    if (CASES[_i].usable) {
        ck_assert_double_eq_tol(parts.o2, CASES[_i].o2, 1e-15);
        ck_assert_double_eq_tol(parts.he, CASES[_i].he, 1e-15);
        ck_assert_double_eq_tol(parts.o2 + parts.he + parts.n2, 1, 1e-15);
    }
    ck_assert_int_eq(told.count, CASES[_i].told != NULL);
    ck_assert_msg(CASES[_i].told == NULL || diag_list_has(&told, CASES[_i].told), "%s", told.lines[0]);
}
END_TEST

/* Oxygen as the rest: 1 - 0.78 nitrogen - 0.01 argon = 0.21; with helium 0.35, nitrogen 0.43, argon 0.01: 0.21, too.
 * Both guesses are told. */
START_TEST(oxygen_is_what_argon_leaves)
{
    static const struct plmi_mix_parts rows[] = {{NAN, NAN, 0.78, 0.01, NAN}, {NAN, 0.35, 0.43, 0.01, NAN}};
    for (size_t i = 0; i < 2; i++) {
        struct diag_list told;
        struct plm_diag_sink sink = diag_list_sink(&told);
        struct plmi_diags diags;
        struct plmi_mix_parts parts = rows[i];
        plmi_diags_init(&diags, &sink, "m");
        ck_assert(plmi_mix_parts_settle(&parts, "x", 7, &diags));
        ck_assert_double_eq_tol(parts.o2, 0.21, 1e-12);
        ck_assert_double_eq_tol(parts.n2, i == 0 ? 0.79 : 0.44, 1e-12);
        ck_assert(diag_list_has(&told, "tells no oxygen") && diag_list_has(&told, "argon, 0.01"));
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("mix parts");
    tcase_add_loop_test(tests, parts_settle, 0, (int)(sizeof CASES / sizeof CASES[0]));
    tcase_add_test(tests, oxygen_is_what_argon_leaves);
    Suite *suite = suite_create("dive");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
