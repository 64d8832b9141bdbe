/*
 * Which of the records is the more complete, and the one sentence that says so; or the evidence against one dive.
 * SPDX-License-Identifier: MIT
 */
#include "team/reconcile.h"

#include <math.h>
#include <stdlib.h>

#include "base/number.h"
#include "team/completeness.h"

static bool completeness_of(struct plmi_completeness *completeness, const struct plm_dive *dive)
{
    struct plmi_series series;
    bool ok = plmi_series_init(&series, dive);
    if (ok) {
        *completeness = plmi_completeness_of(dive, &series);
    }
    plmi_series_free(&series);
    return ok;
}

static void say_completeness(struct plmi_text *out, const struct plmi_completeness *completeness)
{
    plmi_text_printf(out, "%ld min recorded, a sample every ", (long)lround(completeness->covered_s / 60.0));
    plmi_number_short(out, round(completeness->step_s * 10.0) / 10.0);
    plmi_text_printf(out, " s, %ld gap%s, ", completeness->gaps, completeness->gaps == 1 ? "" : "s");
    if (completeness->cells) {
        plmi_text_printf(out, "%zu oxygen cell%s", completeness->cells, completeness->cells == 1 ? "" : "s");
    } else {
        plmi_text_puts(out, "no oxygen cells");
    }
    plmi_text_puts(out, completeness->gas ? "" : ", no breathing gas");
}

static void say_not_one(struct plmi_text *out, const struct plm_reconciled_pair *pair)
{
    const struct plm_alignment *found = &pair->alignment;
    plmi_text_printf(out, "Record %zu is not the dive of record 1: ", pair->b + 1);
    if (!(found->overlap_s > 0)) {
        plmi_text_puts(out, "the profiles have no common time under water.");
        return;
    }
    plmi_text_puts(out, "laid over each other as well as they go, half of the samples are more than ");
    plmi_number_fixed(out, found->apart_median_m, 2);
    plmi_text_puts(out, " m apart and a tenth more than ");
    plmi_number_fixed(out, found->apart_p90_m, 2);
    plmi_text_puts(out, " m");
    if (!isnan(found->likeness)) {
        plmi_text_puts(out, "; their small ups and downs agree by ");
        plmi_number_fixed(out, found->likeness, 2);
        plmi_text_puts(out, " where one diver's records would by about ");
        plmi_number_fixed(out, found->likeness_expected, 2);
    }
    plmi_text_puts(out, ". ");
}

static bool say_best(struct plmi_text *out, struct plm_reconciliation *r)
{
    struct plmi_completeness worths[PLMI_RECORDS_MAX];
    bool tie = true;
    for (size_t i = 0; i < r->count; i++) {
        if (!completeness_of(&worths[i], r->records[i]->dive)) {
            return false;
        }
        if (i > 0 && plmi_completeness_compare(&worths[i], &worths[r->best]) > 0) {
            r->best = i;
        }
    }
    for (size_t i = 0; i < r->count; i++) {
        tie = tie && !(fabs(plmi_completeness_compare(&worths[i], &worths[r->best])) > 0);
    }
    if (tie) {
        plmi_text_printf(out, "%zu records of one dive, equally complete: ", r->count);
    } else {
        plmi_text_printf(out, "%zu records of one dive; record %zu is the more complete: ", r->count, r->best + 1);
    }
    for (size_t i = 0; i < r->count; i++) {
        plmi_text_printf(out, "%srecord %zu has ", i ? "; " : "", i + 1);
        say_completeness(out, &worths[i]);
    }
    plmi_text_puts(out, ".");
    return true;
}

bool plm_reconciliation_same_dive(const struct plm_reconciliation *reconciliation)
{
    for (size_t i = 0; i < reconciliation->pair_count; i++) {
        if (!reconciliation->pairs[i].alignment.same_dive) {
            return false;
        }
    }
    return true;
}

bool plmi_reconcile_verdict(struct plm_reconciliation *r)
{
    struct plmi_text text;
    bool ok = true;
    plmi_text_init(&text);
    if (plm_reconciliation_same_dive(r)) {
        ok = say_best(&text, r);
    } else {
        for (size_t i = 0; i < r->pair_count; i++) {
            if (!r->pairs[i].alignment.same_dive) {
                say_not_one(&text, &r->pairs[i]);
            }
        }
    }
    while (text.count > 0 && text.bytes[text.count - 1] == ' ') {
        text.count--;
    }
    r->verdict =
        ok && !text.failed ? plmi_arena_text(&r->arena, text.bytes != NULL ? text.bytes : "", text.count) : NULL;
    plmi_text_free(&text);
    return r->verdict != NULL;
}
