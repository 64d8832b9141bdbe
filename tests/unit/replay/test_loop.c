/*
 * Whose oxygen pressure is believed on a loop, and what is taken where nobody speaks.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/loop.h"
#include "support/made_dive.h"
#include "support/suite.h"

static const double none = (double)NAN;

static double median(double a, double b, double c, double d)
{
    const double cells[PLM_CELLS] = {a, b, c, d, none};
    return plmi_cells_median(cells);
}

START_TEST(cells_have_a_median)
{
    ck_assert_double_eq_tol(median(1.20, 1.25, 1.30, none), 1.25, 1e-12);
    /* one far off stays beside the two that agree, however far it is */
    ck_assert_double_eq_tol(median(1.20, 1.30, 1.90, none), 1.30, 1e-12);
    ck_assert_double_eq_tol(median(0.30, 1.30, 1.20, none), 1.20, 1e-12);
    ck_assert_double_eq_tol(median(none, 1.28, none, none), 1.28, 1e-12);
    ck_assert_double_eq_tol(median(1.2, none, 1.3, none), 1.25, 1e-12);
    ck_assert_double_eq_tol(median(0.7, 1.3, none, none), 1.0, 1e-12);
    ck_assert_double_eq_tol(median(1.0, 1.1, 1.2, 1.3), 1.15, 1e-12);
    ck_assert_double_eq_tol(median(1.3, 1.0, 1.2, 1.1), 1.15, 1e-12);
    ck_assert_double_eq_tol(plmi_cells_median((const double[PLM_CELLS]){1.24, 1.20, 1.28, 1.22, 1.26}), 1.24, 1e-12);
    /* a dead cell is none */
    ck_assert_double_eq_tol(median(1.20, 0.0, 1.30, none), 1.25, 1e-12);
    ck_assert_double_eq_tol(median(0.04, 0.05, none, none), 0.05, 1e-12);
    ck_assert(isnan(median(none, none, none, none)));
    ck_assert(isnan(median(0.0, none, none, none)));
}
END_TEST

/* One cell alone; where it reads nothing, the median. */
START_TEST(a_cell_can_be_taken_alone)
{
    const struct plm_sample samples[] = {
        {.time_ms = 0, .depth_m = 30, .cell_bar = {1.2, 1.3, 0.7, none, none}, .po2_bar = 1.0},
        {.time_ms = 1000, .depth_m = 30, .cell_bar = {1.2, 1.3, 0.0, none, none}, .po2_bar = 1.0}};
    const struct plm_setting setting = {.mode = PLM_MODE_CLOSED, .setpoint_bar = 1.3};
    const struct plmi_recording recording = {.samples = samples, .count = 2, .settings = &setting};
    const struct plm_rules rules = plm_rules_default();
    const double want_bar[][2] = {{1.2, 1.25}, {1.2, 1.2}, {1.3, 1.3}, {0.7, 1.25}, {1.2, 1.25}};
    for (int cell = 0; cell <= 4; cell++) {
        struct plmi_loop_track track;
        ck_assert(plmi_loop_track_find(&track, &recording, &rules, cell));
        ck_assert_double_eq_tol(track.measured_bar[0], want_bar[cell][0], 1e-12);
        ck_assert_double_eq_tol(track.measured_bar[1], want_bar[cell][1], 1e-12);
        plmi_loop_track_free(&track);
    }
}
END_TEST

/* PO2 that the model took at each sample of a dive that stays at 30 m (4 bar) from 60 s on, a sample a minute. */
struct taken {
    struct plm_trace *trace;
    struct plm_dive *dive;
    const struct plm_point *points;
    size_t count;
};

static struct taken take(struct made_dive *made)
{
    struct taken taken;
    taken.dive = made_finish(made);
    taken.trace = made_replay(taken.dive, &made->rules);
    taken.points = plm_trace_points(taken.trace, &taken.count);
    return taken;
}

