/*
 * Points and whole-dive figures of small dives, worked out by hand; records that are as small or as odd as can be.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "support/made_dive.h"
#include "support/suite.h"

struct replayed {
    struct plm_dive *dive;
    struct plm_trace *trace;
    const struct plm_point *points;
    size_t count;
    const struct plm_trace_summary *summary;
};

static struct replayed replay_with(struct made_dive *made, const struct plm_replay_options *options)
{
    struct replayed replayed;
    replayed.dive = made_finish(made);
    ck_assert_int_eq(plm_replay(&replayed.trace, replayed.dive, options, NULL), PLM_STATUS_OK);
    replayed.points = plm_trace_points(replayed.trace, &replayed.count);
    replayed.summary = plm_trace_summary_get(replayed.trace);
    return replayed;
}

static struct replayed replay(struct made_dive *made)
{
    struct plm_replay_options options = plm_replay_options_default(&made->rules);
    return replay_with(made, &options);
}

static void give_back(struct replayed *replayed)
{
    plm_trace_free(replayed->trace);
    plm_dive_free(replayed->dive);
}

START_TEST(the_smallest_dive)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 10);
    struct replayed r = replay(&made);
    ck_assert_uint_eq(r.count, 2);
    ck_assert_double_eq_tol(r.points[1].ambient_bar, 2.0, 1e-6);
    ck_assert_double_eq_tol(r.points[1].po2_bar, 0.42, 1e-6);
    ck_assert_double_eq_tol(r.points[1].end_m, 10.0, 1e-4);
    /* air at 2 bar: 2 * (0.21 * 1.428 + 0.79 * 1.251) g/L at 1 bar of 1.01325 */
    ck_assert_double_eq_tol(r.points[1].density_g_l, 2.0 * 1.28817 / 1.01325, 1e-4);
    ck_assert(isnan(r.points[1].tts_s) && isnan(r.points[1].anchor_bar));
    ck_assert(r.points[1].ceiling_m == 0.0);
    ck_assert_uint_eq(r.summary->surfaced, 1); /* never surfaces: the last */
    ck_assert_uint_eq(r.summary->bottom_end, 1);
    ck_assert_uint_eq(r.summary->descent_start, 0);
    ck_assert_double_eq_tol(r.summary->mean_depth_m, 5.0, 1e-9);
    ck_assert(isnan(r.summary->min_clearance_m));
    give_back(&r);
}
END_TEST

START_TEST(a_dive_in_no_time)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 10, 0);
    made_sample(&made, 10, 30);
    struct replayed r = replay(&made);
    ck_assert(r.summary->duration_s == 0.0 && r.summary->otu == 0.0);
    ck_assert_double_eq_tol(r.summary->max_depth_m, 30.0, 1e-12);
    ck_assert_double_eq_tol(r.points[1].tissue.n2_bar[0], (1.0 - 0.0627) * 0.7902, 1e-12);
    give_back(&r);
}
END_TEST

/* Surface 60 s, down in 60 s, 30 m until 1500 s, a stretch at 27 m, up, out at 2000 s, a dip, out for good at 2100 s.
 */
