/*
 * The table of rules and setting one from text.
 * Source: our contract in plimsoll/rules.h.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <plimsoll/rules.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static double number_at(const struct plm_rules *rules, const struct plm_rule_info *rule)
{
    double value = 0;
    memcpy(&value, (const char *)rules + rule->offset, sizeof value);
    return value;
}

START_TEST(the_table_holds_together)
{
    struct plm_rules rules = plm_rules_default();
    size_t count = 0;
    const struct plm_rule_info *table = plm_rules_table(&count);
    ck_assert_uint_gt(count, 60);
    for (size_t i = 0; i < count; i++) {
        ck_assert_msg(strlen(table[i].meaning) > 5 && strlen(table[i].source) > 5, "%s", table[i].key);
        ck_assert_msg(strspn(table[i].key, "abcdefghijklmnopqrstuvwxyz0123456789_") == strlen(table[i].key), "%s",
                      table[i].key);
        if (table[i].words == NULL) {
            bool inside = table[i].min <= table[i].value && table[i].value <= table[i].max;
            ck_assert_msg(inside, "%s", table[i].key);
            ck_assert_double_eq(number_at(&rules, &table[i]), table[i].value);
        } else {
            int index = -1;
            memcpy(&index, (const char *)&rules + table[i].offset, sizeof index);
            ck_assert_int_eq(index, (int)table[i].value);
        }
        for (size_t j = 0; j < i; j++) {
            ck_assert_str_ne(table[i].key, table[j].key);
        }
    }
}
END_TEST

START_TEST(numbers_are_set_within_their_range)
{
    struct plm_rules rules = plm_rules_default();
    ck_assert_int_eq(plm_rules_set(&rules, "gf_low_pct", "45.5"), PLM_STATUS_OK);
    ck_assert_double_eq(rules.gf_low_pct, 45.5);
    static const char *const refused[] = {"0.5", "101", "x", "", "45,5", "nan", "1e999", "30 %"};
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        ck_assert_msg(plm_rules_set(&rules, "gf_low_pct", refused[i]) == PLM_STATUS_ARGUMENT, "%s", refused[i]);
    }
    ck_assert_double_eq(rules.gf_low_pct, 45.5);
    ck_assert_int_eq(plm_rules_set(&rules, "gf_low", "30"), PLM_STATUS_ARGUMENT);
    ck_assert_int_eq(plm_rules_set(&rules, "", "30"), PLM_STATUS_ARGUMENT);
}
END_TEST

START_TEST(choices_are_set_by_word)
{
    struct plm_rules rules = plm_rules_default();
    ck_assert_int_eq(rules.model, 2);
    ck_assert_int_eq(plm_rules_set(&rules, "model", "B"), PLM_STATUS_OK);
    ck_assert_int_eq(rules.model, 1);
    ck_assert_int_eq(plm_rules_set(&rules, "model", "a"), PLM_STATUS_OK);
    ck_assert_int_eq(rules.model, 0);
    ck_assert_int_eq(plm_rules_set(&rules, "oxygen", "setpoint"), PLM_STATUS_OK);
    ck_assert_int_eq(rules.oxygen, 2);
    static const char *const refused[] = {"D", "", "A|B", "set", "1", "auto|measured"};
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        ck_assert_int_eq(plm_rules_set(&rules, "model", refused[i]), PLM_STATUS_ARGUMENT);
        ck_assert_int_eq(plm_rules_set(&rules, "oxygen", refused[i]), PLM_STATUS_ARGUMENT);
    }
    ck_assert(rules.model == 0 && rules.oxygen == 2);
}
END_TEST

START_TEST(the_nearest_key)
{
    ck_assert_str_eq(plm_rules_nearest("gf_lo_pct"), "gf_low_pct");
    ck_assert_str_eq(plm_rules_nearest("last_stop"), "last_stop_m");
    ck_assert_str_eq(plm_rules_nearest("modle"), "model");
    ck_assert_uint_gt(strlen(plm_rules_nearest("")), 0);
}
END_TEST

/* Field by field: those stated, but for those kept. */
START_TEST(rules_are_laid_over_rules)
{
    struct plm_rules rules = plm_rules_default(), over = plm_rules_default();
    struct plm_rules_stated stated = {0}, kept = {0};
    over.gf_low_pct = 50;
    over.last_stop_m = 6;
    over.model = 0;
    over.gap_s = 5;
    ck_assert(!plm_rules_stated_has(NULL, "model") && !plm_rules_stated_has(&stated, "model"));
    plm_rules_lay(&rules, &over, &stated, &kept);
    ck_assert(rules.gf_low_pct == 30 && rules.last_stop_m == 3 && rules.model == 2);
    plm_rules_stated_add(&stated, "gf_low_pct");
    plm_rules_stated_add(&stated, "last_stop_m");
    plm_rules_stated_add(&stated, "model");
    plm_rules_stated_add(&stated, "no such rule");
    plm_rules_stated_add(&kept, "last_stop_m");
    ck_assert(stated.gf_low_pct && stated.last_stop_m && stated.model && !stated.gf_high_pct && !stated.gap_s);
    ck_assert(plm_rules_stated_has(&stated, "model") && !plm_rules_stated_has(&stated, "no such rule"));
    plm_rules_lay(&rules, &over, &stated, &kept);
    ck_assert(rules.gf_low_pct == 50 && rules.last_stop_m == 3 && rules.model == 0 && rules.gap_s == 60);
    plm_rules_lay(&rules, &over, &stated, NULL);
    ck_assert(rules.last_stop_m == 6);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("rules");
    tcase_add_test(tests, the_table_holds_together);
    tcase_add_test(tests, numbers_are_set_within_their_range);
    tcase_add_test(tests, choices_are_set_by_word);
    tcase_add_test(tests, the_nearest_key);
    tcase_add_test(tests, rules_are_laid_over_rules);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
