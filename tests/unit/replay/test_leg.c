/*
 * Legs cut where a clip sets in, against clips worked out by hand.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "replay/leg.h"
#include "support/suite.h"

static const struct plm_mix trimix = {0.10, 0.50, 0.40};

static struct plmi_recorded_leg loop_leg(double from_bar, double to_bar, double po2_from_bar, double po2_to_bar)
{
    return (struct plmi_recorded_leg){
        .dt_s = 100.0,
        .ambient_start_bar = from_bar,
        .ambient_end_bar = to_bar,
        .mix = &trimix,
        .loop = {PLMI_OXYGEN_SETPOINT, po2_from_bar, po2_to_bar},
        .vapour_bar = 0.05,
    };
}

START_TEST(a_leg_without_clips_is_one_piece)
{
    struct plmi_recorded_leg leg = loop_leg(3.0, 5.0, 1.3, 1.1);
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    ck_assert_int_eq(plmi_pieces_find(pieces, &leg), 1);
    ck_assert_double_eq_tol(pieces[0].dt_s, 100.0, 0.0001);
    ck_assert_double_eq_tol(pieces[0].start.inspired.n2_bar, (3.0 - 0.05 - 1.3) * 4.0 / 9.0, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.inspired.he_bar, (5.0 - 0.05 - 1.1) * 5.0 / 9.0, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.inspired.o2_bar, 1.1, 1e-12);
}
END_TEST

/* From 1.0 to 2.0 bar at a set point of 1.3: oxygen is ambient up to 1.3 bar (30 s), inert gas begins at 1.35 bar (35
 * s). */
START_TEST(a_descent_past_the_set_point)
{
    struct plmi_recorded_leg leg = loop_leg(1.0, 2.0, 1.3, 1.3);
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    ck_assert_int_eq(plmi_pieces_find(pieces, &leg), 3);
    ck_assert_double_eq_tol(pieces[0].dt_s, 30.0, 1e-9);
    ck_assert_double_eq_tol(pieces[1].dt_s, 5.0, 1e-9);
    ck_assert_double_eq_tol(pieces[2].dt_s, 65.0, 1e-9);
    ck_assert_double_eq_tol(pieces[0].start.inspired.o2_bar, 1.0, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.inspired.o2_bar, 1.3, 1e-12);
    ck_assert_double_eq_tol(pieces[1].end.inspired.o2_bar, 1.3, 1e-12);
    ck_assert_double_eq_tol(pieces[1].end.inspired.n2_bar, 0.0, 1e-12);
    ck_assert_double_eq_tol(pieces[2].end.inspired.n2_bar, 0.65 * 4.0 / 9.0, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.density_g_l, 1.3 * 1.428 / 1.01325, 1e-9);
}
END_TEST

/* The same way up: the clips come in the other order. */
START_TEST(an_ascent_past_the_set_point)
{
    struct plmi_recorded_leg leg = loop_leg(2.0, 1.0, 1.3, 1.3);
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    ck_assert_int_eq(plmi_pieces_find(pieces, &leg), 3);
    ck_assert_double_eq_tol(pieces[0].dt_s, 65.0, 1e-9);
    ck_assert_double_eq_tol(pieces[1].dt_s, 5.0, 1e-9);
    ck_assert_double_eq_tol(pieces[2].dt_s, 30.0, 1e-9);
    ck_assert_double_eq_tol(pieces[2].end.inspired.o2_bar, 1.0, 1e-12);
}
END_TEST

/* A set point held through cuts is that set point in every piece, to the last bit: one that stands at a limit is not
 * above it by rounding. */
START_TEST(what_does_not_change_stays)
{
    for (int i = 1; i < 1000; i++) {
        struct plmi_recorded_leg leg = loop_leg(1.30 + 0.0001 * i, 1.36 + 0.0007 * i, 1.3, 1.3);
        struct plmi_piece pieces[PLMI_PIECES_MAX];
        int count = plmi_pieces_find(pieces, &leg);
        for (int k = 0; k < count; k++) {
            ck_assert_msg(pieces[k].start.inspired.o2_bar == 1.3 && pieces[k].end.inspired.o2_bar == 1.3,
                          "leg %d, piece %d: off by %g and %g", i, k, pieces[k].start.inspired.o2_bar - 1.3,
                          pieces[k].end.inspired.o2_bar - 1.3);
        }
    }
}
END_TEST

START_TEST(at_one_depth_a_rising_measurement_clips)
{
    struct plmi_recorded_leg leg = loop_leg(1.5, 1.5, 1.0, 2.0);
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    ck_assert_int_eq(plmi_pieces_find(pieces, &leg), 3);
    ck_assert_double_eq_tol(pieces[0].dt_s, 45.0, 1e-9);
    ck_assert_double_eq_tol(pieces[2].dt_s, 50.0, 1e-9);
    ck_assert_double_eq_tol(pieces[2].end.inspired.o2_bar, 1.5, 1e-12);
}
END_TEST

START_TEST(a_leg_wholly_clipped_and_one_that_only_touches)
{
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    struct plmi_recorded_leg clipped = loop_leg(1.0, 1.2, 1.6, 1.6);
    ck_assert_int_eq(plmi_pieces_find(pieces, &clipped), 1);
    ck_assert_double_eq_tol(pieces[0].end.inspired.o2_bar, 1.2, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.inspired.he_bar, 0.0, 1e-12);
    struct plmi_recorded_leg touching = loop_leg(1.35, 2.0, 1.3, 1.3);
    ck_assert_int_eq(plmi_pieces_find(pieces, &touching), 1);
    ck_assert_double_eq_tol(pieces[0].start.inspired.he_bar, 0.0, 1e-12);
}
END_TEST

START_TEST(open_circuit_is_never_cut)
{
    struct plmi_recorded_leg leg = loop_leg(1.0, 9.0, (double)NAN, (double)NAN);
    leg.loop.from = PLMI_OXYGEN_OPEN;
    struct plmi_piece pieces[PLMI_PIECES_MAX];
    ck_assert_int_eq(plmi_pieces_find(pieces, &leg), 1);
    ck_assert_double_eq_tol(pieces[0].end.inspired.o2_bar, 0.9, 1e-12);
    ck_assert_double_eq_tol(pieces[0].end.inspired.he_bar, 8.95 * 0.5, 1e-12);
    ck_assert_double_eq_tol(plmi_moment_n2_bar(&leg, &pieces[0].end), 3.6, 1e-12);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_leg_without_clips_is_one_piece,
                                  a_descent_past_the_set_point,
                                  an_ascent_past_the_set_point,
                                  at_one_depth_a_rising_measurement_clips,
                                  a_leg_wholly_clipped_and_one_that_only_touches,
                                  open_circuit_is_never_cut,
                                  what_does_not_change_stays};
    return SUITE_RUN("leg", tests);
}