static void give_back(struct taken *taken)
{
    plm_trace_free(taken->trace);
    plm_dive_free(taken->dive);
}

static struct made_dive loop_at_30m(double setpoint_bar)
{
    struct made_dive made = made_start(1.0);
    made_loop(&made, 0.10, 0.50, setpoint_bar);
    made_sample(&made, 0, 0);
    return made;
}

START_TEST(between_measurements_runs_a_line)
{
    struct made_dive made = loop_at_30m(0.7);
    made_sample_cells(&made, 60, 30, 1.0, 1.0, 1.0);
    made_sample(&made, 120, 30);
    made_sample(&made, 240, 30);
    made_sample_cells(&made, 300, 30, 1.4, 1.4, 1.4);
    made_sample(&made, 360, 30);
    struct taken taken = take(&made);
    /* before the first: the set point, and no more than ambient pressure holds */
    ck_assert_double_eq_tol(taken.points[0].po2_bar, 0.7, 1e-12);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, 1.0, 1e-12);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 1.1, 1e-12);
    ck_assert_double_eq_tol(taken.points[3].po2_bar, 1.3, 1e-12);
    ck_assert_double_eq_tol(taken.points[4].po2_bar, 1.4, 1e-12);
    /* behind the last: the set point again */
    ck_assert_double_eq_tol(taken.points[5].po2_bar, 0.7, 1e-12);
    ck_assert_str_eq(plm_trace_assumed(taken.trace)->oxygen_from, "measured cells, set point");
    give_back(&taken);
}
END_TEST

START_TEST(without_a_set_point_the_nearest_measurement_is_held)
{
    struct made_dive made = loop_at_30m(none);
    made_sample_po2(&made, 60, 30, 1.1);
    made_sample(&made, 120, 30);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[0].po2_bar, 1.0, 1e-12); /* clipped at the surface */
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 1.1, 1e-12);
    ck_assert_str_eq(plm_trace_assumed(taken.trace)->oxygen_from, "logged PO2");
    give_back(&taken);
}
END_TEST

static void by_rule(int oxygen, double want_middle_bar, double want_last_bar, const char *want_from)
{
    struct made_dive made = loop_at_30m(1.2);
    made.rules.oxygen = oxygen;
    made_sample_po2(&made, 60, 30, 0.9);
    made_sample(&made, 120, 30);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, want_middle_bar, 1e-12);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, want_last_bar, 1e-12);
    ck_assert_str_eq(plm_trace_assumed(taken.trace)->oxygen_from, want_from);
    give_back(&taken);
}

START_TEST(the_rule_chooses)
{
    by_rule(0, 0.9, 1.2, "logged PO2, set point"); /* auto: at 0 m and behind the last the set point */
    by_rule(1, 0.9, 0.9, "logged PO2");
    by_rule(2, 1.2, 1.2, "set point");
}
END_TEST

START_TEST(a_forced_set_point_that_is_not_there_leaves_the_measurement)
{
    struct made_dive made = loop_at_30m(none);
    made.rules.oxygen = 2;
    made_sample_po2(&made, 60, 30, 0.9);
    made_sample(&made, 120, 30);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 0.9, 1e-12);
    give_back(&taken);
}
END_TEST

START_TEST(a_cell_that_drops_out_and_cells_that_disagree)
{
    struct made_dive made = loop_at_30m(1.25);
    made_sample_cells(&made, 60, 30, 1.20, 1.22, 1.24);
    made_sample_cells(&made, 120, 30, 1.20, none, 1.24); /* one silent */
    made_sample_cells(&made, 180, 30, 0.30, 1.30, none); /* one silent, one far off: their mean */
    made_sample_cells(&made, 240, 30, 1.40, 1.40, 0.10);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, 1.22, 1e-12);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 1.22, 1e-12);
    ck_assert_double_eq_tol(taken.points[3].po2_bar, 0.80, 1e-12);
    ck_assert_double_eq_tol(taken.points[4].po2_bar, 1.40, 1e-12);
    give_back(&taken);
}
END_TEST

