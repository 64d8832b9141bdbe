/*
 * Oxygen: what raises each finding, and what just does not.
 * Expected doses: NOAA limits (180 min single and 210 min a day at 1.3 bar), REPEX totals (2 days 1400 OTU), shared
 * constants of the oxygen clocks. Other bounds: rules.def, common practice or conventions of this program.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish plain = {.plan = NULL};

/* Open circuit: o2 at depth_m for minutes, straight down and up slowly. */
static void open_at(struct reviewed *reviewed, double o2_frac, double he_frac, double depth_m, double minutes,
                    double up_m_min)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, at_m = 0;
    made_open(&made, o2_frac, he_frac);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &at_m, depth_m, depth_m * 3, 5);
    leg(&made, &time_s, &at_m, depth_m, minutes * 60, 5);
    leg(&made, &time_s, &at_m, 0, depth_m / up_m_min * 60, 5);
    reviewed_make(reviewed, &made, &plain);
}

/* On the loop at 20 m, the set point kept for minutes in all that count: ramps of a minute come off it. */
static void loop_for(struct reviewed *reviewed, double setpoint_bar, double minutes, const struct plm_start *start,
                     double esot_max)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    struct review_wish wish = {.start = start};
    made.rules.esot_day_max = esot_max;
    made_loop(&made, 0.21, 0, setpoint_bar);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 20, 60, 10);
    leg(&made, &time_s, &depth_m, 20, minutes * 60, 10);
    made_setpoint(&made, 0.4);
    leg(&made, &time_s, &depth_m, 0, 300, 10);
    reviewed_make(reviewed, &made, &wish);
}

static struct plm_start carrying(void)
{
    struct plm_start start = {.residual = true,
                              .tissue = plm_tissue_saturated(1.0, 0.0627, 0.7902),
                              .anchor_bar = (double)NAN,
                              .surface_interval_s = 3 * 3600,
                              .from = "a test"};
    return start;
}

/* Air to 12 m, then oxygen for ten minutes at depth_m; sea level, 1 bar to 10 m. */
static void oxygen_stop(struct reviewed *reviewed, double stop_m)
{
    struct made_dive made = made_start(1.01325);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 12, 60, 1);
    leg(&made, &time_s, &depth_m, 12, 600, 1);
    leg(&made, &time_s, &depth_m, stop_m, 60, 1);
    made_open(&made, 1.0, 0);
    leg(&made, &time_s, &depth_m, stop_m, 600, 1);
    leg(&made, &time_s, &depth_m, 0, 60, 1);
    reviewed_make(reviewed, &made, &(struct review_wish){.hold = true});
}

START_TEST(oxygen_is_breathed_at_6_m)
{
    struct reviewed reviewed;
    oxygen_stop(&reviewed, 6.0); /* 1.613 bar; 1.6 atm are 1.621 bar */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_HIGH), 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    reviewed_free(&reviewed);
    oxygen_stop(&reviewed, 6.1); /* 1.623 bar */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq(finding->limit, 1.6);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    reviewed_free(&reviewed);
    oxygen_stop(&reviewed, 6.8); /* 1.693 bar, at rest */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH)->severity, PLM_SEVERITY_NOTE);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    reviewed_free(&reviewed);
    oxygen_stop(&reviewed, 7.0); /* 1.713 bar */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_oxygen_high)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.32, 0, 34.1, 5, 9); /* 0.32 (1 + 3.41) = 1.411 bar */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq_tol(finding->value, 1.4112, 1e-4);
    ck_assert_double_eq(finding->limit, 1.4);
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.32, 0, 44.5, 5, 9); /* 1.744 bar */
    finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    ck_assert_double_eq(finding->limit, 1.6);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_oxygen_high)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.32, 0, 33.7, 5, 9); /* 1.3984 bar */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_HIGH), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* Oxygen at 6.9 m is 1.703 bar; 1.6 and the rule's 0.1 are 1.7. Below its limits the clock is a finding all the same.
 */
