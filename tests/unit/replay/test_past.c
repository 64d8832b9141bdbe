/*
 * What past dives leave: the last one's tissues, the doses of a day, the run of days. Sums by hand.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include <plimsoll/past.h>

#include "support/made_dive.h"
#include "support/suite.h"

#define HOUR 3600.0

static struct plm_past_dive past_dive(double hours_ago, int64_t day, double otu)
{
    struct plm_rules rules = plm_rules_default();
    return (struct plm_past_dive){.ended_s = hours_ago * HOUR,
                                  .surface_bar = 1.0,
                                  .day = day,
                                  .otu = otu,
                                  .cns_day_pct = otu / 10,
                                  .esot = otu * 2,
                                  .anchor_bar = (double)NAN,
                                  .cns_pct = 40,
                                  .end = plm_tissue_saturated(1.0, rules.water_vapour_bar, rules.air_n2_frac)};
}

/* What was carried into each, dive by dive, as a ledger keeps it. */
static void runs_fill(struct plm_past_dive *past, int count)
{
    struct plm_rules rules = plm_rules_default();
    for (int i = 1; i < count; i++) {
        struct plm_start start = plm_start_from_past(past, (size_t)i, past[i].day, &rules);
        past[i].otu_run = start.otu_run;
        past[i].otu_run_days = start.otu_run_days;
    }
}

START_TEST(nothing_before_is_saturated)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_start start = plm_start_from_past(NULL, 0, 100, &rules);
    ck_assert(!start.residual && start.cns_pct == 0 && start.otu_run_days == 0 && isnan(start.surface_interval_s));
}
END_TEST

/* Half-time of CNS 90 min: 40 % after 3 h is 10 %. Source: the rule cns_half_time_min; reference: second-hand. */
START_TEST(doses_of_a_day_and_of_a_run)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_past_dive past[] = {past_dive(75, 97, 500), past_dive(49, 98, 300), past_dive(25, 99, 200),
                                   past_dive(23, 99, 100), past_dive(3, 100, 50)};
    runs_fill(past, 5);
    struct plm_start start = plm_start_from_past(past, 5, 100, &rules);
    ck_assert_double_eq_tol(start.cns_pct, 10, 1e-12);
    ck_assert_double_eq_tol(start.surface_interval_s, 3 * HOUR, 1e-9);
    ck_assert_double_eq_tol(start.otu_day, 150, 1e-9);
    ck_assert_double_eq_tol(start.cns_day_pct, 15, 1e-9);
    ck_assert_double_eq_tol(start.esot_day, 300, 1e-9);
    ck_assert_double_eq_tol(start.otu_run, 1150, 1e-9);
    ck_assert_int_eq(start.otu_run_days, 4);
    ck_assert_uint_eq(start.recent_count, 2);
    ck_assert_double_eq_tol(start.recent[0].age_s, 23 * HOUR, 1e-9);
}
END_TEST

/* The day is the 24 h before: a dive that ended a second less ago counts, one that ended 24 h ago does not. */
START_TEST(a_day_is_over_after_24_hours)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_past_dive within[] = {past_dive(24 - 1 / HOUR, 99, 200), past_dive(3, 100, 50)};
    const struct plm_past_dive at[] = {past_dive(24, 99, 200), past_dive(3, 100, 50)};
    ck_assert_double_eq_tol(plm_start_from_past(within, 2, 100, &rules).otu_day, 250, 1e-9);
    ck_assert_double_eq_tol(plm_start_from_past(at, 2, 100, &rules).otu_day, 50, 1e-9);
    ck_assert_uint_eq(plm_start_from_past(at, 2, 100, &rules).recent_count, 1);
    /* nor where there are so many that the oldest are put together, PLM_RECENT_DOSES of them within the day */
    struct plm_past_dive many[PLM_RECENT_DOSES + 1] = {past_dive(24, 99, 200)};
    for (int i = 1; i <= PLM_RECENT_DOSES; i++) {
        many[i] = past_dive(20 - 0.5 * i, 100, 1);
    }
    ck_assert_double_eq_tol(plm_start_from_past(many, PLM_RECENT_DOSES + 1, 100, &rules).otu_day, PLM_RECENT_DOSES,
                            1e-9);
}
END_TEST

START_TEST(a_day_off_ends_a_run)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_past_dive past[] = {past_dive(73, 97, 500), past_dive(26, 99, 200)};
    runs_fill(past, 2);
    struct plm_start after = plm_start_from_past(past, 2, 100, &rules), off = plm_start_from_past(past, 2, 101, &rules);
    ck_assert_int_eq(after.otu_run_days, 2);
    ck_assert_double_eq_tol(after.otu_run, 200, 1e-9);
    ck_assert_int_eq(off.otu_run_days, 1);
    ck_assert_double_eq_tol(off.otu_run, 0, 1e-9);
    ck_assert(off.residual && off.recent_count == 0);
}
END_TEST

/* More dives in a day than are kept one by one: none is lost. */
START_TEST(many_dives_in_a_day_all_count)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_past_dive past[24];
    for (int i = 0; i < 24; i++) {
        past[i] = past_dive(23.5 - i * 0.95, 100, 1);
    }
    runs_fill(past, 24);
    struct plm_start start = plm_start_from_past(past, 24, 100, &rules);
    ck_assert_uint_eq(start.recent_count, PLM_RECENT_DOSES);
    ck_assert_double_eq_tol(start.otu_day, 24, 1e-9);
    ck_assert_double_eq_tol(start.otu_run, 24, 1e-9);
}
END_TEST

/* The road over stored ends is the road from trace to trace. */
START_TEST(past_is_what_the_trace_leaves)
{
    struct made_dive made = made_start(0.9);
    made_open(&made, 0.21, 0.35);
    made_sample(&made, 0, 0);
    made_sample(&made, 180, 45);
    made_sample(&made, 1500, 45);
    made_sample(&made, 1900, 6);
    made_sample(&made, 2500, 0);
    struct plm_rules rules = made.rules;
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = made_replay(dive, &rules);
    struct plm_start end = plm_start_after(trace, 0, 0.9, &rules),
                     later = plm_start_after(trace, 5 * HOUR, 0.9, &rules);
    const struct plm_trace_summary *summary = plm_trace_summary_get(trace);
    struct plm_past_dive past = {5 * HOUR,
                                 0.9,
                                 end.tissue,
                                 end.anchor_bar,
                                 end.cns_pct,
                                 summary->otu,
                                 summary->cns_day_pct,
                                 summary->esot,
                                 summary->cns_beyond_min,
                                 7,
                                 0,
                                 0};
    struct plm_start start = plm_start_from_past(&past, 1, 7, &rules);
    ck_assert_mem_eq(&start.tissue, &later.tissue, sizeof start.tissue);
    ck_assert(start.cns_pct == later.cns_pct && start.otu_day == later.otu_day && start.esot_day == later.esot_day);
    ck_assert_double_gt(start.tissue.n2_bar[15], (0.9 - 0.0627) * 0.7902);
    plm_trace_free(trace);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {nothing_before_is_saturated,   doses_of_a_day_and_of_a_run,
                                  a_day_is_over_after_24_hours,  a_day_off_ends_a_run,
                                  many_dives_in_a_day_all_count, past_is_what_the_trace_leaves};
    return SUITE_RUN("past", tests);
}