START_TEST(bail_out_and_return)
{
    struct made_dive made = loop_at_30m(1.3);
    made_sample_cells(&made, 60, 30, 1.2, 1.2, 1.2);
    made_open(&made, 0.32, 0.0);
    made_sample_cells(&made, 120, 30, 0.2, 0.2, 0.2); /* what cells read off the loop says nothing */
    made_sample(&made, 180, 30);
    made_loop(&made, 0.10, 0.50, 1.1); /* back, set point changed meanwhile */
    made_sample(&made, 240, 30);
    made_sample(&made, 300, 30);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, 1.2, 1e-12);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 0.32 * 4.0, 1e-6);
    ck_assert_int_eq(taken.points[2].mode, PLM_MODE_OPEN);
    ck_assert_double_eq_tol(taken.points[4].po2_bar, 1.1, 1e-12);
    /* the leg up to the bail-out holds 1.2: helium of a loop leg at 4 bar, 5/9 of (4 - 0.0627 - 1.2), not towards 0.2
     */
    double k = log(2.0) / (60.0 * plm_zhl16_get(2)->he_half_time_min[0]);
    double before_bar = taken.points[1].tissue.he_bar[0], ambient_bar = taken.points[1].ambient_bar;
    double inspired_bar = (ambient_bar - 0.0627 - 1.2) * 0.50 / 0.90;
    double want_bar = inspired_bar + (before_bar - inspired_bar) * exp(-k * 60.0);
    ck_assert_double_eq_tol(taken.points[2].tissue.he_bar[0], want_bar, 1e-12);
    ck_assert_str_eq(plm_trace_assumed(taken.trace)->oxygen_from, "open circuit, measured cells, set point");
    give_back(&taken);
}
END_TEST

START_TEST(semiclosed_with_and_without_measurement)
{
    struct made_dive made = made_start(1.0);
    made_semiclosed(&made, 0.5, 0.0);
    made_setpoint(&made, 1.3); /* a semi-closed loop holds none */
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    struct taken without = take(&made);
    ck_assert_double_eq_tol(without.points[1].po2_bar, 1.5, 1e-4);
    ck_assert(plm_trace_assumed(without.trace)->semiclosed_assumed);
    give_back(&without);
    made = made_start(1.0);
    made_semiclosed(&made, 0.5, 0.0);
    made_sample_po2(&made, 0, 0, 0.4);
    made_sample_po2(&made, 60, 20, 1.1);
    struct taken with = take(&made);
    ck_assert_double_eq_tol(with.points[1].po2_bar, 1.1, 1e-12);
    ck_assert(!plm_trace_assumed(with.trace)->semiclosed_assumed);
    give_back(&with);
}
END_TEST

START_TEST(a_loop_of_which_nothing_is_known)
{
    struct made_dive made = made_start(1.0);
    made_loop(&made, 0.2, 0.4, none);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    struct taken taken = take(&made);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, 0.6, 1e-4);
    ck_assert_str_eq(plm_trace_assumed(taken.trace)->oxygen_from, "diluent as open circuit");
    give_back(&taken);
}
END_TEST

START_TEST(an_oxygen_rebreather_inspires_no_inert_gas)
{
    struct made_dive made = made_start(1.0);
    made_loop(&made, 1.0, 0.0, none);
    made_sample_po2(&made, 0, 0, 0.9);
    made_sample_po2(&made, 60, 6, 1.4);
    made_sample_po2(&made, 3660, 6, 1.5);
    struct taken taken = take(&made);
    double k = log(2.0) / (60.0 * plm_zhl16_get(2)->n2_half_time_min[4]);
    double start_bar = (1.0 - 0.0627) * 0.7902;
    ck_assert_double_eq_tol(taken.points[2].tissue.n2_bar[4], start_bar * exp(-k * 3660.0), 1e-12);
    ck_assert(taken.points[2].tissue.he_bar[4] == 0.0);
    give_back(&taken);
}
END_TEST