START_TEST(a_clock_beyond_its_table_is_always_a_finding)
{
    struct reviewed reviewed;
    oxygen_stop(&reviewed, 6.8); /* 1.693 bar */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CNS_SINGLE), 0);
    ck_assert_double_eq(plm_trace_summary_get(reviewed.trace)->cns_beyond_min, 0);
    reviewed_free(&reviewed);
    oxygen_stop(&reviewed, 9.0); /* 1.913 bar for 10 min and 0.35 of a ramp of 1 min: 10.24 min above 1.7 */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert(finding->at_least);
    ck_assert_double_lt(finding->value, 80);
    ck_assert(isnan(finding->limit));
    ck_assert_ptr_nonnull(strstr(finding->text, "at least"));
    ck_assert_ptr_nonnull(strstr(finding->text, "10.2 min above 1.70 bar of oxygen, 1.91 bar at the most"));
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_oxygen_low)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.10, 0.5, 30, 5, 6); /* 0.18 bar at 8 m, 0.12 at 2 m */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_LOW);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.145, 0.5, 30, 5, 6); /* 0.174 bar at 2 m; at 1 m the head is at the surface */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_OXYGEN_LOW)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_oxygen_low)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.16, 0.5, 30, 5, 6); /* 0.176 bar at 1 m: 0.18 bar by every recorder */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_LOW), 0);
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.18, 0.5, 30, 5, 6);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_LOW), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_cns_single)
{
    struct reviewed reviewed;
    loop_for(&reviewed, 1.3, 145, NULL, 0); /* 80 % of 180 min are 144 */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
    loop_for(&reviewed, 1.3, 181, NULL, 0);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq(finding->limit, 100);
    ck_assert_double_eq_tol(finding->from_s, 60 + 180 * 60, 90);
    reviewed_free(&reviewed);
    loop_for(&reviewed, 1.3, 358, NULL, 0);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
    loop_for(&reviewed, 1.3, 362, NULL, 0); /* twice 180 min */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_cns_single)
{
    struct reviewed reviewed;
    loop_for(&reviewed, 1.3, 142, NULL, 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CNS_SINGLE), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_cns_day)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.cns_day_pct = 50;
    loop_for(&reviewed, 1.3, 64, &start, 0); /* 30 % of 210 min are 63 */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_DAY)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
    loop_for(&reviewed, 1.3, 106, &start, 0);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_DAY)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

/* What was used before the dive is told where there is any: "0 % of it before this dive" tells nothing. */
START_TEST(nothing_before_a_dive_is_not_told)
{
    static const enum plm_finding_kind kinds[] = {PLM_FINDING_CNS_DAY, PLM_FINDING_OTU_DAY};
    for (int i = 0; i < 2; i++) {
        for (size_t kind = 0; kind < 2; kind++) {
            struct reviewed reviewed;
            struct plm_start start = carrying();
            start.cns_day_pct = i == 0 ? 0.4 : 50;
            start.otu_day = i == 0 ? 0.4 : 400;
            loop_for(&reviewed, 1.4, 600, &start, 0);
            const char *text = reviewed_first(&reviewed, kinds[kind])->text;
            ck_assert_msg((strstr(text, "before this dive") != NULL) == (i == 1), "%s", text);
            ck_assert_ptr_null(strstr(text, " 0 "));
            reviewed_free(&reviewed);
        }
    }
}
END_TEST

START_TEST(spares_cns_day)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.cns_day_pct = 50;
    loop_for(&reviewed, 1.3, 61, &start, 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CNS_DAY), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_otu_day)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.otu_day = 800;
    loop_for(&reviewed, 1.0, 51, &start, 0); /* 1 OTU a minute at 1 bar */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OTU_DAY);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq(finding->limit, 850);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_otu_day)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.otu_day = 800;
    loop_for(&reviewed, 1.0, 48, &start, 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OTU_DAY), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_otu_days)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.otu_run_days = 2;
    start.otu_run = 1350;
    loop_for(&reviewed, 1.0, 51, &start, 0);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OTU_DAYS);
    ck_assert_double_eq_tol(finding->limit, 1400, 1e-9);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_otu_days)
{
    struct reviewed reviewed;
    struct plm_start start = carrying();
    start.otu_run_days = 2;
    start.otu_run = 1350;
    loop_for(&reviewed, 1.0, 48, &start, 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OTU_DAYS), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_esot_day)
{
    struct reviewed reviewed;
    loop_for(&reviewed, 1.0, 61, NULL, 60); /* 1 a minute at 1 bar */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_ESOT_DAY)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_esot_day)
{
    struct reviewed reviewed;
    loop_for(&reviewed, 1.0, 57, NULL, 60);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ESOT_DAY), 0);
    reviewed_free(&reviewed);
    loop_for(&reviewed, 1.3, 300, NULL, 0); /* no limit is set */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_ESOT_DAY), 0);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {oxygen_is_breathed_at_6_m,
                                  raises_oxygen_high,
                                  spares_oxygen_high,
                                  a_clock_beyond_its_table_is_always_a_finding,
                                  raises_oxygen_low,
                                  spares_oxygen_low,
                                  raises_cns_single,
                                  spares_cns_single,
                                  raises_cns_day,
                                  nothing_before_a_dive_is_not_told,
                                  spares_cns_day,
                                  raises_otu_day,
                                  spares_otu_day,
                                  raises_otu_days,
                                  spares_otu_days,
                                  raises_esot_day,
                                  spares_esot_day};
    return SUITE_RUN("oxygen kinds", tests);
}
