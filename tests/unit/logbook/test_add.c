/*
 * Whose dive a record is, which record stands for it, and that the order of adding shows nowhere.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "support/suite.h"
#include "unit/logbook/made_logbook.h"

static const struct made_log MORNING = {"morning", "Tern", "2031-05-06T09:00+11:00", 1, 10, 0, 0};
static const struct made_log NOON = {"noon", "Tern", "2031-05-06T13:00+11:00", 2, 10, 0, 0};
static const struct made_log NEXT_DAY = {"next", "Tern", "2031-05-07T09:00+11:00", 3, 10, 0, 0};
/* The same body as in the morning, seen by a recorder that writes five times as often and was put on earlier. */
static const struct made_log FINE = {"fine", "Tern", "2031-05-06T08:50+11:00", 1, 2, 600, 0};
/* Another body at the same time. */
static const struct made_log OTHER = {"other", "Tern", "2031-05-06T09:00+11:00", 2, 10, 0, 0};

static void same_number(double a, double b)
{
    ck_assert_msg(a == b || (isnan(a) && isnan(b)), "%.17g and %.17g", a, b);
}

/* What a diver is told of two ledgers, and what the next dive is computed from, to the last bit. */
static void same_entries(const struct plm_entries *one, const struct plm_entries *two)
{
    size_t count, other;
    const struct plm_entry *a = plm_entries_get(one, &count), *b = plm_entries_get(two, &other);
    ck_assert_uint_eq(count, other);
    for (size_t i = 0; i < count; i++) {
        const struct plm_figures *x = &a[i].figures, *y = &b[i].figures;
        ck_assert_str_eq(a[i].exposure.log_name, b[i].exposure.log_name);
        ck_assert_uint_eq(a[i].exposure.record_count, b[i].exposure.record_count);
        ck_assert(a[i].has_figures && b[i].has_figures);
        ck_assert_mem_eq(&x->start, &y->start, sizeof x->start);
        ck_assert_mem_eq(&x->end, &y->end, sizeof x->end);
        same_number(x->surface_interval_s, y->surface_interval_s);
        same_number(x->surfacing_gradient_pct, y->surfacing_gradient_pct);
        same_number(x->cns_pct, y->cns_pct);
        same_number(x->otu_run, y->otu_run);
    }
}

static void order_shows_nowhere(const struct made_log *const *order, const struct made_log *const *other, size_t count)
{
    struct made_logbook one, two;
    made_logbook_open(&one);
    made_logbook_open(&two);
    for (size_t i = 0; i < count; i++) {
        (void)made_logbook_put(&one, order[i]);
        (void)made_logbook_put(&two, other[i]);
    }
    struct plm_entries *a = made_logbook_entries(&one), *b = made_logbook_entries(&two);
    same_entries(a, b);
    plm_entries_free(a);
    plm_entries_free(b);
    made_logbook_free(&one);
    made_logbook_free(&two);
}

START_TEST(dives_give_the_same_whatever_their_order)
{
    const struct made_log *const order[] = {&MORNING, &NOON, &NEXT_DAY}, *const back[] = {&NEXT_DAY, &NOON, &MORNING},
                                 *const mixed[] = {&NOON, &NEXT_DAY, &MORNING};
    order_shows_nowhere(order, back, 3);
    order_shows_nowhere(order, mixed, 3);
}
END_TEST

START_TEST(records_give_the_same_whatever_their_order)
{
    const struct made_log *const order[] = {&MORNING, &NOON, &FINE}, *const back[] = {&FINE, &MORNING, &NOON},
                                 *const mixed[] = {&NOON, &FINE, &MORNING};
    order_shows_nowhere(order, back, 3);
    order_shows_nowhere(order, mixed, 3);
}
END_TEST

/* The one that stands for the only dive. */
static const char *standing(const struct made_logbook *made)
{
    static char name[32];
    struct plm_entries *entries = made_logbook_entries(made);
    size_t count;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 1);
    (void)snprintf(name, sizeof name, "%s", list[0].exposure.log_name);
    plm_entries_free(entries);
    return name;
}

START_TEST(the_finer_record_stands_for_the_dive)
{
    struct made_logbook made;
    made_logbook_open(&made);
    struct plm_logbook_addition addition = made_logbook_put(&made, &MORNING);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_NEW);
    ck_assert_str_eq(addition.name, "dive 1 of morning.csv, 2031-05-06T09:00:00+11:00");
    ck_assert_str_eq(addition.other, "");
    addition = made_logbook_put(&made, &FINE);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_BETTER_RECORD);
    ck_assert_str_eq(addition.other, "dive 1 of morning.csv, 2031-05-06T09:00:00+11:00");
    ck_assert_str_eq(standing(&made), "fine.csv");
    made_logbook_free(&made);
}
END_TEST

START_TEST(the_coarser_record_does_not)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &FINE);
    struct plm_logbook_addition addition = made_logbook_put(&made, &MORNING);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_RECORD);
    ck_assert_str_eq(standing(&made), "fine.csv");
    made_logbook_free(&made);
}
END_TEST

START_TEST(what_is_there_is_left_as_it_is)
{
    struct made_logbook made;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    struct made_log again = MORNING;
    again.diver = "Quill";
    struct plm_logbook_addition addition = made_logbook_put(&made, &again);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_KNOWN);
    ck_assert_str_eq(addition.diver, "Tern");
    ck_assert_str_eq(standing(&made), "morning.csv");
    made_logbook_free(&made);
}
END_TEST

START_TEST(two_bodies_at_one_time_are_not_one_diver)
{
    struct made_logbook made;
    struct plm_logbook_addition addition;
    made_logbook_open(&made);
    (void)made_logbook_put(&made, &MORNING);
    ck_assert_int_eq(made_logbook_add(&made, &OTHER, &addition), PLM_STATUS_INPUT);
    ck_assert(diag_list_has(&made.told, "Tern is under water at one time in"));
    ck_assert_str_eq(standing(&made), "morning.csv");
    struct made_log mate = OTHER;
    mate.diver = "Quill";
    addition = made_logbook_put(&made, &mate);
    ck_assert_int_eq(addition.what, PLM_LOGBOOK_ADDED_NEW);
    made_logbook_free(&made);
}
END_TEST

START_TEST(a_dive_without_diver_or_start_is_refused)
{
    struct made_logbook made;
    struct plm_logbook_addition addition;
    struct made_log log = MORNING;
    made_logbook_open(&made);
    log.diver = NULL;
    ck_assert_int_eq(made_logbook_add(&made, &log, &addition), PLM_STATUS_INPUT);
    ck_assert(diag_list_has(&made.told, "tells no diver"));
    log = MORNING;
    log.start = NULL;
    ck_assert_int_eq(made_logbook_add(&made, &log, &addition), PLM_STATUS_INPUT);
    ck_assert(diag_list_has(&made.told, "tells no start"));
    log.start = "2031-05-06T09:00";
    ck_assert_int_eq(made_logbook_add(&made, &log, &addition), PLM_STATUS_INPUT);
    ck_assert(diag_list_has(&made.told, "without its time zone"));
    struct plm_entries *entries = made_logbook_entries(&made);
    size_t count;
    (void)plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 0);
    plm_entries_free(entries);
    made_logbook_free(&made);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {dives_give_the_same_whatever_their_order, records_give_the_same_whatever_their_order,
                                  the_finer_record_stands_for_the_dive,     the_coarser_record_does_not,
                                  what_is_there_is_left_as_it_is,           two_bodies_at_one_time_are_not_one_diver,
                                  a_dive_without_diver_or_start_is_refused};
    return SUITE_RUN("logbook add", tests);
}
