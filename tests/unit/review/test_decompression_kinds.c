/*
 * Ceilings, M-values and stops: what raises each finding, and what just does not.
 * The bounds are those of rules.def and plimsoll-findings(7), conventions of this program.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "review/scene/owed.h"
#include "support/climbed.h"
#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish plain = {.plan = NULL};

/* 25 min at 40 m on air, then up at 9 m/min to hold_m and 2 min there, where the record ends. */
static void dive_to(struct reviewed *reviewed, double hold_m)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 40, 120, 5);
    leg(&made, &time_s, &depth_m, 40, 1380, 5);
    leg(&made, &time_s, &depth_m, hold_m, (40 - hold_m) / 9 * 60, 5);
    leg(&made, &time_s, &depth_m, hold_m, 120, 5);
    reviewed_make(reviewed, &made, &plain);
}

/* The deepest ceiling of such a dive while it holds at hold_m. */
static double ceiling_at(double hold_m)
{
    struct reviewed reviewed;
    dive_to(&reviewed, hold_m);
    size_t count = 0;
    const struct plm_point *points = plm_trace_points(reviewed.trace, &count);
    double ceiling_m = 0;
    for (size_t i = 0; i < count; i++) {
        if (fabs(points[i].depth_m - hold_m) < 1e-9) {
            ceiling_m = fmax(ceiling_m, points[i].ceiling_m);
        }
    }
    reviewed_free(&reviewed);
    return ceiling_m;
}

/* The depth at which holding just touches the ceiling. */
static double touching_m(void)
{
    double depth_m = 9;
    for (int i = 0; i < 40; i++) {
        depth_m += 0.5 * (ceiling_at(depth_m) - depth_m);
    }
    return depth_m;
}

START_TEST(raises_ceiling_exceeded)
{
    struct reviewed reviewed;
    double touch_m = touching_m();
    dive_to(&reviewed, touch_m - 0.05);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CEILING_EXCEEDED);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq_tol(finding->value, 0.05, 0.02);
    ck_assert_uint_gt(finding->first_line, 0);
    ck_assert_str_eq(finding->unit, "m");
    reviewed_free(&reviewed);
}
END_TEST

/* [points] the furthest beyond the line of gradient factors, drawn here from the anchor to the surface by hand: GF low
 * at the anchor, GF high at the surface, straight between (Baker 1998). */
static double beyond_points(const struct reviewed *reviewed)
{
    size_t count = 0;
    const struct plm_point *points = plm_trace_points(reviewed->trace, &count);
    double low = reviewed->rules.gf_low_pct, high = reviewed->rules.gf_high_pct, most = 0;
    for (size_t i = 0; i < count; i++) {
        double share = (points[i].ambient_bar - 1.0) / (points[i].anchor_bar - 1.0);
        double line_pct = high + (low - high) * fmin(1, share);
        most = points[i].clearance_m < 0 ? fmax(most, points[i].gradient_pct - line_pct) : most;
    }
    return most;
}

/* Half a metre above the ceiling for two minutes, judged by rules about what was reached. */
START_TEST(a_ceiling_is_judged_by_gradient_and_time)
{
    static const struct {
        double points, serious_points, serious_s; /* shares of what was reached */
        enum plm_severity severity;
    } rows[] = {
        {0.9, 2, 0.9, PLM_SEVERITY_SERIOUS}, {0.9, 2, 1.1, PLM_SEVERITY_CAUTION}, {1.1, 2, 0.9, PLM_SEVERITY_CAUTION},
        {1.1, 2, 1.1, PLM_SEVERITY_NOTE},    {0.5, 0.9, 2, PLM_SEVERITY_SERIOUS}, {0.5, 1.1, 2, PLM_SEVERITY_CAUTION},
    };
    struct reviewed first;
    dive_to(&first, touching_m() - 0.5);
    double points = beyond_points(&first), held_s = reviewed_first(&first, PLM_FINDING_CEILING_EXCEEDED)->held_s;
    ck_assert_double_gt(points, 0.5);
    ck_assert_double_gt(held_s, 10);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_rules rules = first.rules;
        rules.ceiling_points = rows[i].points * points;
        rules.ceiling_serious_points = rows[i].serious_points * points;
        rules.ceiling_serious_s = rows[i].serious_s * held_s;
        struct reviewed again;
        struct plm_dive_builder *builder = plm_dive_builder_from(first.dive, &rules, NULL);
        struct plm_dive *dive = NULL;
        ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_OK);
        reviewed_dive(&again, dive, &rules, &plain);
        ck_assert_msg(reviewed_first(&again, PLM_FINDING_CEILING_EXCEEDED)->severity == rows[i].severity, "row %zu", i);
        reviewed_free(&again);
    }
    reviewed_free(&first);
}
END_TEST

