/*
 * What a diver carries at a moment by the ledger, and that a debrief begins with it.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/suite.h"
#include "unit/logbook/made_logbook.h"

#define HOUR_MS INT64_C(3600000)

static const struct made_log MORNING = {"morning", "Tern", "2031-05-06T09:00+11:00", 1, 10, 0, 0};
/* Before it the recorder lies at the surface for an hour and a half, and meanwhile the morning's dive begins and ends.
 */
static const struct made_log NOON = {"noon", "Tern", "2031-05-06T09:10+11:00", 2, 10, 7200, 0};
static const struct made_log CUT = {"cut", "Tern", "2031-05-06T09:00+11:00", 1, 10, 0, 2000};

static struct plm_dive_span span_of(const struct made_logbook *made, size_t i)
{
    struct plm_entries *entries = made_logbook_entries(made);
    size_t count;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_lt(i, count);
    struct plm_dive_span span = list[i].exposure.span;
    plm_entries_free(entries);
    return span;
}

static struct plm_start start_at(struct made_logbook *made, const char *diver, int64_t at_utc_ms)
{
    struct plm_start start;
    memset(&start, 0, sizeof start);
    ck_assert_int_eq(plm_logbook_start(made->logbook, diver, at_utc_ms, 660, &made->rules, &start), PLM_STATUS_OK);
    return start;
}

START_TEST(what_is_over_is_carried)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    struct plm_dive_span span = span_of(&made, 0);
    int64_t up_ms = plm_span_up_utc_ms(&span), down_ms = plm_span_down_utc_ms(&span);
    ck_assert(!start_at(&made, "Tern", down_ms).residual);
    ck_assert(!start_at(&made, "Tern", up_ms - 1).residual);
    ck_assert(start_at(&made, "tern", up_ms).residual);
    ck_assert(!start_at(&made, "Quill", up_ms + HOUR_MS).residual);
    struct plm_start start = start_at(&made, "Tern", up_ms + HOUR_MS);
    ck_assert(start.surface_interval_s == 3600);
    ck_assert_str_eq(start.from, "the ledger");
    made_logbook_free(&made);
}
END_TEST

START_TEST(a_last_dive_that_ends_in_the_water_is_told)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &CUT);
    struct plm_dive_span span = span_of(&made, 0);
    struct plm_start start = start_at(&made, "Tern", plm_span_up_utc_ms(&span) + HOUR_MS);
    ck_assert(start.residual);
    ck_assert_str_eq(start.from, "the ledger, whose last dive ends in the water");
    made_logbook_free(&made);
}
END_TEST

