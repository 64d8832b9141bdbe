/*
 * The version that the library tells is the one of its header.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <plimsoll/version.h>
#include <stdlib.h>

START_TEST(version_is_that_of_the_header)
{
    ck_assert_str_eq(plm_version_get(), PLM_VERSION);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("version");
    tcase_add_test(tests, version_is_that_of_the_header);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