START_TEST(spares_ceiling_exceeded)
{
    struct reviewed reviewed;
    dive_to(&reviewed, touching_m() + 0.01);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* Minutes at 30 m on air, then straight up. Returns the largest gradient. */
static double straight_up(struct reviewed *reviewed, double bottom_min)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 90, 5);
    leg(&made, &time_s, &depth_m, 30, bottom_min * 60, 5);
    leg(&made, &time_s, &depth_m, 0, 200, 5);
    reviewed_make(reviewed, &made, &plain);
    return plm_trace_summary_get(reviewed->trace)->peak_gradient_pct;
}

/* The whole minute up to which the M-values bear it. */
static double bearable_min(void)
{
    double minutes = 10;
    for (bool fits = true; fits; minutes++) {
        struct reviewed reviewed;
        fits = straight_up(&reviewed, minutes + 1) <= 100;
        reviewed_free(&reviewed);
    }
    return minutes - 1;
}

/* A rise from 12 m to 2 m that is taken back after 40 s, so that no stop was left. */
START_TEST(raises_m_value_exceeded)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 50, 120, 5);
    leg(&made, &time_s, &depth_m, 50, 1500, 5);
    leg(&made, &time_s, &depth_m, 12, 300, 5);
    leg(&made, &time_s, &depth_m, 2, 110, 5);
    leg(&made, &time_s, &depth_m, 2, 40, 5);
    leg(&made, &time_s, &depth_m, 12, 60, 5);
    leg(&made, &time_s, &depth_m, 12, 600, 5);
    struct reviewed reviewed;
    reviewed_make(&reviewed, &made, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_M_VALUE_EXCEEDED);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    ck_assert_double_gt(finding->value, 100);
    ck_assert_ptr_nonnull(strstr(finding->text, "The ceiling was exceeded by at most"));
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* Straight to the surface: one leaving, and one finding with the figures of all. */
START_TEST(a_leaving_is_one_finding)
{
    struct reviewed reviewed;
    straight_up(&reviewed, bearable_min() + 1);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_SURFACED_OWING_STOPS);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_SERIOUS);
    ck_assert_ptr_nonnull(strstr(finding->text, "The ceiling was exceeded by at most"));
    ck_assert_ptr_nonnull(strstr(finding->text, "% of the gradient of its bare M-value"));
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_M_VALUE_EXCEEDED), 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_STOP_CUT_SHORT), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_m_value_exceeded)
{
    struct reviewed reviewed;
    straight_up(&reviewed, bearable_min());
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_M_VALUE_EXCEEDED), 0);
    reviewed_free(&reviewed);
}
END_TEST

static struct climb square(void)
{
    return (struct climb){.depth_m = 50, .bottom_min = 25, .o2_frac = 0.21, .he_frac = 0.35, .setpoint_bar = 1.2};
}

static void climbed(struct reviewed *reviewed, const struct climb *climb)
{
    struct made_dive made = climb_make(climb);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(raises_stop_cut_short)
{
    struct climb climb = square();
    climb.stop_m = 6;
    climb.stop_s = -100;
    struct reviewed reviewed;
    climbed(&reviewed, &climb);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_STOP_CUT_SHORT);
    ck_assert_double_eq_tol(finding->value, 100.0 / 60, 0.4);
    ck_assert_int_ge(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_ptr_nonnull(strstr(finding->text, "The ceiling was exceeded by at most"));
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    reviewed_free(&reviewed);
    climb.stop_s = -1e6;
    climbed(&reviewed, &climb);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_STOP_CUT_SHORT)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_stop_cut_short)
{
    struct climb climb = square();
    climb.stop_m = 6;
    climb.stop_s = -30;
    struct reviewed reviewed;
    climbed(&reviewed, &climb);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_STOP_CUT_SHORT), 0);
    ck_assert_uint_ge(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 1);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_surfaced_owing_stops)
{
    static const struct {
        double short_s;
        enum plm_severity severity;
    } rows[] = {{60, PLM_SEVERITY_NOTE}, {150, PLM_SEVERITY_CAUTION}, {400, PLM_SEVERITY_SERIOUS}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct climb climb = square();
        climb.stop_m = 3;
        climb.stop_s = -rows[i].short_s;
        struct reviewed reviewed;
        climbed(&reviewed, &climb);
        const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_SURFACED_OWING_STOPS);
        ck_assert_msg(finding->severity == rows[i].severity, "row %zu: %s", i, finding->text);
        ck_assert_double_eq_tol(finding->value, rows[i].short_s / 60, 1);
        reviewed_free(&reviewed);
    }
}
END_TEST

