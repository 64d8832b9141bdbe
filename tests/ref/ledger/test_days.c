/*
 * Oxygen over ten days, against the REPEX table summed by hand.
 * Source: Hamilton, Kenyon, Peterson, REPEX, NOAA 1988: daily average and total by the length of the run, in OTU; days
 * 2 to 10 from memory.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/ledger_days.h>

#include "support/suite.h"

#define DAY_MS  INT64_C(86400000)
#define HOUR_MS INT64_C(3600000)

static const double daily[] = {850, 700, 620, 525, 460, 420, 380, 350, 330, 310};
static const double total[] = {850, 1400, 1860, 2100, 2300, 2520, 2660, 2800, 2970, 3100};

static struct plm_entry entry_at(int64_t utc_ms, int offset_min, double otu)
{
    return (struct plm_entry){.has_figures = true,
                              .exposure = {.diver = "Skua", .span = {utc_ms, offset_min, HOUR_MS, 0, HOUR_MS}},
                              .figures = {.otu = otu,
                                          .esot = 2 * otu,
                                          .cns_pct = 20,
                                          .cns_day_pct = 10,
                                          .cns_day_before_pct = 5,
                                          .max_depth_m = 30,
                                          .surfacing_gradient_pct = 60,
                                          .serious = 1,
                                          .note = 2}};
}

/* Ten days, two dives each of 100 and 140 OTU by hand: 240 a day, 240 n after n days. */
START_TEST(ten_days_without_a_day_off)
{
    struct plm_entry entries[20];
    struct plm_day days[20];
    for (int i = 0; i < 20; i++) {
        entries[i] = entry_at((20000 + i / 2) * DAY_MS + (i % 2 == 0 ? 1 : 6) * HOUR_MS, 660, i % 2 == 0 ? 100 : 140);
    }
    ck_assert_uint_eq(plm_days_find(days, entries, 20), 10);
    for (int n = 1; n <= 10; n++) {
        const struct plm_day *day = &days[n - 1];
        ck_assert_int_eq(day->run_days, n);
        ck_assert_uint_eq(day->dives, 2);
        ck_assert_double_eq_tol(day->otu, 240, 1e-9);
        ck_assert_double_eq_tol(day->otu_run, 240.0 * n, 1e-9);
        ck_assert_double_eq_tol(day->otu_allowed, daily[n - 1], 1e-9);
        ck_assert_double_eq_tol(day->otu_run_allowed, total[n - 1], 1e-9);
        ck_assert_double_eq_tol(day->runtime_s, 7200, 1e-9);
        ck_assert_double_eq_tol(day->cns_day_pct, 15, 1e-9);
        ck_assert_double_eq_tol(day->esot, 480, 1e-9);
        ck_assert_uint_eq(day->serious, 2);
        ck_assert_uint_eq(day->note, 4);
    }
}
END_TEST

/* 20000 days after 1970-01-01 the sun rises in UTC+11 eleven hours earlier: 13:30 UTC is half past midnight of the next
 * day there. */
START_TEST(a_day_is_the_local_day)
{
    struct plm_entry entries[] = {entry_at(20000 * DAY_MS + 12 * HOUR_MS, 660, 1),
                                  entry_at(20000 * DAY_MS + 13 * HOUR_MS + HOUR_MS / 2, 660, 1),
                                  entry_at(20000 * DAY_MS + 15 * HOUR_MS, -600, 1)};
    struct plm_day days[3];
    ck_assert_int_eq(plm_day_of(-1, 0), -1);
    ck_assert_int_eq(plm_day_of(20000 * DAY_MS + 15 * HOUR_MS, -600), 20000);
    ck_assert_uint_eq(plm_days_find(days, entries, 3), 2);
    ck_assert_int_eq(days[0].day, 20000);
    ck_assert_int_eq(days[1].day, 20001);
    ck_assert_uint_eq(days[1].dives, 2); /* flown west over the date line: the day is gone on with */
}
END_TEST

START_TEST(a_day_off_begins_a_new_run)
{
    struct plm_entry entries[] = {entry_at(20000 * DAY_MS, 0, 800), entry_at(20001 * DAY_MS, 0, 500),
                                  entry_at(20003 * DAY_MS, 0, 300), entry_at(20004 * DAY_MS, 0, 300)};
    struct plm_day days[4];
    entries[3].has_figures = false;
    ck_assert_uint_eq(plm_days_find(days, entries, 4), 3);
    ck_assert_int_eq(days[1].run_days, 2);
    ck_assert_double_eq_tol(days[1].otu_run, 1300, 1e-9);
    ck_assert_int_eq(days[2].run_days, 1);
    ck_assert_double_eq_tol(days[2].otu_run, 300, 1e-9);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {ten_days_without_a_day_off, a_day_is_the_local_day, a_day_off_begins_a_new_run};
    return SUITE_RUN("days", tests);
}
