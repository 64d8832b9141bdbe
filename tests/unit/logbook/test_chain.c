/*
 * What an added, a better and a removed dive change of later ones, and where that ends.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include "support/suite.h"
#include "unit/logbook/made_logbook.h"

static const struct made_log MORNING = {"morning", "Tern", "2031-05-06T09:00+11:00", 1, 10, 0, 0};
static const struct made_log NOON = {"noon", "Tern", "2031-05-06T13:00+11:00", 2, 10, 0, 0};
/* Sixty days are 136 half-times of the slowest compartment (635 min): nothing of a double is left of the dive before.
 */
static const struct made_log JULY = {"july", "Tern", "2031-07-06T09:00+11:00", 3, 10, 0, 0};
static const struct made_log SEPTEMBER = {"september", "Tern", "2031-09-06T09:00+11:00", 4, 10, 0, 0};
static const struct made_log NOVEMBER = {"november", "Tern", "2031-11-06T09:00+11:00", 5, 10, 0, 0};
static const struct made_log FINE = {"fine", "Tern", "2031-05-06T08:50+11:00", 1, 2, 600, 0};

static struct plm_entry entry_of(const struct plm_entries *entries, size_t i)
{
    size_t count;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_lt(i, count);
    return list[i];
}

/* The last dive gets a start that it did not have, by which one can see whether it was looked at. */
static void spoil_last(struct made_logbook *made)
{
    struct plm_entries *entries = made_logbook_entries(made);
    struct plm_entry entry = entry_of(entries, 3);
    entry.figures.surface_interval_s = 1;
    ck_assert_int_eq(plm_ledger_figures_put(made->ledger, entry.exposure.id, &entry.figures), PLM_STATUS_OK);
    plm_entries_free(entries);
}

START_TEST(a_chain_stops_where_a_dive_starts_as_before)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    (void)made_logbook_put(&made, &JULY);
    (void)made_logbook_put(&made, &SEPTEMBER);
    (void)made_logbook_put(&made, &NOVEMBER);
    spoil_last(&made);
    struct plm_logbook_addition addition = made_logbook_put(&made, &NOON);
    ck_assert_uint_eq(addition.recomputed,
                      1); /* July is another time after the last dive; September starts as before */
    struct plm_entries *entries = made_logbook_entries(&made);
    struct plm_entry noon = entry_of(entries, 1), july = entry_of(entries, 2), november = entry_of(entries, 4);
    double away_s =
        (double)(plm_span_down_utc_ms(&july.exposure.span) - plm_span_up_utc_ms(&noon.exposure.span)) / 1000;
    ck_assert(july.figures.surface_interval_s == away_s);
    ck_assert(november.figures.surface_interval_s == 1);
    plm_entries_free(entries);
    made_logbook_free(&made);
}
END_TEST

START_TEST(a_better_record_counts_for_the_dives_behind)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    (void)made_logbook_put(&made, &NOON);
    struct plm_logbook_addition addition = made_logbook_put(&made, &FINE);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_BETTER_RECORD);
    ck_assert_uint_eq(addition.recomputed, 1);
    /* Once more what stands for the dive already: a record that is not better changes nothing. */
    struct made_log coarse = MORNING;
    coarse.name = "coarse";
    coarse.step_s = 20;
    addition = made_logbook_put(&made, &coarse);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_RECORD);
    ck_assert_uint_eq(addition.recomputed, 0);
    made_logbook_free(&made);
}
END_TEST

START_TEST(what_is_removed_leaves_no_trace)
{
    struct made_logbook made;
    size_t recomputed = 0;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &NOON);
    struct plm_entries *before = made_logbook_entries(&made);
    (void)made_logbook_put(&made, &MORNING);
    struct plm_entries *between = made_logbook_entries(&made);
    struct plm_entry morning = entry_of(between, 0), carried = entry_of(between, 1);
    ck_assert_str_eq(morning.exposure.log_name, "morning.csv");
    ck_assert_int_eq(plm_logbook_remove(made.logbook, &morning.exposure, &recomputed), PLM_STATUS_OK);
    ck_assert_uint_eq(recomputed, 1);
    struct plm_entries *after = made_logbook_entries(&made);
    struct plm_entry first = entry_of(before, 0), last = entry_of(after, 0);
    ck_assert_mem_eq(&first.figures.end, &last.figures.end, sizeof first.figures.end);
    ck_assert_mem_ne(&first.figures.end, &carried.figures.end, sizeof first.figures.end);
    ck_assert_int_eq(plm_logbook_remove(made.logbook, &morning.exposure, &recomputed), PLM_STATUS_INPUT);
    plm_entries_free(before);
    plm_entries_free(between);
    plm_entries_free(after);
    made_logbook_free(&made);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_chain_stops_where_a_dive_starts_as_before,
                                  a_better_record_counts_for_the_dives_behind, what_is_removed_leaves_no_trace};
    return SUITE_RUN("logbook chain", tests);
}