START_TEST(phases_of_a_dive)
{
    const double profile[][2] = {{0, 0},    {60, 0.3}, {120, 30}, {1500, 30},  {1800, 27},
                                 {1900, 5}, {2000, 0}, {2050, 2}, {2100, 0.2}, {2200, 0}};
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.32, 0.0);
    for (size_t i = 0; i < 10; i++) {
        made_sample(&made, profile[i][0], profile[i][1]);
    }
    struct replayed r = replay(&made);
    ck_assert_uint_eq(r.summary->descent_start, 1);
    ck_assert_uint_eq(r.summary->bottom_end, 4); /* 27 m is above 85 percent of 30 m, 25.5 m */
    ck_assert_uint_eq(r.summary->surfaced, 8);
    ck_assert_double_eq_tol(r.summary->duration_s, 2200, 1e-9);
    double area = 60 * 15.15 + 1380 * 30 + 300 * 28.5 + 100 * 16 + 100 * 2.5 + 50 * 1 + 50 * 1.1;
    ck_assert_double_eq_tol(r.summary->mean_depth_m, area / 2040.0, 1e-9);
    /* at 0.2 m the head is at the surface, 100 s before the depth is 0: tensions have fallen since */
    ck_assert_double_eq_tol(r.summary->surfacing_gradient_pct, r.points[8].surfacing_gradient_pct, 1e-12);
    ck_assert(r.summary->surfacing_gradient_pct > r.points[9].surfacing_gradient_pct + 1);
    ck_assert(r.summary->reaches_surface);
    ck_assert_double_eq_tol(r.summary->max_po2_bar, 0.32 * 4.0, 1e-5);
    ck_assert_double_eq_tol(r.summary->max_po2_at_s, 120, 1e-9);
    ck_assert_double_eq_tol(r.summary->min_po2_bar, 0.32, 1e-9);
    /* above 1.0 bar: deeper than 21.25 m (EN 13319); above 1.2 bar: deeper than 27.5 m */
    ck_assert_double_eq_tol(r.summary->po2_band_min[0],
                            (60 * (30 - 21.25) / 29.7 + 1380 + 300 + 100 * (27 - 21.25) / 22) / 60.0, 1e-4);
    ck_assert_double_eq_tol(r.summary->po2_band_min[1], (60 * 2.5 / 29.7 + 1380 + 300 * 2.5 / 3.0) / 60.0, 1e-4);
    ck_assert(r.summary->po2_band_min[2] == 0.0);
    give_back(&r);
}
END_TEST

/* 40 m until 600 s, then to via_m in via_s and up within 100 s; half of the greatest depth, 20 m, is the bottom's. */
static size_t bottom_end_after(double via_m, double via_s, double planned_max_m)
{
    struct made_dive made = made_start(1.0);
    made.rules.bottom_frac = 0.5;
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 40);
    made_sample(&made, 600, 40);
    made_sample(&made, 600 + via_s, via_m);
    made_sample(&made, 700 + via_s, 0);
    struct plm_replay_options options = plm_replay_options_default(&made.rules);
    options.planned_max_m = planned_max_m;
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = NULL;
    ck_assert_int_eq(plm_replay(&trace, dive, &options, NULL), PLM_STATUS_OK);
    size_t bottom_end = plm_trace_summary_get(trace)->bottom_end;
    plm_trace_free(trace);
    plm_dive_free(dive);
    return bottom_end;
}

/* The bottom is left where the ascent sets in that passes its depth: at 40 m on a way at 12 m/min, at 20 m on one at
 * 1.7 m/min that stops there; not at all higher up. A plan to 38 m makes 19 m of it. */
START_TEST(the_bottom_ends_where_the_ascent_sets_in)
{
    ck_assert_uint_eq(bottom_end_after(20, 100, 0), 2);
    ck_assert_uint_eq(bottom_end_after(20, 700, 0), 3);
    ck_assert_uint_eq(bottom_end_after(19.9, 700, 0), 2);
    ck_assert_uint_eq(bottom_end_after(19.9, 700, 38), 3);
    ck_assert_uint_eq(bottom_end_after(19.9, 700, 60), 2);
}
END_TEST

/*
 * What is shallower than the rule's surface is the surface: hours at 0.3 m clear the anchor, as at 0 m. At the rule's
 * depth itself the diver is in the water still, and the anchor stays.
 */
START_TEST(the_surface_is_where_the_rule_puts_it)
{
    static const struct {
        double rest_m;
        bool kept;
    } rows[] = {{0.0, false}, {0.3, false}, {0.49, false}, {0.5, true}, {1.0, true}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct made_dive made = made_start(1.0);
        made.rules.surface_depth_m = 0.5;
        made_open(&made, 0.21, 0.0);
        made_sample(&made, 0, 0);
        made_sample(&made, 180, 45);
        made_sample(&made, 2400, 45);
        made_sample(&made, 2700, rows[i].rest_m);
        made_sample(&made, 30000, rows[i].rest_m);
        struct replayed r = replay(&made);
        ck_assert_double_gt(r.points[3].anchor_bar, 1.0);
        ck_assert(r.points[4].ceiling_m <= 0.0);
        ck_assert_msg(isnan(r.points[4].anchor_bar) == !rows[i].kept, "%g m", rows[i].rest_m);
        give_back(&r);
    }
}
END_TEST

/* A switch at 22 m from air to nitrox 50: the highest oxygen pressure is behind it, though the next sample is
 * shallower. */
