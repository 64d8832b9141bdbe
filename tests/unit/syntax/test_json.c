/*
 * JSON as written, against RFC 8259: section 7 for escapes; numbers have no NaN (section 6).
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "syntax/json.h"

static void write_sample(struct plmi_json *json)
{
    plmi_json_object_begin(json, NULL);
    plmi_json_integer(json, "schema", 1);
    plmi_json_array_begin(json, "list");
    plmi_json_fixed(json, NULL, 1.25, 1);
    plmi_json_fixed(json, NULL, NAN, 1);
    plmi_json_fixed(json, NULL, INFINITY, 1);
    plmi_json_array_end(json);
    plmi_json_object_begin(json, "none");
    plmi_json_object_end(json);
    plmi_json_array_begin(json, "empty");
    plmi_json_array_end(json);
    plmi_json_text(json, "name", "a \"b\" \\ \n\t\r\b\f\x01\x1f /");
    plmi_json_text(json, "gone", NULL);
    plmi_json_null(json, "null");
    plmi_json_bool(json, "yes", true);
    plmi_json_bool(json, "no", false);
    plmi_json_integer(json, "least", INT64_MIN);
    plmi_json_object_end(json);
}

START_TEST(one_line)
{
    struct plmi_text out;
    struct plmi_json json;
    plmi_text_init(&out);
    plmi_json_init(&json, &out, 0);
    write_sample(&json);
    ck_assert_str_eq(out.bytes, "{\"schema\":1,\"list\":[1.2,null,null],\"none\":{},\"empty\":[],"
                                "\"name\":\"a \\\"b\\\" \\\\ \\n\\t\\r\\b\\f\\u0001\\u001f /\",\"gone\":null,"
                                "\"null\":null,\"yes\":true,\"no\":false,\"least\":-9223372036854775808}");
    plmi_text_free(&out);
}
END_TEST

/* RFC 8259, section 7: any character may be escaped. */
START_TEST(what_steers_is_escaped)
{
    struct plmi_text out;
    struct plmi_json json;
    plmi_text_init(&out);
    plmi_json_init(&json, &out, 0);
    plmi_json_text(&json, NULL, "\x7f\xc2\x9b\xe2\x80\xae\xe2\x80\xa8\xd8\x9c\xc3\xa9\xff");
    ck_assert_str_eq(out.bytes, "\"\\u007f\\u009b\\u202e\\u2028\\u061c\xc3\xa9\xef\xbf\xbd\"");
    plmi_text_free(&out);
}
END_TEST

START_TEST(a_line_a_member)
{
    struct plmi_text out;
    struct plmi_json json;
    plmi_text_init(&out);
    plmi_json_init(&json, &out, 2);
    plmi_json_object_begin(&json, NULL);
    plmi_json_integer(&json, "a", 1);
    plmi_json_array_begin(&json, "b");
    plmi_json_integer(&json, NULL, 2);
    plmi_json_integer(&json, NULL, 3);
    plmi_json_array_end(&json);
    plmi_json_object_end(&json);
    ck_assert_str_eq(out.bytes, "{\n  \"a\": 1,\n  \"b\": [\n    2,\n    3\n  ]\n}");
    plmi_text_free(&out);
}
END_TEST

START_TEST(text_is_valid_utf8_whatever_comes)
{
    struct plmi_text out;
    struct plmi_json json;
    plmi_text_init(&out);
    plmi_json_init(&json, &out, 0);
    plmi_json_text(&json, NULL,
                   "\xc2\xb0"
                   "C \xb0 \xed\xa0\x80 \xf0\x9f\x90\x8a \xe2\x82");
    ck_assert_str_eq(out.bytes, "\"\xc2\xb0"
                                "C \xef\xbf\xbd \xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd \xf0\x9f\x90\x8a "
                                "\xef\xbf\xbd\xef\xbf\xbd\"");
    plmi_text_free(&out);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("json");
    tcase_add_test(tests, one_line);
    tcase_add_test(tests, what_steers_is_escaped);
    tcase_add_test(tests, a_line_a_member);
    tcase_add_test(tests, text_is_valid_utf8_whatever_comes);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
