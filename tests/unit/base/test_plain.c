/*
 * What steers a terminal is shown, and all else stays.
 * Sources: The Unicode Standard 15.0, DerivedGeneralCategory.txt (Cc, Zl, Zp), PropList.txt (Bidi_Control), table 3-8
 * (ill-formed sequences).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/text.h>

#include "base/plain.h"
#include "base/text.h"

START_TEST(controls_are_shown)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"", ""},
        {NULL, ""},
        {"Tern", "Tern"},
        {"T\xc3\xa9rn \xe6\xb5\xb7 \xf0\x9f\x8c\x8a", "T\xc3\xa9rn \xe6\xb5\xb7 \xf0\x9f\x8c\x8a"},
        {"\x1b[2J", "\\u{1b}[2J"},
        {"a\nb\r\tc", "a\\u{a}b\\u{d}\\u{9}c"},
        {"\x7f\x01", "\\u{7f}\\u{1}"},
        {"\xc2\x80\xc2\x9b\xc2\x9f", "\\u{80}\\u{9b}\\u{9f}"},
        {"\xc2\xa0", "\xc2\xa0"},
        {"\xd8\x9c", "\\u{61c}"},
        {"\xe2\x80\x8d", "\xe2\x80\x8d"},
        {"\xe2\x80\x8e\xe2\x80\x8f", "\\u{200e}\\u{200f}"},
        {"\xe2\x80\xa8\xe2\x80\xa9", "\\u{2028}\\u{2029}"},
        {"\xe2\x80\xaa\xe2\x80\xae\xe2\x80\xaf", "\\u{202a}\\u{202e}\xe2\x80\xaf"},
        {"\xe2\x81\xa5\xe2\x81\xa6\xe2\x81\xa9\xe2\x81\xaa", "\xe2\x81\xa5\\u{2066}\\u{2069}\xe2\x81\xaa"},
        {"\xff \xc3", "\xef\xbf\xbd \xef\xbf\xbd"},
        {"\xed\xa0\x80", "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd"},
        {"\xc0\x8a", "\xef\xbf\xbd\xef\xbf\xbd"},
        {"\\u{1b}", "\\u{1b}"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char shown[100];
        ck_assert_uint_eq(plm_text_plain(rows[i].text, shown, sizeof shown), strlen(rows[i].want));
        ck_assert_str_eq(shown, rows[i].want);
        /* What was made plain stays as it is. */
        char again[100];
        (void)plm_text_plain(shown, again, (int)sizeof again);
        ck_assert_str_eq(again, shown);
    }
}
END_TEST

START_TEST(a_cut_is_between_characters)
{
    static const char text[] = "ab\xc3\xa9\x1b"
                               "cd";
    static const char *const want[] = {"",
                                       "a",
                                       "ab",
                                       "ab",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9",
                                       "ab\xc3\xa9\\u{1b}",
                                       "ab\xc3\xa9\\u{1b}c",
                                       "ab\xc3\xa9\\u{1b}cd",
                                       "ab\xc3\xa9\\u{1b}cd"};
    for (size_t size = 1; size <= sizeof want / sizeof want[0]; size++) {
        char shown[20];
        memset(shown, '#', sizeof shown);
        ck_assert_uint_eq(plm_text_plain(text, shown, size), 12);
        ck_assert_str_eq(shown, want[size - 1]);
        ck_assert_int_eq(shown[size], '#');
    }
}
END_TEST

START_TEST(a_plain_text_takes_nothing_else)
{
    static char word[600];
    struct plmi_text text;
    memset(word, 'x', sizeof word - 2);
    word[sizeof word - 2] = '\n';
    plmi_text_init_plain(&text);
    plmi_text_puts(&text, "a\nb\n\n");
    plmi_text_printf(&text, "%s of %s\n", "\x1b[1m", "x\ny");
    plmi_text_add(&text, "\0\n", 2);
    plmi_text_add_raw(&text, "\x1b[0m", 4);
    ck_assert_str_eq(text.bytes, "a\\u{a}b\n\n\\u{1b}[1m of x\\u{a}y\n\\u{0}\n\x1b[0m");
    plmi_text_clear(&text);
    plmi_text_printf(&text, "%s\x7f", word);
    ck_assert_str_eq(text.bytes + sizeof word - 2, "\\u{a}\\u{7f}");
    plmi_text_free(&text);
    plmi_text_puts(&text, "\r");
    ck_assert_str_eq(text.bytes, "\\u{d}");
    plmi_text_free(&text);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("plain");
    tcase_add_test(tests, controls_are_shown);
    tcase_add_test(tests, a_cut_is_between_characters);
    tcase_add_test(tests, a_plain_text_takes_nothing_else);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
