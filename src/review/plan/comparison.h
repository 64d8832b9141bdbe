/*
 * Rows of a comparison while they are collected.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REVIEW_PLAN_COMPARISON_H
#define PLM_REVIEW_PLAN_COMPARISON_H

#include "review/plan/plan.h"

/* Plan and dive side by side, each on its own runtime. */
struct plmi_review_sides {
    const struct plm_review_scene *plan, *dive;
    struct plmi_review_phases planned, done;
    double planned_owed_min, done_owed_min; /* [min] stops owed on leaving the bottom */
};

/* texts holds the words and tells of memory that ran out. */
struct plmi_review_rows {
    struct plm_plan_row *items;
    size_t count, capacity;
    struct plm_finding_list texts;
};

/* what and unit are borrowed: static, or of rows->texts. */
void plmi_review_row(struct plmi_review_rows *rows, const char *what, double planned, double done, const char *unit);
void plmi_review_row_words(struct plmi_review_rows *rows, const char *what, const char *planned, const char *done);

/* Every gas and set point of the plan: depth and runtime of its switch, planned and done. */
void plmi_review_switch_rows(struct plmi_review_rows *rows, const struct plmi_review_sides *sides);

/* Mixes alike by the rule, in the same mode. */
bool plmi_review_mix_alike(const struct plm_rules *rules, const struct plm_mix *a, const struct plm_mix *b);

#endif
