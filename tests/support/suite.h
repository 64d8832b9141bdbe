/*
 * The main program of a Check test: one suite, one case, all tests of a table.
 * Must not know what is tested.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SUPPORT_SUITE_H
#define PLM_SUPPORT_SUITE_H

#include <check.h>
#include <stdlib.h>

/* Runs tests[count], each in its own process; timeout_s of each. Returns: exit status. */
static inline int suite_run(const char *name, const TTest *const *tests, size_t count, double timeout_s)
{
    Suite *suite = suite_create(name);
    TCase *tcase = tcase_create(name);
    tcase_set_timeout(tcase, timeout_s);
    for (size_t i = 0; i < count; i++) {
        tcase_add_test(tcase, tests[i]);
    }
    suite_add_tcase(suite, tcase);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#define SUITE_RUN(name, tests) suite_run((name), (tests), sizeof(tests) / sizeof((tests)[0]), 60.0)

#endif
