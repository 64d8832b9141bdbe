/*
 * Text that grows, comparisons, UTF-8.
 * Source of the UTF-8 rows: The Unicode Standard, tables 3-7 and 3-8 (ill-formed sequences).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"

START_TEST(text_grows)
{
    struct plmi_text text;
    plmi_text_init(&text);
    ck_assert_ptr_null(text.bytes);
    for (int i = 0; i < 1000; i++) {
        plmi_text_printf(&text, "%d,", i);
    }
    ck_assert_uint_eq(text.count, 10 * 2 + 90 * 3 + 900 * 4);
    ck_assert_uint_eq(strlen(text.bytes), text.count);
    plmi_text_clear(&text);
    ck_assert_str_eq(text.bytes, "");
    plmi_text_add(&text, "a\0b", 3);
    ck_assert(text.count == 3 && memcmp(text.bytes, "a\0b", 4) == 0);
    ck_assert(!text.failed);
    plmi_text_free(&text);
    ck_assert_ptr_null(text.bytes);
}
END_TEST

START_TEST(printf_of_long_text)
{
    static char word[3000];
    memset(word, 'x', sizeof word - 1);
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "<%s>", word);
    plmi_text_printf(&text, "<%s>", word);
    ck_assert_uint_eq(text.count, 2 * (sizeof word + 1));
    ck_assert(text.bytes[sizeof word] == '>' && text.bytes[sizeof word + 1] == '<');
    plmi_text_free(&text);
}
END_TEST

START_TEST(what_cannot_be_held_fails_and_stays_failed)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_puts(&text, "a");
    plmi_text_add(&text, "b", (size_t)-1 / 2);
    ck_assert(text.failed);
    ck_assert_str_eq(text.bytes, "a");
    plmi_text_clear(&text);
    ck_assert(!text.failed);
    plmi_text_free(&text);
}
END_TEST

START_TEST(comparisons)
{
    ck_assert(plmi_text_same("Depth", "dEPTH") && plmi_text_same("", ""));
    ck_assert(!plmi_text_same("a", "ab") && !plmi_text_same("ab", "a") && !plmi_text_same("[", "{"));
    ck_assert(plmi_text_starts("Depth (m)", "depth") && plmi_text_starts("a", ""));
    ck_assert(!plmi_text_starts("dep", "depth"));
}
END_TEST

/* "a", U+00E4 in two bytes, U+20AC in three, U+1F600 in four: whole characters end behind 1, 3, 6 and 10 bytes. */
START_TEST(heads_end_with_a_whole_character)
{
    static const char TEXT[] = "a\xc3\xa4\xe2\x82\xac\xf0\x9f\x98\x80";
    static const size_t WANT[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 10, 10};
    for (size_t room = 0; room < sizeof WANT / sizeof WANT[0]; room++) {
        ck_assert_uint_eq(plmi_text_head(TEXT, room), WANT[room]);
    }
    ck_assert_uint_eq(plmi_text_head("", 0), 0);
}
END_TEST

START_TEST(utf8)
{
    static const struct {
        const char *bytes;
        size_t n, length;
    } rows[] = {
        {"a", 1, 1},
        {"", 0, 0},
        {"\0", 1, 1},
        {"\x7f", 1, 1},
        {"\x80", 1, 0},
        {"\xbf", 1, 0},
        {"\xc2\x80", 2, 2},
        {"\xc1\xbf", 2, 0},
        {"\xc0\xaf", 2, 0},
        {"\xdf\xbf", 2, 2},
        {"\xc3", 1, 0},
        {"\xc3(", 2, 0},
        {"\xe0\xa0\x80", 3, 3},
        {"\xe0\x9f\xbf", 3, 0},
        {"\xed\x9f\xbf", 3, 3},
        {"\xed\xa0\x80", 3, 0},
        {"\xef\xbf\xbf", 3, 3},
        {"\xe2\x82", 2, 0},
        {"\xe2\x82(", 3, 0},
        {"\xf0\x90\x80\x80", 4, 4},
        {"\xf0\x8f\xbf\xbf", 4, 0},
        {"\xf4\x8f\xbf\xbf", 4, 4},
        {"\xf4\x90\x80\x80", 4, 0},
        {"\xf5\x80\x80\x80", 4, 0},
        {"\xff", 1, 0},
        {"\xfe", 1, 0},
        {"\xf0\x90\x80", 3, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_msg(plmi_utf8_length(rows[i].bytes, rows[i].n) == rows[i].length, "row %zu", i);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("text");
    tcase_add_test(tests, text_grows);
    tcase_add_test(tests, printf_of_long_text);
    tcase_add_test(tests, what_cannot_be_held_fails_and_stays_failed);
    tcase_add_test(tests, comparisons);
    tcase_add_test(tests, heads_end_with_a_whole_character);
    tcase_add_test(tests, utf8);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
