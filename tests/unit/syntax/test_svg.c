/*
 * SVG as it is written: short paths, percentages, names, and nothing unescaped.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "syntax/svg.h"

static struct plmi_text text;

static void setup(void)
{
    plmi_text_init(&text);
}

static void teardown(void)
{
    plmi_text_free(&text);
}

START_TEST(paths_are_short)
{
    static const struct plmi_svg_point points[] = {{10, 20}, {13, 15}, {13, 25}, {9, 25}};
    plmi_svg_path_begin(&text, "line");
    plmi_svg_path_run(&text, points, 4, false);
    plmi_svg_path_run(&text, points, 2, true);
    plmi_svg_path_run(&text, points, 1, false);
    plmi_svg_path_run(&text, points, 0, false);
    plmi_svg_path_end(&text);
    ck_assert_str_eq(text.bytes, "<path class=\"line\" d=\"M10 20l3-5 0 10-4 0M10 20l3-5zM10 20l0 0\"/>\n");
}
END_TEST

START_TEST(names_are_escaped)
{
    plmi_svg_begin(&text, "a", 40, &(struct plmi_svg_name){"<script>", "\"&'"});
    plmi_svg_text(&text, "b", 50, 100.0 / 3, "x < y");
    plmi_svg_end(&text);
    ck_assert_str_eq(text.bytes,
                     "<svg class=\"a\" xmlns=\"http://www.w3.org/2000/svg\" width=\"100%\" height=\"40\" role=\"img\">"
                     "<title>&lt;script&gt;</title><desc>&quot;&amp;&#39;</desc>"
                     "<text class=\"b\" x=\"50.00%\" y=\"33.33%\">x &lt; y</text>\n</svg>\n");
}
END_TEST

START_TEST(rooms_have_no_negative_size)
{
    plmi_svg_rect(&text, "", 1, 2, -1, 4);
    ck_assert_str_eq(text.bytes, "<rect x=\"1.00%\" y=\"2.00%\" width=\"0.00%\" height=\"4.00%\"/>\n");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("svg");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, paths_are_short);
    tcase_add_test(tests, names_are_escaped);
    tcase_add_test(tests, rooms_have_no_negative_size);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
