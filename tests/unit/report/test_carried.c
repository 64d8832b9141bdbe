/*
 * Which row of the guideline on flying a ledger's dives point at. Source of the rows: workshop on flying after
 * recreational diving, DAN 2002; that dives of 48 h count as several is a convention of ours.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "report/ledger/view.h"
#include "support/suite.h"

#define HOUR_MS INT64_C(3600000)
enum { NO_DIVE = -1, ONE_DIVE = 0, SEVERAL = 1, WITH_STOPS = 2 };

static struct plm_entry dive(int64_t start_ms, double owed_min)
{
    struct plm_entry entry = {.has_figures = true};
    entry.exposure.span =
        (struct plm_dive_span){.start_utc_ms = start_ms, .duration_ms = HOUR_MS, .wet_to_ms = HOUR_MS};
    entry.figures.owed_min = owed_min;
    return entry;
}

static int row_of(const struct plm_entry *past, size_t count)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_ledger_due due = {.diver = "Tern", .past = past, .past_count = count, .surface_bar = 1.0};
    due.residual.tissue = plm_tissue_saturated(1.0, rules.water_vapour_bar, rules.air_n2_frac);
    due.at.local_ms = 1000 * HOUR_MS;
    return plmi_due_view_of(&due, &rules).guideline;
}

/* 48 h from start to start are several dives still, a millisecond more is one. */
START_TEST(dives_of_two_days_are_several)
{
    const struct plm_entry apart[] = {dive(0, 0), dive(48 * HOUR_MS + 1, 0)},
                           at[] = {dive(0, 0), dive(48 * HOUR_MS, 0)};
    const struct plm_entry within[] = {dive(0, 0), dive(30 * HOUR_MS, 0)}, one[] = {dive(0, 0)};
    ck_assert_int_eq(row_of(NULL, 0), NO_DIVE);
    ck_assert_int_eq(row_of(one, 1), ONE_DIVE);
    ck_assert_int_eq(row_of(apart, 2), ONE_DIVE);
    ck_assert_int_eq(row_of(at, 2), SEVERAL);
    ck_assert_int_eq(row_of(within, 2), SEVERAL);
}
END_TEST

/* A stop is a stop however short; what is not known counts as one; what was owed more than two days ago does not. */
START_TEST(any_stop_counts)
{
    static const double owed_min[] = {0.01, 0.5, 1, 1.01, 90, (double)NAN};
    for (size_t i = 0; i < sizeof owed_min / sizeof owed_min[0]; i++) {
        const struct plm_entry one[] = {dive(0, owed_min[i])}, before[] = {dive(0, owed_min[i]), dive(48 * HOUR_MS, 0)};
        const struct plm_entry long_ago[] = {dive(0, owed_min[i]), dive(48 * HOUR_MS + 1, 0)};
        ck_assert_msg(row_of(one, 1) == WITH_STOPS, "%g min", owed_min[i]);
        ck_assert_int_eq(row_of(before, 2), WITH_STOPS);
        ck_assert_int_eq(row_of(long_ago, 2), ONE_DIVE);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {dives_of_two_days_are_several, any_stop_counts};
    return SUITE_RUN("carried", tests);
}
