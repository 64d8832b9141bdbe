/*
 * A dive against its plan: equal raises nothing; one thing changed raises just that.
 * The bounds are conventions of this program (rules.def).
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/plan.h>
#include <string.h>

#include "support/climbed.h"
#include "support/reviewed.h"
#include "support/suite.h"

static struct climb base(void)
{
    return (struct climb){.depth_m = 60, .bottom_min = 25, .o2_frac = 0.18, .he_frac = 0.45, .setpoint_bar = 1.2};
}

static struct plm_dive *planned(const struct climb *climb)
{
    struct made_dive made = climb_make(climb);
    return made_finish(&made);
}

/* Reviews a changed dive against the plan of the base; the plan must live as long. */
static void against(struct reviewed *reviewed, const struct plm_dive *plan, const struct climb *changed)
{
    struct made_dive made = climb_make(changed);
    struct review_wish wish = {.plan = plan};
    reviewed_make(reviewed, &made, &wish);
}

/* Checks that one kind is raised once and no other of the plan's; 0 severity is not looked at. */
static void just(const struct climb *changed, enum plm_finding_kind kind, double value, double limit, double tolerance)
{
    struct climb meant = base();
    struct plm_dive *plan = planned(&meant);
    struct reviewed reviewed;
    against(&reviewed, plan, changed);
    const struct plm_finding *finding = reviewed_first(&reviewed, kind);
    if (reviewed_count_plan(&reviewed) != 1) {
        reviewed_print(&reviewed);
    }
    ck_assert_uint_eq(reviewed_count_plan(&reviewed), 1);
    ck_assert_double_eq_tol(finding->value, value, tolerance);
    ck_assert_double_eq_tol(finding->limit, limit, tolerance);
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}

static void none(const struct climb *changed)
{
    struct climb meant = base();
    struct plm_dive *plan = planned(&meant);
    struct reviewed reviewed;
    against(&reviewed, plan, changed);
    if (reviewed_count_plan(&reviewed) != 0) {
        reviewed_print(&reviewed);
    }
    ck_assert_uint_eq(reviewed_count_plan(&reviewed), 0);
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}

START_TEST(finds_nothing_where_plan_equals_dive)
{
    struct climb same = base();
    none(&same);
    same.step_s = 2;
    none(&same);
    same.step_s = 10;
    none(&same);
}
END_TEST

START_TEST(raises_plan_deeper)
{
    struct climb changed = base();
    changed.deeper_m = 1.2;
    just(&changed, PLM_FINDING_PLAN_DEEPER, 61.2, 60, 0.01);
}
END_TEST

START_TEST(spares_plan_deeper)
{
    struct climb changed = base();
    changed.deeper_m = 0.9;
    none(&changed);
}
END_TEST

START_TEST(raises_plan_longer)
{
    struct climb changed = base();
    changed.longer_s = 70;
    just(&changed, PLM_FINDING_PLAN_LONGER, 25 + 70.0 / 60, 25, 0.2);
}
END_TEST

START_TEST(spares_plan_longer)
{
    struct climb changed = base();
    changed.longer_s = 55;
    none(&changed);
}
END_TEST

START_TEST(raises_plan_rate)
{
    struct climb changed = base();
    changed.rate_m_min = 12;
    changed.rate_to_m = 30;
    /* over the middle of 60 m to 27 m, the last metres of it at 9 m/min */
    just(&changed, PLM_FINDING_PLAN_RATE, 11.7, 9, 0.35);
}
END_TEST

START_TEST(spares_plan_rate)
{
    struct climb changed = base();
    changed.rate_m_min = 9.9;
    changed.rate_to_m = 30;
    none(&changed);
}
END_TEST

/* Over a few metres a second more or less is a rate. */
START_TEST(spares_plan_rate_of_a_short_leg)
{
    struct climb changed = base();
    changed.last_rate_m_min = 9;
    none(&changed);
}
END_TEST

START_TEST(raises_plan_mix)
{
    struct climb changed = base();
    changed.other_o2_frac = 0.20;
    just(&changed, PLM_FINDING_PLAN_MIX, 0.20, 0.18, 1e-9);
}
END_TEST

START_TEST(spares_plan_mix)
{
    struct climb changed = base();
    changed.other_o2_frac = 0.19;
    none(&changed);
}
END_TEST

START_TEST(raises_plan_setpoint)
{
    struct climb changed = base();
    changed.ascent_setpoint_bar = 1.1;
    just(&changed, PLM_FINDING_PLAN_SETPOINT, 1.1, 1.2, 1e-9);
}
END_TEST

START_TEST(spares_plan_setpoint)
{
    struct climb changed = base();
    changed.ascent_setpoint_bar = 1.16;
    none(&changed);
}
END_TEST

