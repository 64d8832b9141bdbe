/*
 * Escapes of HTML and XML, against the HTML standard (13.1.2.3, attribute values; text) and XML 1.0 (2.2, 2.4);
 * cells of CSV against RFC 4180 (2.5 to 2.7).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>

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
    check_markup("a\x01\x1b[1m\x7f\tb\n", "a[1m\tb\n");
    check_markup("\xc2\x85" "x\xef\xbf\xbe", "x");
    check_markup("\xff \xc3\xa9 \xe2\x82", "\xef\xbf\xbd \xc3\xa9 \xef\xbf\xbd\xef\xbf\xbd");
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
    static const struct { const char *text, *want; } rows[] = {
        { "", "" }, { "a b", "a b" }, { "a,b", "\"a,b\"" }, { "say \"hi\"", "\"say \"\"hi\"\"\"" }, { "\"", "\"\"\"\"" },
        { "two\nlines", "\"two\nlines\"" }, { "a\r", "\"a\r\"" }, { " a", "\" a\"" }, { "a;b", "\"a;b\"" }, { "-1.5", "-1.5" },
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

int main(void)
{
    TCase *tests = tcase_create("markup");
    tcase_add_test(tests, text);
    tcase_add_test(tests, attribute);
    tcase_add_test(tests, cell);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
