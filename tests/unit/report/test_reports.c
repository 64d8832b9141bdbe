/*
 * The table of reports: no line twice, names as options list them, and each report about its own subject alone.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>

#include <plimsoll/report_formats.h>
#include <plimsoll/report_ledger.h>
#include <plimsoll/report_team.h>

static enum plm_status count_bytes(void *context, const void *bytes, size_t count)
{
    (void)bytes;
    *(size_t *)context += count;
    return PLM_STATUS_OK;
}

START_TEST(no_line_stands_twice)
{
    for (size_t i = 0; i < plm_report_format_count(); i++) {
        const struct plm_report_format *line = plm_report_format_get(i);
        ck_assert_ptr_eq(plm_report_format_find(line->subject, line->name), line);
    }
}
END_TEST

START_TEST(names_are_joined_for_options_and_for_errors)
{
    char names[64], few[8];
    ck_assert_str_eq(plm_report_format_names(PLM_REPORT_DEBRIEF, "|", "|", names, sizeof names), "text|json|csv|html");
    ck_assert_str_eq(plm_report_format_names(PLM_REPORT_LEDGER_DUE, ", ", " and ", names, sizeof names),
                     "text, json and csv");
    ck_assert_str_eq(plm_report_format_names(PLM_REPORT_FINDINGS, ", ", " and ", names, sizeof names), "csv");
    ck_assert_str_eq(plm_report_format_names(PLM_REPORT_AUDIT, "|", "|", few, sizeof few), "text|js");
}
END_TEST

START_TEST(who_names_no_format_gets_the_first)
{
    ck_assert_str_eq(plm_report_format_find(PLM_REPORT_TRACE, NULL)->name, "csv");
    ck_assert_str_eq(plm_report_format_find(PLM_REPORT_AUDIT, NULL)->name, "text");
    ck_assert_ptr_null(plm_report_format_find(PLM_REPORT_TRACE, "text"));
}
END_TEST

/* What fits another subject is refused, and nothing of it is written. */
START_TEST(a_report_is_about_its_own_subject)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plm_report_options options = plm_report_options_default(&rules);
    for (size_t i = 0; i < plm_report_format_count(); i++) {
        const struct plm_report_format *line = plm_report_format_get(i);
        const struct plm_ledger_listed listed = {NULL, 0};
        const struct plm_report_audited audited = {NULL, NULL};
        struct plm_report *report = NULL;
        size_t bytes = 0;
        const struct plm_sink sink = {count_bytes, &bytes};
        ck_assert_int_eq(plm_report_open(&report, line->subject, line->name, &options, &sink, NULL), PLM_STATUS_OK);
        bytes = 0;
        if (line->subject > PLM_REPORT_HANDOVER) {
            ck_assert_int_eq(plm_report_add(report, NULL), PLM_STATUS_ARGUMENT);
        }
        if (line->subject != PLM_REPORT_FORMATS) {
            ck_assert_int_eq(plm_report_formats_known(report), PLM_STATUS_ARGUMENT);
            ck_assert_int_eq(plm_report_formats_log(report, "a.csv", NULL), PLM_STATUS_ARGUMENT);
            ck_assert_int_eq(plm_report_formats_dive(report, NULL), PLM_STATUS_ARGUMENT);
        }
        if (line->subject != PLM_REPORT_AUDIT) {
            ck_assert_int_eq(plm_report_audit(report, &audited), PLM_STATUS_ARGUMENT);
        }
        if (line->subject != PLM_REPORT_LEDGER_LIST) {
            ck_assert_int_eq(plm_report_ledger_list(report, &listed), PLM_STATUS_ARGUMENT);
        }
        ck_assert_uint_eq(bytes, 0);
        plm_report_free(report);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("reports");
    tcase_add_test(tests, no_line_stands_twice);
    tcase_add_test(tests, names_are_joined_for_options_and_for_errors);
    tcase_add_test(tests, who_names_no_format_gets_the_first);
    tcase_add_test(tests, a_report_is_about_its_own_subject);
    Suite *suite = suite_create("report");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