START_TEST(raises_plan_stop)
{
    struct climb changed = base();
    changed.stop_m = 9;
    changed.stop_s = -65;
    just(&changed, PLM_FINDING_PLAN_STOP, 7.58 - 65.0 / 60, 7.58, 0.1);
    changed.stop_m = 6;
    changed.stop_s = -1e6;                                   /* skipped */
    just(&changed, PLM_FINDING_PLAN_STOP, 0.42, 10.92, 0.1); /* on the way: 1.5 m at 9 m/min, 1.5 m at 6 m/min */
}
END_TEST

START_TEST(spares_plan_stop)
{
    struct climb changed = base();
    changed.stop_m = 9;
    changed.stop_s = -55;
    none(&changed);
}
END_TEST

/* All of the stop at 3 m done at 6 m, or some of it. */
START_TEST(spares_a_planned_stop_that_was_done_deeper)
{
    struct climb changed = base();
    changed.stop_m = 3;
    changed.stop_s = -1e6;
    changed.second_stop_m = 6;
    changed.second_stop_s = 40 * 60;
    none(&changed);
    changed.second_stop_s = 8 * 60;
    just(&changed, PLM_FINDING_PLAN_STOP, 0.5, 17.97, 0.1);
}
END_TEST

/* Time at a stop above which another was done as planned does not stand for one further up. */
START_TEST(raises_plan_stop_where_only_a_far_stop_was_longer)
{
    struct climb changed = base();
    changed.stop_m = 3;
    changed.stop_s = -1e6;
    changed.second_stop_m = 9;
    changed.second_stop_s = 40 * 60;
    just(&changed, PLM_FINDING_PLAN_STOP, 0.5, 17.97, 0.1);
}
END_TEST

static const struct plm_finding *of_stop(const struct reviewed *reviewed, double planned_min)
{
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed->findings, &count);
    for (size_t i = 0; i < count; i++) {
        if (findings[i].kind == PLM_FINDING_PLAN_STOP && fabs(findings[i].limit - planned_min) < 0.5) {
            return &findings[i];
        }
    }
    ck_abort_msg("no stop of %f min", planned_min);
    return NULL;
}

/* The range of a stop over the recorder's tolerance is of that stop, and not of its neighbour. */
START_TEST(holds_each_stop_by_itself)
{
    struct climb meant = base(), changed = base();
    struct plm_dive *plan = planned(&meant);
    struct made_dive made;
    struct reviewed reviewed;
    changed.stop_m = 9;
    changed.stop_s = -240;
    changed.second_stop_m = 6;
    changed.second_stop_s = -60 * 9;
    made = climb_make(&changed);
    reviewed_make(&reviewed, &made, &(struct review_wish){.plan = plan, .hold = true});
    const struct plm_finding *deep = of_stop(&reviewed, 7.58), *shallow = of_stop(&reviewed, 11.02);
    ck_assert_int_eq(deep->hold, PLM_HOLD_FIRM);
    ck_assert_double_eq_tol(deep->value_low, deep->value, 0.3);
    ck_assert_double_eq_tol(deep->value_high, deep->value, 0.3);
    ck_assert_int_eq(shallow->hold, PLM_HOLD_FIRM);
    ck_assert_double_eq_tol(shallow->value_low, shallow->value, 0.3);
    ck_assert_double_eq_tol(shallow->value_high, shallow->value, 0.3);
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}
END_TEST

static const struct plm_plan_row *row_of(const struct plm_plan_comparison *comparison, const char *what)
{
    size_t count = 0;
    const struct plm_plan_row *rows = plm_plan_rows(comparison, &count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(rows[i].what, what) == 0) {
            return &rows[i];
        }
    }
    ck_abort_msg("no row %s", what);
    return NULL;
}

START_TEST(compares_in_a_table_and_a_sentence)
{
    struct climb meant = base(), changed = base();
    struct plm_dive *plan = planned(&meant);
    struct reviewed reviewed;
    changed.deeper_m = 3;
    changed.longer_s = 120;
    against(&reviewed, plan, &changed);
    const struct plm_plan_comparison *comparison = plm_findings_plan(reviewed.findings);
    ck_assert_double_eq_tol(row_of(comparison, "greatest depth")->difference, 3, 1e-9);
    ck_assert_double_eq_tol(row_of(comparison, "bottom time")->difference, 2, 0.1);
    ck_assert_double_eq_tol(row_of(comparison, "stop at 6 m")->difference, 0, 0.05);
    ck_assert_double_gt(row_of(comparison, "decompression owed on leaving the bottom")->difference, 5);
    ck_assert_str_eq(row_of(comparison, "first gas")->planned_words, "the loop on 18/45");
    ck_assert_ptr_nonnull(strstr(plm_plan_verdict(comparison), "3.0 m deeper and 2:0"));
    ck_assert_str_eq(plm_plan_assumed(comparison), "");
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}
END_TEST

