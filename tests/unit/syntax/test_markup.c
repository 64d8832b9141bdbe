/*
 * Escapes of HTML and XML, against the HTML standard (13.1.2.3, attribute values; text) and XML 1.0 (2.2, 2.4);
 * cells of CSV against RFC 4180 (2.5 to 2.7).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "syntax/markup.h"

static void check_markup(const char *text, const char *want)
{
    struct plmi_text out;
    plmi_text_init(&out);
    plmi_markup_text(&out, text);
    ck_assert_str_eq(out.bytes == NULL ? "" : out.bytes, want);
    plmi_text_free(&out);
}

START_TEST(text)
{
    check_markup("", "");
    check_markup("a < b & c > \"d\" 'e'", "a &lt; b &amp; c &gt; &quot;d&quot; &#39;e&#39;");
    check_markup("<script>", "&lt;script&gt;");
    check_markup("a\x01\x1b[1m\x7f\tb\n", "a\\u{1}\\u{1b}[1m\\u{7f}\tb\n");
    check_markup("\xc2\x85"
                 "x\xef\xbf\xbe\xe2\x80\xae",
                 "\\u{85}x\\u{202e}");
    check_markup("\xff \xc3\xa9 \xe2\x82", "\xef\xbf\xbd \xc3\xa9 \xef\xbf\xbd\xef\xbf\xbd");
}
END_TEST

/* XML 1.0, 2.2: U+0080 to U+009F and the controls of direction are characters, U+001B is none. */
START_TEST(xml)
{
    struct plmi_text out;
    plmi_text_init(&out);
    plmi_xml_text(&out, "a<\x1b\t\xc2\x85\xe2\x80\xae\x7f");
    ck_assert_str_eq(out.bytes, "a&lt;\t&#x85;&#x202e;&#x7f;");
    plmi_text_free(&out);
}
END_TEST

START_TEST(attribute)
{
    struct plmi_text out;
    plmi_text_init(&out);
    plmi_markup_attribute(&out, "title", "\" onload=\"x");
    ck_assert_str_eq(out.bytes, " title=\"&quot; onload=&quot;x\"");
    plmi_text_free(&out);
}
END_TEST

START_TEST(cell)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"", ""},
        {"a b", "a b"},
        {"a,b", "\"a,b\""},
        {"say \"hi\"", "\"say \"\"hi\"\"\""},
        {"\"", "\"\"\"\""},
        {"two\nlines", "\"two\\u{a}lines\""},
        {"a\r", "\"a\\u{d}\""},
        {" a", "\" a\""},
        {"a;b", "\"a;b\""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_text out;
        plmi_text_init(&out);
        plmi_csv_cell(&out, rows[i].text);
        ck_assert_str_eq(out.bytes == NULL ? "" : out.bytes, rows[i].want);
        plmi_text_free(&out);
    }
}
END_TEST

/* Source: OWASP, "CSV Injection": = + - @ tab and CR; the full-width forms are from memory. */
START_TEST(formulas)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"=1+1", "\"'=1+1\""},
        {"+1", "\"'+1\""},
        {"-1", "\"'-1\""},
        {"@SUM(A1)", "\"'@SUM(A1)\""},
        {"\t=1", "\"\\u{9}=1\""},
        {"\r=1", "\"\\u{d}=1\""},
        {"=1\",2", "\"'=1\"\",2\""},
        {"'=x", "\"''=x\""},
        {"''-", "\"'''-\""},
        {"'", "'"},
        {"'tis", "'tis"},
        {"a=1", "a=1"},
        {"\xef\xbc\x9d"
         "1",
         "\"'\xef\xbc\x9d"
         "1\""},
        {"\\u{1b}", "\\u{5c}u{1b}"},
        {"\xe2\x80\xae=", "\"\\u{202e}=\""},
        {"\\", "\\"},
        {"\\\\u{", "\\\\u{5c}u{"},
        {"\xff=", "\"\xef\xbf\xbd=\""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_text out;
        plmi_text_init(&out);
        plmi_csv_cell(&out, rows[i].text);
        ck_assert_str_eq(out.bytes, rows[i].want);
        plmi_text_free(&out);
    }
}
END_TEST

static void check_read(const char *written, const char *want)
{
    char bytes[100];
    size_t count = strlen(written);
    memcpy(bytes, written, count);
    count = plmi_csv_cell_read(bytes, count);
    ck_assert_uint_eq(count, strlen(want));
    ck_assert_mem_eq(bytes, want, count);
}

/* Cells of others stay as they are, but for what a formula's apostrophe is for everywhere. */
START_TEST(cells_are_read_back)
{
    check_read("", "");
    check_read("'", "'");
    check_read("'tis", "'tis");
    check_read("'=x", "=x");
    check_read("''=x", "'=x");
    check_read("'-12.5", "-12.5");
    check_read("\\u{5c}u{1b}", "\\u{1b}");
    check_read("\\u{202e}\\u{a}\\u{85}", "\xe2\x80\xae\n\xc2\x85");
    check_read("\\u{1b}\\u{0}\\u{e9}\\u{}\\u{12345678}\\u{a", "\\u{1b}\\u{0}\\u{e9}\\u{}\\u{12345678}\\u{a");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("markup");
    tcase_add_test(tests, text);
    tcase_add_test(tests, attribute);
    tcase_add_test(tests, xml);
    tcase_add_test(tests, cell);
    tcase_add_test(tests, formulas);
    tcase_add_test(tests, cells_are_read_back);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