START_TEST(extremes_lie_on_either_side_of_a_switch)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 100, 40);
    made_open(&made, 0.5, 0.0);
    made_sample(&made, 300, 20);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 400, 24); /* leg end on nitrox 50 at 3.4 bar */
    made_sample(&made, 500, 0);
    struct replayed r = replay(&made);
    ck_assert_double_eq_tol(r.points[3].po2_bar, 0.21 * 3.4, 1e-5);
    ck_assert_double_eq_tol(r.summary->max_po2_bar, 0.5 * 3.4, 1e-5);
    ck_assert_double_eq_tol(r.summary->max_po2_at_s, 400, 1e-9);
    ck_assert_double_eq_tol(r.summary->max_density_at_s, 100, 1e-9);
    give_back(&r);
}
END_TEST

START_TEST(depth_is_scaled_and_shifted_and_never_negative)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 600, 0);
    struct plm_replay_options options = plm_replay_options_default(&made.rules);
    options.depth_scale = 1.005;
    options.depth_shift_m = -0.1;
    struct replayed r = replay_with(&made, &options);
    ck_assert(r.points[0].depth_m == 0.0);
    ck_assert_double_eq_tol(r.points[1].depth_m, 20.0, 1e-12);
    give_back(&r);
}
END_TEST

/* An overrun dive that breaks its ceiling: anchor, clearance, and a ceiling that outlasts surfacing. */
START_TEST(ceiling_anchor_and_clearance)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 180, 45);
    made_sample(&made, 2400, 45);
    made_sample(&made, 2700, 0);
    made_sample(&made, 30000, 0);
    struct replayed r = replay(&made);
    const struct plm_point *bottom = &r.points[2], *out = &r.points[3], *rested = &r.points[4];
    ck_assert_double_gt(bottom->ceiling_m, 3.0);
    ck_assert_double_eq_tol(bottom->clearance_m, 45.0 - bottom->ceiling_m, 1e-12);
    /* at the anchor the factor is GF low: the ceiling there is the GF-low ceiling itself */
    ck_assert_double_eq_tol((bottom->anchor_bar - 1.0) * 10.0, bottom->ceiling_m, 1e-4);
    ck_assert_double_lt(bottom->no_limit_ceiling_m, bottom->ceiling_m);
    ck_assert_double_gt(out->ceiling_m, 0.0);
    ck_assert_double_eq_tol(out->clearance_m, -out->ceiling_m, 1e-12);
    ck_assert_double_eq_tol(out->gradient_pct, out->surfacing_gradient_pct, 1e-12);
    ck_assert_double_gt(out->surfacing_gradient_pct, 70.0);
    ck_assert(out->anchor_bar >= bottom->anchor_bar);
    /* hours later the ceiling is gone and so is the anchor */
    ck_assert(rested->ceiling_m == 0.0 && isnan(rested->anchor_bar));
    ck_assert_double_eq_tol(r.summary->min_clearance_m, out->clearance_m, 1e-12);
    ck_assert_double_eq_tol(r.summary->peak_gradient_pct, out->gradient_pct, 1e-12);
    ck_assert_int_eq(r.summary->peak_leading, out->leading);
    give_back(&r);
}
END_TEST

/* Hours at the surface on pure oxygen before the dive wash nitrogen out, breathed as recorded. */
START_TEST(the_surface_is_breathed_as_recorded)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 1.0, 0.0);
    made_sample(&made, 0, 0);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 3600, 0);
    made_sample(&made, 3660, 10);
    struct replayed r = replay(&made);
    double k = log(2.0) / (60.0 * plm_zhl16_get(2)->n2_half_time_min[0]);
    ck_assert_double_eq_tol(r.points[1].tissue.n2_bar[0], (1.0 - 0.0627) * 0.7902 * exp(-k * 3600.0), 1e-12);
    ck_assert_double_eq_tol(r.points[1].otu, 60.0, 1e-9); /* an hour at 1 bar */
    give_back(&r);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {the_smallest_dive,
                                  a_dive_in_no_time,
                                  phases_of_a_dive,
                                  the_bottom_ends_where_the_ascent_sets_in,
                                  the_surface_is_where_the_rule_puts_it,
                                  extremes_lie_on_either_side_of_a_switch,
                                  depth_is_scaled_and_shifted_and_never_negative,
                                  ceiling_anchor_and_clearance,
                                  the_surface_is_breathed_as_recorded};
    return SUITE_RUN("replay", tests);
}