/* A plan of the bottom alone: the ascent is computed, and a dive that follows it departs nowhere. */
START_TEST(computes_the_ascent_that_a_plan_does_not_name)
{
    struct climb same = base();
    struct made_dive bottom = made_start(1.0);
    made_loop(&bottom, 0.18, 0.45, 1.2);
    made_sample(&bottom, 0, 0);
    made_sample(&bottom, 180, 60);
    made_sample(&bottom, 1500, 60);
    struct plm_dive *plan = made_finish(&bottom);
    struct reviewed reviewed;
    against(&reviewed, plan, &same);
    const struct plm_plan_comparison *comparison = plm_findings_plan(reviewed.findings);
    ck_assert_ptr_nonnull(strstr(plm_plan_assumed(comparison), "computed"));
    ck_assert_uint_eq(reviewed_count_plan(&reviewed), 0);
    ck_assert_double_eq_tol(row_of(comparison, "total runtime")->difference, 0, 0.5);
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}
END_TEST

/* A plan without gas and without a set point takes the dive's. */
START_TEST(takes_the_gas_of_the_dive_where_a_plan_names_none)
{
    struct climb same = base();
    struct plm_rules rules = plm_rules_default();
    struct plm_dive_builder *builder = plm_dive_builder_new("plan", &rules, NULL);
    static const double way[][2] = {{0, 0}, {180, 60}, {1500, 60}};
    for (size_t i = 0; i < sizeof way / sizeof way[0]; i++) {
        struct plm_sample sample = made_blank(way[i][0], way[i][1]);
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    struct plm_dive *plan = NULL;
    ck_assert_int_eq(plm_dive_builder_finish(builder, &plan), PLM_STATUS_OK);
    struct reviewed reviewed;
    against(&reviewed, plan, &same);
    const struct plm_plan_comparison *comparison = plm_findings_plan(reviewed.findings);
    ck_assert_ptr_nonnull(strstr(plm_plan_assumed(comparison), "names no gas"));
    ck_assert_uint_eq(reviewed_count_plan(&reviewed), 0);
    ck_assert_double_eq_tol(row_of(comparison, "decompression owed on leaving the bottom")->difference, 0, 0.5);
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}
END_TEST

/* A plan that never clears its stops is told of and left out. */
static void hear(void *context, const struct plm_diag *diag)
{
    *(int *)context += diag->id == PLM_DIAG_PLAN && diag->level == PLM_LEVEL_WARNING;
}

START_TEST(leaves_out_a_plan_that_never_clears)
{
    struct climb same = base();
    struct made_dive bottom = made_start(1.0);
    made_loop(&bottom, 0.02, 0.0, 0.02); /* no oxygen to speak of: tissues fill with nitrogen and stay so */
    made_sample(&bottom, 0, 0);
    made_sample(&bottom, 180, 60);
    made_sample(&bottom, 15000, 60);
    struct plm_dive *plan = made_finish(&bottom);
    struct made_dive made = climb_make(&same);
    struct plm_rules rules = made.rules;
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = made_replay(dive, &rules);
    struct plm_replay_options replay = plm_replay_options_default(&rules);
    struct plm_review_input input = {.dive = dive, .trace = trace, .plan = plan, .replay = &replay};
    struct plm_review_options options = {.hold = false};
    int heard = 0;
    struct plm_diag_sink sink = {hear, &heard};
    struct plm_findings *findings = NULL;
    ck_assert_int_eq(plm_review(&findings, &input, &options, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(heard, 1);
    ck_assert_ptr_null(plm_findings_plan(findings));
    plm_findings_free(findings);
    plm_trace_free(trace);
    plm_dive_free(dive);
    plm_dive_free(plan);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {finds_nothing_where_plan_equals_dive,
                                  raises_plan_deeper,
                                  spares_plan_deeper,
                                  raises_plan_longer,
                                  spares_plan_longer,
                                  raises_plan_rate,
                                  spares_plan_rate,
                                  spares_plan_rate_of_a_short_leg,
                                  raises_plan_mix,
                                  spares_plan_mix,
                                  raises_plan_setpoint,
                                  spares_plan_setpoint,
                                  raises_plan_stop,
                                  spares_plan_stop,
                                  spares_a_planned_stop_that_was_done_deeper,
                                  raises_plan_stop_where_only_a_far_stop_was_longer,
                                  holds_each_stop_by_itself,
                                  compares_in_a_table_and_a_sentence,
                                  computes_the_ascent_that_a_plan_does_not_name,
                                  takes_the_gas_of_the_dive_where_a_plan_names_none,
                                  leaves_out_a_plan_that_never_clears};
    return SUITE_RUN("plan kinds", tests);
}