/* A stop left by little more than a minute, and less than that owed at the surface, since tissues clear on the way. */
START_TEST(the_minutes_owed_are_the_measure)
{
    struct climb climb = square();
    size_t met = 0;
    climb.stop_m = 3;
    climb.last_rate_m_min = 3;
    for (climb.stop_s = -60; climb.stop_s > -150; climb.stop_s -= 5) {
        struct reviewed reviewed;
        climbed(&reviewed, &climb);
        size_t count = 0;
        const struct plm_finding *findings = plm_findings_get(reviewed.findings, &count);
        for (size_t i = 0; i < count; i++) {
            bool little = findings[i].kind == PLM_FINDING_SURFACED_OWING_STOPS && findings[i].value < 1;
            ck_assert(!little || findings[i].severity == PLM_SEVERITY_NOTE);
            met += little && strstr(findings[i].text, "The stops left behind had 1:") != NULL;
        }
        reviewed_free(&reviewed);
    }
    ck_assert_uint_gt(met, 0);
}
END_TEST

START_TEST(spares_surfaced_owing_stops)
{
    struct climb climb = square();
    struct reviewed reviewed;
    climbed(&reviewed, &climb);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_SURFACED_OWING_STOPS), 0);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* 25 min at 40 m on air and straight up; then 5 min at the surface, the head still or bobbing from 0.2 to 0.9 m, and
 * with down_m once more down for 2 min. */
static void dive_and_swim(struct reviewed *reviewed, double bob_m, double down_m)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 40, 120, 5);
    leg(&made, &time_s, &depth_m, 40, 1380, 5);
    leg(&made, &time_s, &depth_m, bob_m > 0 ? 0.2 : 0, 240, 2);
    for (int i = 0; i < 50; i++) {
        leg(&made, &time_s, &depth_m, bob_m * (1 + i % 4) / 4, 6, 2);
    }
    if (down_m > 0) {
        leg(&made, &time_s, &depth_m, down_m, 120, 5);
        leg(&made, &time_s, &depth_m, 0, 60, 5);
    }
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(a_swim_is_judged_as_a_flat_end)
{
    struct reviewed flat, swim;
    dive_and_swim(&flat, 0, 0);
    dive_and_swim(&swim, 0.9, 0);
    const struct plm_finding *one = reviewed_first(&flat, PLM_FINDING_SURFACED_OWING_STOPS),
                             *other = reviewed_first(&swim, PLM_FINDING_SURFACED_OWING_STOPS);
    ck_assert_uint_eq(reviewed_count(&swim, PLM_FINDING_SURFACED_OWING_STOPS), 1);
    ck_assert_int_eq(one->severity, other->severity);
    ck_assert_double_eq_tol(one->from_s, other->from_s, 10);
    ck_assert_double_eq_tol(one->value, other->value, 0.5);
    ck_assert_double_eq_tol(plm_trace_summary_get(flat.trace)->surfacing_gradient_pct,
                            plm_trace_summary_get(swim.trace)->surfacing_gradient_pct, 1);
    reviewed_free(&flat);
    reviewed_free(&swim);
}
END_TEST

/* Who goes down again after a surfacing has surfaced all the same; the second time with less owed. */
START_TEST(each_surfacing_is_looked_at)
{
    struct reviewed once, twice;
    dive_and_swim(&once, 0.9, 0);
    dive_and_swim(&twice, 0.9, 9);
    const struct plm_finding *one = reviewed_first(&once, PLM_FINDING_SURFACED_OWING_STOPS),
                             *other = reviewed_first(&twice, PLM_FINDING_SURFACED_OWING_STOPS);
    ck_assert_uint_eq(reviewed_count(&twice, PLM_FINDING_SURFACED_OWING_STOPS), 2);
    ck_assert_double_eq_tol(one->from_s, other->from_s, 1e-9);
    ck_assert_double_eq_tol(one->value, other->value, 1e-9);
    reviewed_free(&once);
    reviewed_free(&twice);
}
END_TEST

START_TEST(sorts_worst_first)
{
    struct climb climb = square();
    climb.longer_s = 240;
    climb.stop_m = 6;
    climb.stop_s = -1e6;
    struct reviewed reviewed;
    climbed(&reviewed, &climb);
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed.findings, &count);
    ck_assert_uint_ge(count, 2);
    for (size_t i = 1; i < count; i++) {
        ck_assert_int_ge(findings[i - 1].severity, findings[i].severity);
    }
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_ceiling_is_judged_by_gradient_and_time,
                                  a_leaving_is_one_finding,
                                  the_minutes_owed_are_the_measure,
                                  raises_ceiling_exceeded,
                                  spares_ceiling_exceeded,
                                  raises_m_value_exceeded,
                                  spares_m_value_exceeded,
                                  raises_stop_cut_short,
                                  spares_stop_cut_short,
                                  raises_surfaced_owing_stops,
                                  spares_surfaced_owing_stops,
                                  a_swim_is_judged_as_a_flat_end,
                                  each_surfacing_is_looked_at,
                                  sorts_worst_first};
    return SUITE_RUN("decompression kinds", tests);
}
