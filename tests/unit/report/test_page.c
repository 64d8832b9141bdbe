/*
 * Plain text stays within 80 columns, whatever it says, and cannot steer a terminal.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "report/output/page.h"

static struct plmi_text text;
static struct plmi_page page;

static void setup(void)
{
    plmi_text_init(&text);
    page = (struct plmi_page){.out = &text};
}

static void teardown(void)
{
    plmi_text_free(&text);
}

START_TEST(paragraphs_wrap)
{
    for (int i = 0; i < 60; i++) {
        plmi_text_puts(&text, "");
    }
    plmi_page_wrap(
        &page, 0, 4,
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen");
    ck_assert_str_eq(text.bytes, "one two three four five six seven eight nine ten eleven twelve thirteen fourteen\n"
                                 "    fifteen sixteen seventeen\n");
}
END_TEST

START_TEST(letters_count_and_not_bytes)
{
    ck_assert_int_eq(plmi_page_width("Tümpel"), 6);
    plmi_page_cell(&page, 8, "Tümpel");
    plmi_page_cell(&page, -5, "x");
    plmi_page_line_end(&page);
    ck_assert_str_eq(text.bytes, "Tümpel      x\n");
}
END_TEST

START_TEST(blanks_at_the_end_go)
{
    plmi_page_cell(&page, 8, "a");
    plmi_page_line_end(&page);
    ck_assert_str_eq(text.bytes, "a\n");
}
END_TEST

START_TEST(control_codes_are_shown_not_sent)
{
    plmi_page_wrap(&page, 0, 0,
                   "evil\033[2Jname\a \xC2\x9B"
                   "31m \xFF");
    ck_assert_ptr_null(strchr(text.bytes, '\033'));
    ck_assert_str_eq(text.bytes, "evil\\u{1b}[2Jname\\u{7} \\u{9b}31m \xEF\xBF\xBD\n");
}
END_TEST

START_TEST(what_is_shown_is_what_is_measured)
{
    plmi_page_cell(&page, 12, "a\nb");
    plmi_page_cell(&page, 1, "|");
    plmi_page_line_end(&page);
    ck_assert_str_eq(text.bytes, "a\\u{a}b     |\n");
    plmi_text_clear(&text);
    plmi_page_heading(&page, "x\ny");
    plmi_page_row(&page, "l\n", "\xE2\x80\xAE");
    ck_assert_str_eq(text.bytes, "\nx\\u{a}y\n  l\\u{a}              \\u{202e}\n");
}
END_TEST

START_TEST(rows_hang)
{
    plmi_page_row(&page, "Label", "short");
    plmi_page_row(&page, "SHA-256", "5377cb5f5d6614cd58d7f787ff714254a9c0faa5ea809ea7449e913bc50d781b");
    ck_assert_str_eq(text.bytes, "  Label               short\n"
                                 "  SHA-256 5377cb5f5d6614cd58d7f787ff714254a9c0faa5ea809ea7449e913bc50d781b\n");
}
END_TEST

START_TEST(colour_only_where_wanted)
{
    plmi_page_tone(&page, PLMI_PAGE_SERIOUS);
    ck_assert_uint_eq(text.count, 0);
    page.colour = true;
    plmi_page_tone(&page, PLMI_PAGE_SERIOUS);
    ck_assert_ptr_nonnull(strchr(text.bytes, '\033'));
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("page");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, paragraphs_wrap);
    tcase_add_test(tests, letters_count_and_not_bytes);
    tcase_add_test(tests, blanks_at_the_end_go);
    tcase_add_test(tests, control_codes_are_shown_not_sent);
    tcase_add_test(tests, what_is_shown_is_what_is_measured);
    tcase_add_test(tests, rows_hang);
    tcase_add_test(tests, colour_only_where_wanted);
    Suite *suite = suite_create("report");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