/* The dive of a log that was written, debriefed by what the ledger knows. The caller frees. */
static struct plm_debriefed *debriefed(struct made_logbook *made, const char *name, const char *diver,
                                       const char *start_clock, int index)
{
    char path[160];
    struct plm_log *log = NULL;
    struct plm_debrief *debrief = NULL;
    struct plm_debriefed *one = NULL;
    struct plm_log_options reading = plm_log_options_default(&made->rules);
    struct plm_debrief_options options = made->debrief;
    made_logbook_path(made, name, path);
    options.schedules = false;
    reading.start_clock = start_clock;
    reading.zone = "+11:00"; /* where the log tells a start without one */
    options.dive_index = index;
    made->told.count = 0;
    plm_logbook_carry(made->logbook, diver, &options);
    ck_assert_int_eq(plm_log_open(&log, path, &reading, &made->sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_open(&debrief, log, &options, &made->sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_next(debrief, &one), PLM_STATUS_OK);
    plm_debrief_free(debrief);
    plm_log_free(log);
    return one;
}

START_TEST(a_debrief_begins_with_it)
{
    struct made_logbook made;
    made_logbook_open(&made);
    made.rules.split_surface_min = 180; /* the wait belongs to the record */
    (void)made_logbook_put(&made, &NOON);
    (void)made_logbook_put(&made, &MORNING);
    struct plm_dive_span morning = span_of(&made, 0), noon = span_of(&made, 1);
    double away_s = (double)(plm_span_down_utc_ms(&noon) - plm_span_up_utc_ms(&morning)) / 1000;
    ck_assert(away_s > 0 && noon.start_utc_ms < plm_span_up_utc_ms(&morning));
    struct plm_debriefed *one = debriefed(&made, NOON.name, "Tern", NOON.start, 1);
    ck_assert(one->start.residual && one->start.surface_interval_s == away_s);
    /* The ledger keeps the very same. */
    struct plm_entries *entries = made_logbook_entries(&made);
    size_t count;
    const struct plm_figures *kept = &plm_entries_get(entries, &count)[1].figures;
    ck_assert(kept->surface_interval_s == away_s);
    ck_assert_mem_eq(&kept->start, &one->start.tissue, sizeof kept->start);
    plm_entries_free(entries);
    plm_debriefed_free(one);
    made_logbook_free(&made);
}
END_TEST

START_TEST(what_is_not_known_is_told)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    struct plm_debriefed *one = debriefed(&made, MORNING.name, "Tern", MORNING.start, 1);
    ck_assert(!one->start.residual);
    ck_assert(diag_list_has(&made.told, "the ledger knows no dive of Tern before it"));
    plm_debriefed_free(one);
    one = debriefed(&made, MORNING.name, NULL, MORNING.start, 1);
    ck_assert(!one->start.residual);
    ck_assert(diag_list_has(&made.told, "warning: dive 1 tells no diver"));
    plm_debriefed_free(one);
    made_logbook_free(&made);
}
END_TEST

/* Two dives of one file: the ledger counts for the second where it knows the first, though by a record that goes under
 * a minute sooner; the file does where it does not. */
START_TEST(a_dive_before_in_the_file_is_taken_from_the_ledger_where_it_is_known)
{
    struct made_logbook made;
    const struct made_log both = {"both", "Tern", "2031-05-06 09:01", 1, 10, 0, 0};
    made_logbook_open(&made);
    made_logbook_write(&made, &both, 10000);
    struct plm_debriefed *one = debriefed(&made, both.name, "Tern", NULL, 2);
    ck_assert_str_eq(one->start.from, "dive 1");
    plm_debriefed_free(one);
    (void)made_logbook_put(&made, &MORNING);
    one = debriefed(&made, both.name, "Tern", NULL, 2);
    ck_assert_str_eq(one->start.from, "the ledger");
    plm_debriefed_free(one);
    made_logbook_free(&made);
}
END_TEST

START_TEST(what_is_due_is_told_where_the_last_dive_was)
{
    struct made_logbook made;
    struct plm_start carried;
    struct plm_entries *past = NULL;
    double surface_bar = (double)NAN;
    size_t count;
    made_logbook_open(&made);
    struct plm_stamp at = plm_stamp_of(INT64_C(1935700000000), 660);
    ck_assert_int_eq(plm_logbook_due(made.logbook, "Tern", &at, &made.rules, &surface_bar, &carried, &past),
                     PLM_STATUS_OK);
    ck_assert(surface_bar == made.rules.surface_default_bar && !carried.residual);
    ck_assert(carried.tissue.n2_bar[0] == (surface_bar - made.rules.water_vapour_bar) * made.rules.air_n2_frac);
    plm_entries_free(past);

    made.debrief.surface_bar = 0.8;
    (void)made_logbook_put(&made, &MORNING);
    struct plm_dive_span span = span_of(&made, 0);
    at = plm_stamp_of(plm_span_up_utc_ms(&span) + HOUR_MS, 660);
    surface_bar = (double)NAN;
    ck_assert_int_eq(plm_logbook_due(made.logbook, "Tern", &at, &made.rules, &surface_bar, &carried, &past),
                     PLM_STATUS_OK);
    (void)plm_entries_get(past, &count);
    ck_assert(count == 1 && surface_bar == 0.8 && carried.residual && carried.surface_interval_s == 3600);
    plm_entries_free(past);
    surface_bar = 0.9;
    ck_assert_int_eq(plm_logbook_due(made.logbook, "Tern", &at, &made.rules, &surface_bar, &carried, &past),
                     PLM_STATUS_OK);
    ck_assert(surface_bar == 0.9);
    plm_entries_free(past);

    at = plm_stamp_of(plm_span_up_utc_ms(&span) - 1, 660);
    ck_assert_int_eq(plm_logbook_due(made.logbook, "Tern", &at, &made.rules, &surface_bar, &carried, &past),
                     PLM_STATUS_INPUT);
    ck_assert_ptr_null(past);
    ck_assert(diag_list_has(&made.told, "Tern is under water at that time, in dive 1 of morning.csv"));
    made_logbook_free(&made);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {what_is_over_is_carried,
                                  a_last_dive_that_ends_in_the_water_is_told,
                                  a_debrief_begins_with_it,
                                  what_is_not_known_is_told,
                                  a_dive_before_in_the_file_is_taken_from_the_ledger_where_it_is_known,
                                  what_is_due_is_told_where_the_last_dive_was};
    return SUITE_RUN("logbook carry", tests);
}
