/*
 * Every kind has its row, its words and a whole explanation.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "review/kinds/reviewers.h"
#include "support/suite.h"

START_TEST(every_kind_is_in_the_table_once_and_in_order)
{
    size_t count = 0;
    const struct plm_reviewer *const *table = plmi_review_table(&count);
    ck_assert_uint_eq(count, PLM_FINDING_COUNT);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(table[i]->kind, plm_finding_kind_text((enum plm_finding_kind)i));
    }
}
END_TEST

START_TEST(every_kind_is_explained_in_full)
{
    for (int kind = 0; kind < PLM_FINDING_COUNT; kind++) {
        const struct plm_explanation *explanation = plm_finding_explain((enum plm_finding_kind)kind);
        ck_assert_ptr_nonnull(explanation);
        const char *const fields[] = {explanation->what, explanation->reached, explanation->formula,
                                      explanation->source, explanation->ask};
        for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
            ck_assert_ptr_nonnull(fields[i]);
            ck_assert_uint_gt(strlen(fields[i]), 10);
            ck_assert_ptr_nonnull(strchr(".?", fields[i][strlen(fields[i]) - 1]));
        }
        ck_assert_uint_gt(strlen(plm_finding_kind_text((enum plm_finding_kind)kind)), 3);
    }
}
END_TEST

START_TEST(words_of_severity_and_hold)
{
    ck_assert_str_eq(plm_severity_text(PLM_SEVERITY_SERIOUS), "serious");
    ck_assert_str_eq(plm_hold_text(PLM_HOLD_FIRM), "firm");
    ck_assert_str_eq(plm_hold_text(PLM_HOLD_UNTRIED), "untried");
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {every_kind_is_in_the_table_once_and_in_order, every_kind_is_explained_in_full,
                                  words_of_severity_and_hold};
    return SUITE_RUN("explain", tests);
}
