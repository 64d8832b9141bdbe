/*
 * What two records say was breathed: on one clock, for how long, what they call it, and the first record under the
 * other's settings. The body, clocks and settings are made here; what is planted is the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "support/made_dive.h"
#include "support/planted.h"
#include "support/suite.h"
#include "team/differences.h"

/* From a true moment on; mode open where setpoint_bar is NaN. */
struct breath {
    double from_s, o2_frac, he_frac, setpoint_bar;
};

/* How one recorder tells it: every 5 s, right in depth; begin_s later and with cells where cell_bar is above 0, until
 * cell_to_s. */
struct told {
    const char *name;
    double begin_s;
    struct breath breaths[3];
    double cell_bar, cell_from_s, cell_to_s;
};

static struct plm_rules rules;
static struct plm_replay_options options;

static struct plm_debriefed record(const struct told *told)
{
    struct made_dive made = made_start(1.0);
    struct plm_dive_info *info = plm_dive_builder_info(made.builder);
    info->recorder = plm_dive_builder_text(made.builder, told->name);
    for (double t = told->begin_s; t <= PLANTED_END_S + 40; t += 5) {
        const struct breath *breath = &told->breaths[0];
        for (int i = 1; i < 3 && told->breaths[i].from_s > 0; i++) {
            breath = t >= told->breaths[i].from_s ? &told->breaths[i] : breath;
        }
        if (isnan(breath->setpoint_bar)) {
            made_open(&made, breath->o2_frac, breath->he_frac);
        } else {
            made_loop(&made, breath->o2_frac, breath->he_frac, breath->setpoint_bar);
        }
        struct plm_sample sample = made_blank(t - told->begin_s, round(100 * planted_depth_m(0, t)) / 100);
        for (int i = 0; i < 3 && told->cell_bar > 0; i++) {
            sample.cell_bar[i] =
                t >= told->cell_from_s && t < told->cell_to_s ? told->cell_bar + 0.01 * (i - 1) : breath->setpoint_bar;
        }
        made_add(&made, &sample);
    }
    struct plm_debriefed out = {.dive = made_finish(&made)};
    out.trace = made_replay(out.dive, &rules);
    return out;
}

struct pair {
    struct plm_debriefed records[2];
    struct plm_reconciliation *reconciliation;
};

static void compare(struct pair *pair, const struct told *a, const struct told *b)
{
    rules = plm_rules_default();
    options = plm_replay_options_default(&rules);
    pair->records[0] = record(a);
    pair->records[1] = record(b);
    const struct plm_debriefed *both[2] = {&pair->records[0], &pair->records[1]};
    ck_assert_int_eq(plm_reconcile(&pair->reconciliation, both, 2, &options, NULL), PLM_STATUS_OK);
}

static void forget(struct pair *pair)
{
    plm_reconciliation_free(pair->reconciliation);
    for (int i = 0; i < 2; i++) {
        plm_trace_free(pair->records[i].trace);
        plm_dive_free(pair->records[i].dive);
    }
}

/* The one difference of a kind; fails where there is another, or none. */
static const struct plm_difference *only(const struct pair *pair, enum plm_difference_kind kind)
{
    size_t count;
    const struct plm_reconciled_pair *found = plm_reconciliation_pairs(pair->reconciliation, &count);
    const struct plm_difference *only = NULL;
    for (size_t i = 0; i < found->count; i++) {
        if (found->differences[i].kind == kind) {
            ck_assert_msg(only == NULL, "%s and %s", only ? only->text : "", found->differences[i].text);
            only = &found->differences[i];
        }
    }
    ck_assert_ptr_nonnull(only);
    return only;
}

/* A mix entered three minutes late: the stretch is from one entry to the other, b's on a's clock, and each is called by
 * its name. */
START_TEST(mixes_and_modes_by_their_names)
{
    static const struct told unit = {.name = "unit", .breaths = {{0, 0.12, 0.6, 1.3}, {2000, 0.5, 0, (double)NAN}}};
    static const struct told wrist = {
        .name = "wrist", .begin_s = 50, .breaths = {{0, 0.12, 0.6, 1.3}, {2200, 0.5, 0, (double)NAN}}};
    static const struct told mixes = {
        .name = "mixes",
        .begin_s = 50,
        .breaths = {{0, 0.12, 0.6, 1.3}, {2000, 0.32, 0, (double)NAN}, {2200, 0.5, 0, (double)NAN}}};
    struct pair pair;
    compare(&pair, &unit, &wrist);
    const struct plm_difference *mode = only(&pair, PLM_DIFFERENCE_MODE);
    ck_assert_double_eq_tol(mode->from_s, 2000, 0.5);
    ck_assert_double_eq_tol(mode->to_s, 2200, 0.5);
    ck_assert_str_eq(mode->a, "open");
    ck_assert_str_eq(mode->b, "closed");
    forget(&pair);
    compare(&pair, &unit, &mixes);
    const struct plm_difference *mix = only(&pair, PLM_DIFFERENCE_MIX);
    ck_assert_double_eq_tol(mix->from_s, 2000, 0.5);
    ck_assert_double_eq_tol(mix->to_s, 2200, 0.5);
    ck_assert_str_eq(mix->a, "nitrox 50");
    ck_assert_str_eq(mix->b, "nitrox 32");
    /* less oxygen, more inert gas: more decompression owed behind it */
    ck_assert_double_gt(mix->decompression_min, 0);
    forget(&pair);
}
END_TEST

