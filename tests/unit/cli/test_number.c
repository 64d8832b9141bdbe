/*
 * Numbers of the command line against the compiler's and printf's idea of them, and distances between words.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/number.h"

static bool parse(const char *text, double *value)
{
    return plmi_cli_number_parse(text, strlen(text), value);
}

/* What printf gives back with as many digits is the text that was read. */
static bool reads_back(const char *text, double value)
{
    char fixed[64];
    const char *point = strchr(text, '.');
    int digits = point != NULL ? (int)strlen(point + 1) : 0;
    snprintf(fixed, sizeof fixed, "%.*f", digits, value);
    size_t sign = text[0] == '+' ? 1 : 0;
    bool bare = text[sign] == '.' || (point != NULL && point[1] == '\0');
    return bare || strcmp(fixed, text + sign) == 0;
}

START_TEST(numbers_are_rounded_exactly)
{
    static const char *const texts[] = {"0",
                                        "1",
                                        "-1",
                                        "+2.5",
                                        "0.1",
                                        "1013.25",
                                        ".7",
                                        "7.",
                                        "0.9012345678",
                                        "1019.7162",
                                        "-500",
                                        "123456789012345",
                                        "0.00000000000001"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        double value = 0;
        ck_assert_msg(parse(texts[i], &value), "%s", texts[i]);
        ck_assert_msg(reads_back(texts[i], value), "%s", texts[i]);
    }
}
END_TEST

START_TEST(numbers_equal_the_compiler_s)
{
    static const struct {
        const char *text;
        double value;
    } rows[] = {{"0.1", 0.1},  {"1013.25", 1013.25},           {".7", 0.7},
                {"7.", 7.0},   {"0.9012345678", 0.9012345678}, {"1019.7162", 1019.7162},
                {"-0.3", -0.3}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double value = 0;
        ck_assert(parse(rows[i].text, &value));
        ck_assert_msg(memcmp(&value, &rows[i].value, sizeof value) == 0, "%s", rows[i].text);
    }
}
END_TEST

START_TEST(all_else_is_refused)
{
    static const char *const texts[] = {"",    ".",   "-",  "+",  "1,5",   "1e3", "0x10",
                                        "nan", "inf", " 1", "1 ", "1.2.3", "--1", "1234567890123456"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        double value = 0;
        ck_assert_msg(!parse(texts[i], &value), "%s", texts[i]);
    }
}
END_TEST

START_TEST(whole_numbers)
{
    long value = -1;
    ck_assert(plmi_cli_whole_parse("0", &value) && value == 0);
    ck_assert(plmi_cli_whole_parse("999999999", &value) && value == 999999999);
    ck_assert(!plmi_cli_whole_parse("", &value));
    ck_assert(!plmi_cli_whole_parse("-1", &value));
    ck_assert(!plmi_cli_whole_parse("1.0", &value));
    ck_assert(!plmi_cli_whole_parse("1234567890", &value));
}
END_TEST

START_TEST(distances)
{
    ck_assert_uint_eq(plmi_cli_distance("", ""), 0);
    ck_assert_uint_eq(plmi_cli_distance("debrief", "debrief"), 0);
    ck_assert_uint_eq(plmi_cli_distance("debreif", "debrief"), 2);
    ck_assert_uint_eq(plmi_cli_distance("gff", "gf"), 1);
    ck_assert_uint_eq(plmi_cli_distance("", "abc"), 3);
    ck_assert_uint_eq(plmi_cli_distance("kitten", "sitting"), 3);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("number");
    tcase_add_test(tests, numbers_are_rounded_exactly);
    tcase_add_test(tests, numbers_equal_the_compiler_s);
    tcase_add_test(tests, all_else_is_refused);
    tcase_add_test(tests, whole_numbers);
    tcase_add_test(tests, distances);
    Suite *suite = suite_create("cli");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
