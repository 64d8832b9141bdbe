/*
 * Rows of a comparison while they are collected.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/plan/comparison.h"

#include <math.h>

#include "base/arena.h"

void plmi_review_row(struct plmi_review_rows *rows, const char *what, double planned, double done, const char *unit)
{
    void *items = rows->items;
    if (!plmi_array_grow(&items, &rows->capacity, rows->count, sizeof *rows->items)) {
        rows->texts.failed = true;
        return;
    }
    rows->items = items;
    planned = isfinite(planned) ? planned : (double)NAN;
    done = isfinite(done) ? done : (double)NAN;
    rows->items[rows->count++] = (struct plm_plan_row){
        .what = what, .planned = planned, .done = done, .difference = done - planned, .unit = unit};
}

void plmi_review_row_words(struct plmi_review_rows *rows, const char *what, const char *planned, const char *done)
{
    plmi_review_row(rows, what, NAN, NAN, "");
    if (rows->texts.failed) {
        return;
    }
    rows->items[rows->count - 1].planned_words = planned;
    rows->items[rows->count - 1].done_words = done;
}

bool plmi_review_mix_alike(const struct plm_rules *rules, const struct plm_mix *a, const struct plm_mix *b)
{
    double off = rules->plan_o2_frac + 1e-9;
    return fabs(a->o2_frac - b->o2_frac) <= off && fabs(a->he_frac - b->he_frac) <= off;
}