/* A diluent of oxygen alone is one assumption for all figures: those of open circuit on oxygen, whatever is set or
 * measured; and it is told. */
START_TEST(a_loop_of_oxygen_is_oxygen_in_every_figure)
{
    struct taken taken[3];
    for (int i = 0; i < 3; i++) {
        struct made_dive made = made_start(1.0);
        if (i == 2) {
            made_open(&made, 1.0, 0.0);
        } else {
            made_loop(&made, 1.0, 0.0, 0.7);
        }
        made_sample(&made, 0, 0);
        for (int j = 1; j <= 10; j++) {
            if (i == 0) {
                made_sample_cells(&made, 60 * j, 5, 0.9, 0.95, 1.0);
            } else {
                made_sample(&made, 60 * j, 5);
            }
        }
        taken[i] = take(&made);
    }
    for (int i = 0; i < 2; i++) {
        for (size_t j = 0; j < taken[i].count; j++) {
            const struct plm_point *loop = &taken[i].points[j], *open = &taken[2].points[j];
            ck_assert_double_eq(loop->po2_bar, open->po2_bar);
            ck_assert_double_eq(loop->density_g_l, open->density_g_l);
            ck_assert_double_eq(loop->end_m, open->end_m);
            ck_assert_double_eq(loop->cns_pct, open->cns_pct);
            ck_assert_double_eq(loop->otu, open->otu);
            ck_assert_int_eq(memcmp(&loop->tissue, &open->tissue, sizeof loop->tissue), 0);
        }
        ck_assert_double_eq_tol(taken[i].points[5].po2_bar, 1.5, 1e-4);
        ck_assert_double_eq_tol(taken[i].points[5].density_g_l, 1.5 * 1.428 / 1.01325, 1e-3);
        ck_assert(plm_trace_assumed(taken[i].trace)->oxygen_alone);
        ck_assert_str_eq(plm_trace_assumed(taken[i].trace)->oxygen_from, "diluent of oxygen alone");
    }
    ck_assert(!plm_trace_assumed(taken[2].trace)->oxygen_alone);
    for (int i = 0; i < 3; i++) {
        give_back(&taken[i]);
    }
}
END_TEST

START_TEST(a_step_changes_settings_in_no_time)
{
    struct made_dive made = loop_at_30m(0.7);
    made_sample(&made, 60, 30);
    made_setpoint(&made, 1.3);
    made_sample(&made, 60, 30.5);
    made_sample(&made, 120, 30.5);
    struct taken taken = take(&made);
    ck_assert_uint_eq(taken.count, 4);
    ck_assert_double_eq_tol(taken.points[1].po2_bar, 0.7, 1e-12);
    ck_assert_double_eq_tol(taken.points[2].po2_bar, 1.3, 1e-12);
    ck_assert_int_eq(memcmp(&taken.points[1].tissue, &taken.points[2].tissue, sizeof(struct plm_tissue)), 0);
    give_back(&taken);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {cells_have_a_median,
                                  a_cell_can_be_taken_alone,
                                  between_measurements_runs_a_line,
                                  without_a_set_point_the_nearest_measurement_is_held,
                                  the_rule_chooses,
                                  a_forced_set_point_that_is_not_there_leaves_the_measurement,
                                  a_cell_that_drops_out_and_cells_that_disagree,
                                  bail_out_and_return,
                                  semiclosed_with_and_without_measurement,
                                  a_loop_of_which_nothing_is_known,
                                  an_oxygen_rebreather_inspires_no_inert_gas,
                                  a_loop_of_oxygen_is_oxygen_in_every_figure,
                                  a_step_changes_settings_in_no_time};
    return SUITE_RUN("loop", tests);
}
