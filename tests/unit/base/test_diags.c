/*
 * Words of statuses and diagnostics, their one written form, telling, folding, safety of what is shown.
 * Source: our contracts in plimsoll/diag.h and base/diags.h and base/fold.h.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <plimsoll/status.h>
#include <stdlib.h>
#include <string.h>

#include "base/diags.h"
#include "base/fold.h"
#include "unit/diag_list.h"

START_TEST(words)
{
    for (int i = 0; i <= PLM_STATUS_UNSOLVABLE; i++) {
        ck_assert_uint_gt(strlen(plm_status_text((enum plm_status)i)), 1);
    }
    ck_assert_str_eq(plm_status_text((enum plm_status)99), "unknown status");
    ck_assert_str_eq(plm_diag_id_text(PLM_DIAG_TIME_ORDER), "time-order");
    ck_assert_str_eq(plm_diag_id_text(PLM_DIAG_COUNT), "unknown");
    ck_assert_str_eq(plm_level_text(PLM_LEVEL_WARNING), "warning");
}
END_TEST

/* Kebab words, each once. */
START_TEST(ids_are_kebab_words)
{
    for (int i = 0; i < PLM_DIAG_COUNT; i++) {
        const char *id = plm_diag_id_text((enum plm_diag_id)i);
        ck_assert_msg(strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen(id), "%s", id);
        for (int j = 0; j < i; j++) {
            ck_assert_str_ne(plm_diag_id_text((enum plm_diag_id)j), id);
        }
    }
}
END_TEST

START_TEST(the_written_form)
{
    static const struct {
        const char *file;
        long line, column;
        const char *want;
    } rows[] = {
        {"dive.csv", 41, 7, "dive.csv:41:7: warning: text [time-order]"},
        {"dive.csv", 41, 0, "dive.csv:41: warning: text [time-order]"},
        {"dive.csv", 0, 0, "dive.csv: warning: text [time-order]"},
        {"dive.csv", 0, 7, "dive.csv: warning: text [time-order]"},
        {NULL, 3, 1, "3:1: warning: text [time-order]"},
        {NULL, 0, 0, "warning: text [time-order]"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_diag diag = {
            PLM_LEVEL_WARNING, PLM_DIAG_TIME_ORDER, {rows[i].file, rows[i].line, rows[i].column}, "text"};
        char buffer[100];
        ck_assert_uint_eq(plm_diag_format(&diag, buffer, sizeof buffer), strlen(rows[i].want));
        ck_assert_str_eq(buffer, rows[i].want);
        char few[8];
        ck_assert_uint_eq(plm_diag_format(&diag, few, sizeof few), strlen(rows[i].want));
        ck_assert_uint_eq(strlen(few), 7);
    }
}
END_TEST

START_TEST(repeats_are_folded_and_counted)
{
    struct diag_list told;
    struct plm_diag_sink sink = diag_list_sink(&told);
    struct plmi_fold fold;
    struct plmi_diags diags;
    plmi_fold_init(&fold, &sink, "d.csv");
    plmi_diags_init(&diags, &fold.sink, "d.csv");
    for (int i = 1; i <= 33; i++) {
        plmi_diags_add(&diags, PLM_LEVEL_WARNING, PLM_DIAG_NUMBER, i, 2, "\"%s\" is no number; row %d dropped", "x", i);
    }
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_READ, 0, 0, "cannot be read");
    ck_assert_int_eq(told.count, 21);
    ck_assert_str_eq(told.lines[19], "d.csv:20:2: warning: \"x\" is no number; row 20 dropped [number]");
    plmi_fold_finish(&fold);
    ck_assert_int_eq(told.count, 22);
    ck_assert_str_eq(told.lines[21], "d.csv: note: 13 more of [number] not shown [folded]");
    plmi_fold_finish(&fold);
    ck_assert_int_eq(told.count, 22);
}
END_TEST

START_TEST(telling_alone_folds_nothing)
{
    struct diag_list told;
    struct plm_diag_sink sink = diag_list_sink(&told);
    const struct plmi_diags diags = {&sink, "d.csv"};
    for (int i = 1; i <= 33; i++) {
        plmi_diags_add(&diags, PLM_LEVEL_WARNING, PLM_DIAG_NUMBER, i, 2, "row %d", i);
    }
    ck_assert_int_eq(told.count, 33);
    ck_assert_str_eq(told.lines[32], "d.csv:33:2: warning: row 33 [number]");
}
END_TEST

START_TEST(what_steers_a_terminal_is_not_passed_on)
{
    struct diag_list told;
    struct plm_diag_sink sink = diag_list_sink(&told);
    struct plmi_diags diags;
    plmi_diags_init(&diags, &sink, "d.csv");
    plmi_diags_add(&diags, PLM_LEVEL_NOTE, PLM_DIAG_UNUSED, 0, 0, "%s",
                   "\x1b[2J\r\n\xff\xc2\x9b"
                   "1m \xc3\xa9");
    ck_assert_str_eq(told.lines[0], "d.csv: note: \\u{1b}[2J\\u{d}\\u{a}\xef\xbf\xbd\\u{9b}1m \xc3\xa9 [unused]");
}
END_TEST

START_TEST(a_file_name_stays_in_its_place)
{
    char buffer[80];
    struct plm_diag diag = {PLM_LEVEL_ERROR, PLM_DIAG_FILE_MISSING, {"a\x1b]0;t\x07\nb.csv: note", 3, 0}, "x\ny"};
    (void)plm_diag_format(&diag, buffer, (int)sizeof buffer);
    ck_assert_str_eq(buffer, "a\\u{1b}]0;t\\u{7}\\u{a}b.csv: note:3: error: x\\u{a}y [file-missing]");
}
END_TEST

START_TEST(long_text_is_cut_and_no_sink_is_fine)
{
    struct diag_list told;
    struct plm_diag_sink sink = diag_list_sink(&told);
    struct plm_diag_sink none = {NULL, NULL};
    struct plmi_diags diags;
    static char word[5000];
    memset(word, 'x', sizeof word - 1);
    plmi_diags_init(&diags, &sink, "d.csv");
    plmi_diags_add(&diags, PLM_LEVEL_NOTE, PLM_DIAG_UNUSED, 0, 0, "%s", word);
    ck_assert_int_eq(told.count, 1);
    plmi_diags_init(&diags, NULL, "d.csv");
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_UNUSED, 0, 0, "x");
    plmi_diags_init(&diags, &none, "d.csv");
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_UNUSED, 0, 0, "x");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("diags");
    tcase_add_test(tests, words);
    tcase_add_test(tests, ids_are_kebab_words);
    tcase_add_test(tests, the_written_form);
    tcase_add_test(tests, telling_alone_folds_nothing);
    tcase_add_test(tests, repeats_are_folded_and_counted);
    tcase_add_test(tests, what_steers_a_terminal_is_not_passed_on);
    tcase_add_test(tests, a_file_name_stays_in_its_place);
    tcase_add_test(tests, long_text_is_cut_and_no_sink_is_fine);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
