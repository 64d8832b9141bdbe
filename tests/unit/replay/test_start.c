/*
 * What is carried from dive to dive: doses of a day, decay, rest.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/made_dive.h"
#include "support/suite.h"

#define HOUR 3600.0

static struct plm_dive *dive_of_an_hour(struct plm_rules *rules)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.4, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 20);
    made_sample(&made, 3480, 20);
    made_sample(&made, 3600, 0);
    *rules = made.rules;
    return made_finish(&made);
}

static struct plm_trace *replay_from(const struct plm_dive *dive, const struct plm_rules *rules,
                                     const struct plm_start *start)
{
    struct plm_replay_options options = plm_replay_options_default(rules);
    options.start = start;
    struct plm_trace *trace;
    ck_assert_int_eq(plm_replay(&trace, dive, &options, NULL), PLM_STATUS_OK);
    return trace;
}

/* Minutes beyond the table of oxygen limits are carried as the doses are, so that the clock stays the least that it can
 * be. Oxygen at 10 m and 1 bar is 2.0 bar; 1.7 bar are met at 7 m: 0.3 of each ramp of 2 min. */
START_TEST(minutes_beyond_the_table_count_for_a_day)
{
    struct made_dive made = made_start(1.0);
    struct plm_rules rules = made.rules;
    made_open(&made, 1.0, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 10);
    made_sample(&made, 720, 10);
    made_sample(&made, 840, 0);
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *first = made_replay(dive, &rules);
    ck_assert_double_eq_tol(plm_trace_summary_get(first)->cns_beyond_min, 11.2, 1e-4);
    struct plm_start soon = plm_start_after(first, 3 * HOUR, 1.0, &rules);
    ck_assert_double_eq_tol(soon.cns_beyond_min, 11.2, 1e-4);
    struct plm_trace *second = replay_from(dive, &rules, &soon);
    ck_assert_double_eq_tol(plm_start_after(second, 3 * HOUR, 1.0, &rules).cns_beyond_min, 22.4, 1e-4);
    ck_assert_double_eq_tol(plm_start_after(second, 23 * HOUR, 1.0, &rules).cns_beyond_min, 11.2, 1e-4);
    ck_assert_double_eq(plm_start_after(second, 25 * HOUR, 1.0, &rules).cns_beyond_min, 0);
    plm_trace_free(first);
    plm_trace_free(second);
    plm_dive_free(dive);
}
END_TEST

START_TEST(doses_count_for_a_day)
{
    struct plm_rules rules;
    struct plm_dive *dive = dive_of_an_hour(&rules);
    struct plm_trace *first = made_replay(dive, &rules);
    double otu = plm_trace_summary_get(first)->otu;
    struct plm_start soon = plm_start_after(first, 3 * HOUR, 1.0, &rules);
    ck_assert(soon.residual);
    ck_assert_double_eq_tol(soon.otu_day, otu, 1e-9);
    ck_assert_double_eq_tol(soon.surface_interval_s, 3 * HOUR, 1e-9);
    struct plm_trace *second = replay_from(dive, &rules, &soon);
    ck_assert_double_eq_tol(plm_trace_summary_get(second)->otu, otu, 1e-9); /* points tell this dive alone */
    /* the first ended 3 + 1 + 19 h before: both count; 3 + 1 + 21 h: the second alone; 25 h: none */
    struct plm_start both = plm_start_after(second, 19 * HOUR, 1.0, &rules);
    struct plm_start one = plm_start_after(second, 21 * HOUR, 1.0, &rules);
    struct plm_start none = plm_start_after(second, 25 * HOUR, 1.0, &rules);
    ck_assert_double_eq_tol(both.otu_day, 2 * otu, 1e-9);
    ck_assert_double_eq_tol(one.otu_day, otu, 1e-9);
    ck_assert(none.otu_day == 0.0 && none.recent_count == 0);
    struct plm_start later = plm_start_rest(&both, 2 * HOUR, 1.0, &rules);
    ck_assert_double_eq_tol(later.otu_day, otu, 1e-9);
    ck_assert_double_eq_tol(later.surface_interval_s, 21 * HOUR, 1e-9);
    plm_trace_free(first);
    plm_trace_free(second);
    plm_dive_free(dive);
}
END_TEST

/* Doses age under water, too: the first dive ended 3 h before a second of 1 h began; so 19.5 h after the second it
 * is 23.5 h old, and after 20.5 h 24.5 h. */
START_TEST(doses_age_during_a_dive)
{
    struct plm_rules rules;
    struct plm_dive *dive = dive_of_an_hour(&rules);
    struct plm_trace *first = made_replay(dive, &rules);
    double otu = plm_trace_summary_get(first)->otu;
    struct plm_start soon = plm_start_after(first, 3 * HOUR, 1.0, &rules);
    struct plm_trace *second = replay_from(dive, &rules, &soon);
    struct plm_start both = plm_start_after(second, 19.5 * HOUR, 1.0, &rules),
                     one = plm_start_after(second, 20.5 * HOUR, 1.0, &rules);
    ck_assert_double_eq_tol(both.otu_day, 2 * otu, 1e-9);
    ck_assert_double_eq_tol(both.recent[0].age_s, 23.5 * HOUR, 1e-6);
    ck_assert_double_eq_tol(one.otu_day, otu, 1e-9);
    plm_trace_free(first);
    plm_trace_free(second);
    plm_dive_free(dive);
}
END_TEST

/* The day is the 24 h before (a convention of ours): what ended a second less ago counts, what ended 24 h ago does not.
 */