/* Cells at 1.0 bar for five minutes while the other's set point is 1.3: who measures stands on its side, whoever comes
 * first. */
START_TEST(cells_against_a_set_point)
{
    static const struct told cells = {
        .name = "unit", .breaths = {{0, 0.12, 0.6, 1.3}}, .cell_bar = 1.0, .cell_from_s = 1000, .cell_to_s = 1305};
    static const struct told wrist = {.name = "wrist", .begin_s = 50, .breaths = {{0, 0.12, 0.6, 1.3}}};
    for (int swapped = 0; swapped < 2; swapped++) {
        struct pair pair;
        compare(&pair, swapped ? &wrist : &cells, swapped ? &cells : &wrist);
        const struct plm_difference *measured = only(&pair, PLM_DIFFERENCE_MEASURED);
        ck_assert_double_eq_tol(measured->from_s, swapped ? 950 : 1000, 0.5);
        ck_assert_double_eq_tol(measured->to_s, swapped ? 1250 : 1300, 0.5);
        ck_assert_str_eq(swapped ? measured->b : measured->a, "measured 1.00 bar");
        ck_assert_str_eq(swapped ? measured->a : measured->b, "set point 1.30 bar");
        forget(&pair);
    }
}
END_TEST

/* b's clock lags: 1000 of its seconds are 1001 of a's, and its 0 is a's 40. a = 1.02 b + 0.3. */
START_TEST(b_on_the_clock_of_a)
{
    double times_s[] = {0, 1000, 2000}, depths_m[] = {0, 10, 30};
    const struct plm_alignment alignment = {
        .record_offset_s = 40, .clock_drift_ppm = 1000, .depth_scale = 1.02, .depth_offset_m = 0.3};
    const struct plmi_comparison c = {
        .alignment = &alignment,
        .series_b = {.count = 3, .time_s = times_s, .depth_m = depths_m, .step_s = 1000, .gap_s = 3000}};
    size_t hint = 0;
    ck_assert_double_eq_tol(plmi_comparison_time_s(&c, 0), 40, 1e-9);
    ck_assert_double_eq_tol(plmi_comparison_time_s(&c, 1000), 1041, 1e-9);
    ck_assert_double_eq_tol(plmi_comparison_b_depth_m(&c, 1041, &hint), 1.02 * 10 + 0.3, 1e-9);
    ck_assert_double_eq_tol(plmi_comparison_b_depth_m(&c, 40 + 1.5 * 1001, &hint), 1.02 * 20 + 0.3, 1e-9);
    static const struct told told = {.name = "b", .breaths = {{0, 0.12, 0.6, 0.7}, {1000, 0.12, 0.6, 1.3}}};
    rules = plm_rules_default();
    struct plm_debriefed b = record(&told);
    struct plmi_timeline timeline;
    ck_assert(plmi_timeline_init(&timeline, b.dive, &alignment));
    ck_assert_uint_eq(timeline.count, 2);
    ck_assert_double_eq_tol(timeline.stretches[1].time_s, 1041, 1e-9);
    ck_assert_double_eq_tol(timeline.end_s, 40 + 1.001 * (PLANTED_END_S + 40), 1e-9);
    ck_assert_double_eq(plmi_timeline_at(&timeline, 1040.9)->setpoint_bar, 0.7);
    ck_assert_double_eq(plmi_timeline_at(&timeline, 1041)->setpoint_bar, 1.3);
    plmi_timeline_free(&timeline);
    plm_trace_free(b.trace);
    plm_dive_free(b.dive);
}
END_TEST

/* From 600 s until 1200 s, neither before nor at the end, a's record has b's set point; a change between two samples
 * has one of its own. */
START_TEST(a_version_of_the_first_record)
{
    static const struct told unit = {.name = "a", .breaths = {{0, 0.12, 0.6, 1.3}}},
                             wrist = {.name = "b", .breaths = {{0, 0.12, 0.6, 0.7}, {1003, 0.12, 0.6, 1.0}}};
    rules = plm_rules_default();
    struct plm_debriefed a = record(&unit), b = record(&wrist);
    struct plmi_timeline timeline;
    struct plm_dive *version;
    size_t count, settings_count;
    ck_assert(plmi_timeline_init(&timeline, b.dive, NULL));
    ck_assert_int_eq(plmi_version_make(&version, a.dive, &timeline, 600, 1200, &rules, NULL), PLM_STATUS_OK);
    const struct plm_sample *samples = plm_dive_samples(version, &count);
    const struct plm_setting *settings = plm_dive_settings(version, &settings_count);
    for (size_t i = 0; i < count; i++) {
        double t = (double)samples[i].time_ms / 1000, want = t < 600 || t >= 1200 ? 1.3 : t < 1005 ? 0.7 : 1.0;
        ck_assert_msg(fabs(settings[samples[i].setting].setpoint_bar - want) < 1e-9, "at %g s: %g bar", t,
                      settings[samples[i].setting].setpoint_bar);
    }
    plm_dive_free(version);
    plmi_timeline_free(&timeline);
    const struct plm_debriefed *both[] = {&a, &b};
    for (int i = 0; i < 2; i++) {
        plm_trace_free(both[i]->trace);
        plm_dive_free(both[i]->dive);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {mixes_and_modes_by_their_names, cells_against_a_set_point, b_on_the_clock_of_a,
                                  a_version_of_the_first_record};
    return SUITE_RUN("breathed", tests);
}
