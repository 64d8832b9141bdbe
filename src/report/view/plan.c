/*
 * The view's plan: planned, done and the difference, row by row. Must not compare anything itself.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/build.h"

void plmi_view_add_plan(struct plmi_view *view, const struct plmi_view_from *from)
{
    const struct plm_findings *findings = from->debriefed->findings;
    const struct plm_plan_comparison *plan = findings != NULL ? plm_findings_plan(findings) : NULL;
    size_t count;
    if (plan == NULL) {
        return;
    }
    const struct plm_plan_row *rows = plm_plan_rows(plan, &count);
    view->plan_verdict = plm_plan_verdict(plan);
    view->plan_assumed = plm_plan_assumed(plan);
    if (count == 0) {
        return;
    }
    view->plan_rows = plmi_view_room(view, count, sizeof *view->plan_rows);
    for (size_t i = 0; i < count && view->plan_rows != NULL; i++) {
        view->plan_rows[view->plan_row_count++] = (struct plmi_view_plan_row){
            .what = rows[i].what,
            .unit = rows[i].unit,
            .planned_words = rows[i].planned_words,
            .done_words = rows[i].done_words,
            .planned = rows[i].planned,
            .done = rows[i].done,
            .difference = rows[i].difference,
            .digits = plmi_view_plan_digits(rows[i].unit),
        };
    }
}