START_TEST(a_day_is_over_after_24_hours)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_start start = plm_start_rest(NULL, 0.0, 1.0, &rules);
    start.residual = true;
    start.otu_day = start.otu_run = 100.0;
    start.otu_run_days = 2;
    start.surface_interval_s = 0.0;
    struct plm_start kept = plm_start_rest(&start, 24 * HOUR - 1, 1.0, &rules),
                     gone = plm_start_rest(&start, 24 * HOUR, 1.0, &rules);
    ck_assert(kept.otu_day == 100.0 && kept.recent_count == 1 && kept.otu_run_days == 2);
    ck_assert(gone.otu_day == 0.0 && gone.recent_count == 0);
    /* and 24 h without a dive end a run of days */
    ck_assert(gone.otu_run_days == 0 && gone.otu_run == 0.0 && kept.otu_run == 100.0);
}
END_TEST

START_TEST(totals_without_their_parts_age_as_one)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_start start = plm_start_rest(NULL, 0.0, 1.0, &rules);
    start.residual = true;
    start.otu_day = 100.0;
    start.cns_pct = 40.0;
    start.surface_interval_s = 10 * HOUR;
    struct plm_start kept = plm_start_rest(&start, 13 * HOUR, 1.0, &rules);
    struct plm_start gone = plm_start_rest(&start, 15 * HOUR, 1.0, &rules);
    ck_assert_double_eq_tol(kept.otu_day, 100.0, 1e-9);
    ck_assert(gone.otu_day == 0.0);
    ck_assert_double_eq_tol(plm_start_rest(&start, 1.5 * HOUR, 1.0, &rules).cns_pct, 20.0, 1e-9);
}
END_TEST

START_TEST(more_dives_than_room_lose_no_dose)
{
    struct plm_rules rules;
    struct plm_dive *dive = dive_of_an_hour(&rules);
    struct plm_start start = plm_start_rest(NULL, 0.0, 1.0, &rules);
    double otu = 0.0;
    for (int i = 0; i < PLM_RECENT_DOSES + 4; i++) {
        struct plm_trace *trace = replay_from(dive, &rules, &start);
        otu = plm_trace_summary_get(trace)->otu;
        start = plm_start_after(trace, 60.0, 1.0, &rules);
        plm_trace_free(trace);
    }
    ck_assert_uint_eq(start.recent_count, PLM_RECENT_DOSES);
    ck_assert_double_eq_tol(start.otu_day, (PLM_RECENT_DOSES + 4) * otu, 1e-6);
    plm_dive_free(dive);
}
END_TEST

START_TEST(without_end_of_the_interval_all_is_at_rest)
{
    struct plm_rules rules;
    struct plm_dive *dive = dive_of_an_hour(&rules);
    struct plm_trace *trace = made_replay(dive, &rules);
    struct plm_start start = plm_start_after(trace, (double)INFINITY, 0.9, &rules);
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        ck_assert_double_eq_tol(start.tissue.n2_bar[i], (0.9 - 0.0627) * 0.7902, 1e-12);
        ck_assert_double_eq_tol(start.tissue.he_bar[i], 0.0, 1e-12);
    }
    ck_assert(start.cns_pct == 0.0 && start.otu_day == 0.0 && isnan(start.anchor_bar));
    plm_trace_free(trace);
    plm_dive_free(dive);
}
END_TEST

START_TEST(a_rested_diver_is_not_carried)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_start start = plm_start_rest(NULL, 5 * HOUR, 0.8, &rules);
    ck_assert(!start.residual);
    ck_assert_double_eq_tol(start.tissue.n2_bar[15], (0.8 - 0.0627) * 0.7902, 1e-12);
}
END_TEST

START_TEST(the_start_is_named_and_copied)
{
    struct plm_rules rules;
    struct plm_dive *dive = dive_of_an_hour(&rules);
    struct plm_trace *first = made_replay(dive, &rules);
    ck_assert_str_eq(plm_trace_assumed(first)->start_from, "saturated with air at the surface");
    ck_assert(isnan(plm_trace_assumed(first)->surface_interval_s));
    struct plm_start start = plm_start_after(first, 3 * HOUR + 40 * 60, 1.0, &rules);
    char from[] = "dive 1";
    start.from = from;
    struct plm_trace *second = replay_from(dive, &rules, &start);
    memset(from, 'x', sizeof from - 1);
    ck_assert_str_eq(plm_trace_assumed(second)->start_from, "carried from dive 1, surface interval 3 h 40 min");
    ck_assert_double_eq_tol(plm_trace_assumed(second)->start_cns_pct, start.cns_pct, 1e-12);
    size_t count;
    const struct plm_point *points = plm_trace_points(second, &count);
    ck_assert_int_eq(memcmp(&points[0].tissue, &start.tissue, sizeof start.tissue), 0);
    ck_assert_double_eq_tol(points[0].cns_pct, start.cns_pct, 1e-12);
    plm_trace_free(first);
    plm_trace_free(second);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {minutes_beyond_the_table_count_for_a_day,
                                  doses_count_for_a_day,
                                  doses_age_during_a_dive,
                                  a_day_is_over_after_24_hours,
                                  totals_without_their_parts_age_as_one,
                                  more_dives_than_room_lose_no_dose,
                                  without_end_of_the_interval_all_is_at_rest,
                                  a_rested_diver_is_not_carried,
                                  the_start_is_named_and_copied};
    return SUITE_RUN("start", tests);
}
