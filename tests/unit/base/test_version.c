/*
 * The version that the library tells is the one of its header, and of the build, in words and as a number.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <plimsoll/version.h>
#include <stdlib.h>

START_TEST(version_is_that_of_the_header)
{
    ck_assert_str_eq(plm_version_get(), PLM_VERSION);
    ck_assert_int_eq(plm_version_number(), PLM_VERSION_NUMBER);
}
END_TEST

START_TEST(version_is_that_of_the_build)
{
    const char *build = getenv("PLMI_BUILD_VERSION");
    char *end = NULL;
    ck_assert_ptr_nonnull(build);
    ck_assert_str_eq(PLM_VERSION, build);
    ck_assert_int_eq(PLM_VERSION_MAJOR, strtol(build, &end, 10));
    ck_assert_int_eq(PLM_VERSION_MINOR, strtol(end + 1, &end, 10));
    ck_assert_int_eq(PLM_VERSION_PATCH, strtol(end + 1, &end, 10));
}
END_TEST

START_TEST(versions_are_compared_part_by_part)
{
    ck_assert(PLM_VERSION_AT_LEAST(PLM_VERSION_MAJOR, PLM_VERSION_MINOR, PLM_VERSION_PATCH));
    ck_assert(PLM_VERSION_AT_LEAST(0, 0, 999));
    ck_assert(!PLM_VERSION_AT_LEAST(PLM_VERSION_MAJOR, PLM_VERSION_MINOR, PLM_VERSION_PATCH + 1));
    ck_assert(!PLM_VERSION_AT_LEAST(PLM_VERSION_MAJOR + 1, 0, 0));
    ck_assert_int_lt(PLM_VERSION_NUMBER_OF(1, 9, 30), PLM_VERSION_NUMBER_OF(1, 10, 2));
    ck_assert_int_lt(PLM_VERSION_NUMBER_OF(1, 999, 999), PLM_VERSION_NUMBER_OF(2, 0, 0));
#if !PLM_VERSION_AT_LEAST(0, 1, 0)
#error "the preprocessor cannot compare versions"
#endif
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("version");
    tcase_add_test(tests, version_is_that_of_the_header);
    tcase_add_test(tests, version_is_that_of_the_build);
    tcase_add_test(tests, versions_are_compared_part_by_part);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
