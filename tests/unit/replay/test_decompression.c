/*
 * Owed and done, schedules at samples, the cost of a minute, bail-out: what each must be by its definition.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/decompression.h>
#include <stdlib.h>

#include "replay/ascent_from.h"
#include "support/made_dive.h"
#include "support/suite.h"

struct found {
    struct plm_dive *dive;
    struct plm_trace *trace;
    const struct plm_point *points;
    size_t count;
    struct plm_rules rules;
    struct plm_replay_options options;
    struct plm_decompression *decompression;
};

/* made holds its own rules: they must live as long as the options. */
static void find(struct found *found, struct made_dive *made)
{
    found->rules = made->rules;
    found->dive = made_finish(made);
    found->options = plm_replay_options_default(&found->rules);
    found->options.schedules = true;
    found->decompression = calloc(1, sizeof *found->decompression);
    ck_assert_ptr_nonnull(found->decompression);
    ck_assert_int_eq(plm_replay(&found->trace, found->dive, &found->options, NULL), PLM_STATUS_OK);
    found->points = plm_trace_points(found->trace, &found->count);
    ck_assert_int_eq(plm_decompression_find(found->decompression, found->dive, found->trace, &found->options, NULL),
                     PLM_STATUS_OK);
}

static void give_back(struct found *found)
{
    free(found->decompression);
    plm_trace_free(found->trace);
    plm_dive_free(found->dive);
}

/* 115 m on a loop until the bottom_s-th second, then up in some three hours. */
static struct made_dive deep_loop(double bottom_s)
{
    struct made_dive made = made_start(1.01325);
    made_carried(&made, 0.12, 0.60);
    made_carried(&made, 0.18, 0.45);
    made_carried(&made, 0.5, 0.0);
    made_loop(&made, 0.10, 0.70, 0.7);
    made_sample(&made, 0, 0);
    made_setpoint(&made, 1.3);
    made_sample(&made, 60, 20);
    made_sample(&made, 360, 115);
    made_sample(&made, bottom_s, 115);
    made_sample(&made, bottom_s + 600, 50);
    made_sample(&made, bottom_s + 3600, 12);
    made_sample(&made, bottom_s + 4000, 6);
    made_sample(&made, bottom_s + 10000, 6);
    made_sample(&made, bottom_s + 10060, 0);
    return made;
}

START_TEST(owed_is_the_schedule_and_done_the_time_in_its_bands)
{
    struct found found;
    struct made_dive made = deep_loop(1500);
    find(&found, &made);
    const struct plm_decompression *d = found.decompression;
    ck_assert_double_eq_tol(d->bottom_end_s, 1500, 1e-9);
    ck_assert_double_eq_tol(d->ascent_s, 10060, 1e-9);
    double owed_s = 0, done_s = 0;
    for (size_t i = 0; i < d->stop_count; i++) {
        ck_assert(i == 0 || d->stops[i].depth_m < d->stops[i - 1].depth_m);
        owed_s += d->stops[i].owed_s;
        done_s += d->stops[i].done_s;
    }
    ck_assert_double_eq_tol(owed_s, d->owed_s, 1e-6);
    ck_assert_double_eq_tol(done_s, d->done_s, 1e-6);
    /* way at 9 m/min, from 6 m up at 6 m/min, and waits make up the time to surface */
    ck_assert_double_eq_tol(d->tts_s, d->owed_s + 109.0 / 9.0 * 60.0 + 60.0, 1e-6);
    ck_assert_double_eq_tol(found.points[3].tts_s, d->tts_s, 1e-9);
    /* at 6 m: in from 7.5 m at 6 m per 400 s, 6000 s there, out to 4.5 m at 0.1 m/s */
    const struct plm_stop *six = &d->stops[d->stop_count - 2];
    ck_assert_double_eq_tol(six->depth_m, 6.0, 1e-9);
    ck_assert_double_eq_tol(six->done_s, 100.0 + 6000.0 + 15.0, 1e-6);
    give_back(&found);
}
END_TEST

/* 25 min at 30 m on air, up at 9 m/min to 6 m, stop_s there and straight up; ends_m: where the record ends. */
static struct made_dive last_stop_at_6_m(double stop_s, double ends_m)
{
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 180, 30);
    made_sample(&made, 1680, 30);
    for (int i = 1; i <= 16; i++) {
        made_sample(&made, 1680 + 10 * i, 30 - 1.5 * i);
    }
    for (double t_s = 10; t_s <= stop_s; t_s += 10) {
        made_sample(&made, 1840 + t_s, 6);
    }
    for (int i = 1; i <= 6 && 6 - i >= ends_m; i++) {
        made_sample(&made, 1840 + stop_s + 10 * i, 6 - i);
    }
    return made;
}

/* Waiting longer at 6 m clears the ceiling to the surface, whatever the table asks for at 3 m. */
START_TEST(the_state_decides_and_not_the_subtraction)
{
    struct found long_stop, cut, in_water;
    struct made_dive made = last_stop_at_6_m(2400, 0);
    find(&long_stop, &made);
    const struct plm_decompression *d = long_stop.decompression;
    const struct plm_stop *three = &d->stops[d->stop_count - 1];
    ck_assert_double_eq_tol(three->depth_m, 3, 1e-9);
    ck_assert_double_gt(three->owed_s, three->done_s + 60);
    ck_assert(d->required && d->left_owing_s == 0.0);
    ck_assert_double_gt(d->cleared_s, 60);
    made = last_stop_at_6_m(60, 0);
    find(&cut, &made);
    d = cut.decompression;
    ck_assert(d->required && isnan(d->cleared_s));
    ck_assert_double_gt(d->left_owing_s, 60);
    made = last_stop_at_6_m(60, 6);
    find(&in_water, &made);
    ck_assert(isnan(in_water.decompression->cleared_s) && in_water.decompression->left_owing_s > 60);
    give_back(&long_stop);
    give_back(&cut);
    give_back(&in_water);
}
END_TEST

/* Ten minutes at 12 m ask for no stop; five minutes at 5 m on the way are none that was required. */
START_TEST(no_stop_is_required_where_there_was_no_ceiling)
{
    struct found found;
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 12);
    made_sample(&made, 660, 12);
    made_sample(&made, 720, 5);
    made_sample(&made, 1020, 5);
    made_sample(&made, 1080, 0);
    find(&found, &made);
    ck_assert(!found.decompression->required && isnan(found.decompression->cleared_s));
    ck_assert(found.decompression->left_owing_s == 0.0);
    give_back(&found);
}
END_TEST

START_TEST(bail_out_takes_the_mixes_carried)
{
    struct found found;
    struct made_dive made = deep_loop(1500);
    find(&found, &made);
    ck_assert(found.decompression->bailout);
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, found.dive);
    plmi_ascent_from_point(&from, plm_trace_assumed(found.trace), &found.points[3]);
    ck_assert_int_eq(from.gas.carried_count, 3);
    ck_assert_double_eq_tol(from.gas.setpoint_bar, 1.3, 1e-12);
    plmi_ascent_bail_out(&from);
    struct plmi_schedule schedule;
    plmi_schedule_find(&schedule, &from, plm_zhl16_get(2), &found.rules);
    ck_assert_double_eq_tol(found.decompression->bailout_tts_s, schedule.tts_s, 1e-9);
    ck_assert_double_eq_tol(schedule.stops[schedule.stop_count - 1].mix_o2_frac, 0.5, 1e-12);
    ck_assert_int_eq(found.decompression->bailout_gaps.count, 0);
    give_back(&found);
}
END_TEST

/* 25 min at 115 m on a loop; what is carried is the row's. */
static struct made_dive deep_loop_with(const double o2_frac[2])
{
    struct made_dive made = made_start(1.01325);
    for (int i = 0; i < 2 && o2_frac[i] > 0; i++) {
        made_carried(&made, o2_frac[i], o2_frac[i] < 0.2 ? 0.6 : 0.0);
    }
    made_loop(&made, 0.10, 0.70, 1.3);
    made_sample(&made, 0, 0);
    made_sample(&made, 300, 115);
    made_sample(&made, 1500, 115);
    made_sample(&made, 9000, 0);
    return made;
}

/* No time for a way on which nothing carried can be breathed, but where from and where to. Depths by hand: 1 bar is 10
 * m; 1.62 bar of oxygen is 22.27 m on 50 %, 6.07 m on oxygen, 144.9 m on 10.46 %; 0.18 bar is 7.08 m on 10.46 %. */
START_TEST(no_bail_out_time_without_a_mix_for_every_metre)
{
    static const struct {
        double o2_frac[2];
        int gaps;
        double from_m, to_m;
    } rows[] = {
        {{0.5, 1.0}, 1, 115.0, 22.2675},    {{1.0, 0.5}, 1, 115.0, 22.2675}, {{1.0}, 1, 115.0, 6.0675},
        {{0.1046, 1.0}, 1, 7.0759, 6.0675}, {{0.1046, 0.5}, 0, 0, 0},        {{0.1046}, 1, 7.0759, 0.5},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct found found;
        struct made_dive made = deep_loop_with(rows[i].o2_frac);
        made.rules.surface_depth_m = 0.5;
        find(&found, &made);
        const struct plm_decompression *d = found.decompression;
        ck_assert_int_eq(d->bailout_gaps.count, rows[i].gaps);
        ck_assert_int_eq(d->beyond_limits.count, 0);
        ck_assert_msg(d->bailout == (rows[i].gaps == 0) && isnan(d->bailout_tts_s) == (rows[i].gaps > 0), "row %zu", i);
        if (rows[i].gaps > 0) {
            ck_assert_double_eq_tol(d->bailout_gaps.depths[0].from_m, rows[i].from_m, 1e-3);
            ck_assert_double_eq_tol(d->bailout_gaps.depths[0].to_m, rows[i].to_m, 1e-3);
        }
        /* what the loop asks for is told all the same */
        ck_assert_double_gt(d->owed_s, 1800.0);
        give_back(&found);
    }
}
END_TEST

/* 50 % breathed at 60 m on open circuit. Nothing at hand is within its limit below 22.27 m,
 * and the stops are those of the mix that was breathed: as without any limit. */
START_TEST(a_mix_too_deep_does_not_make_stops_vanish)
{
    struct found found, free_of_limits;
    for (int i = 0; i < 2; i++) {
        struct found *one = i == 0 ? &found : &free_of_limits;
        struct made_dive made = made_start(1.01325);
        made.rules.deco_po2_max_bar = i == 0 ? 1.6 : 100.0;
        made_open(&made, 0.5, 0.0);
        made_sample(&made, 0, 0);
        made_sample(&made, 180, 60);
        made_sample(&made, 3000, 60);
        made_sample(&made, 6000, 0);
        find(one, &made);
    }
    const struct plm_uncovered *beyond = &found.decompression->beyond_limits;
    ck_assert_int_eq(beyond->count, 1);
    ck_assert_double_eq_tol(beyond->depths[0].from_m, 60.0, 1e-9);
    ck_assert_double_eq_tol(beyond->depths[0].to_m, 22.2675, 1e-4);
    ck_assert_int_eq(free_of_limits.decompression->beyond_limits.count, 0);
    ck_assert_double_gt(found.decompression->owed_s, 600.0);
    ck_assert_double_eq_tol(found.decompression->owed_s, free_of_limits.decompression->owed_s, 1e-9);
    ck_assert_int_eq(found.decompression->bailout_gaps.count, 0);
    give_back(&found);
    give_back(&free_of_limits);
}
END_TEST

/* Of what was done, 20 s a stop are the way: 3 m at 9 m/min, half-way from one stop to the next. Above 6 m it is 6
 * m/min: 5 s more at the stop there, 10 s more at 3 m. */
START_TEST(the_way_is_told_apart)
{
    struct found found;
    struct made_dive made = deep_loop(1500);
    find(&found, &made);
    double way_s = 5.0 + 10.0;
    for (size_t i = 0; i < found.decompression->stop_count; i++) {
        way_s += 20.0;
    }
    ck_assert_uint_gt(found.decompression->stop_count, 3);
    ck_assert_double_eq_tol(found.decompression->way_s, way_s, 1e-6);
    give_back(&found);
}
END_TEST

/* The cost of a minute is the difference that a dive a minute longer really makes. */
START_TEST(the_cost_is_that_of_a_longer_dive)
{
    struct found now, later;
    struct made_dive made = deep_loop(1500), longer = deep_loop(1560);
    find(&now, &made);
    find(&later, &longer);
    double cost_min = (later.decompression->tts_s - now.decompression->tts_s) / 60.0;
    ck_assert_double_eq_tol(now.decompression->deco_cost_min_per_min, cost_min, 1e-6);
    ck_assert_double_gt(cost_min, 3.0);
    double *costs = calloc(now.count, sizeof *costs);
    ck_assert_int_eq(plm_decompression_costs(costs, now.count, now.dive, now.trace, &now.options), PLM_STATUS_OK);
    ck_assert_double_eq_tol(costs[3], cost_min, 1e-6);
    ck_assert(isnan(costs[0]) && isnan(costs[1]) && !isnan(costs[2]) && isnan(costs[4]));
    ck_assert_int_eq(plm_decompression_costs(costs, 3, now.dive, now.trace, &now.options), PLM_STATUS_ARGUMENT);
    free(costs);
    give_back(&now);
    give_back(&later);
}
END_TEST

START_TEST(schedules_stand_at_every_sample)
{
    struct found found;
    struct made_dive made = deep_loop(1200);
    find(&found, &made);
    struct plmi_ascent_from from;
    plmi_ascent_carried(&from.gas, found.dive);
    const struct plm_zhl16 *model = plm_zhl16_get(2);
    for (size_t i = 0; i < found.count; i++) {
        plmi_ascent_from_point(&from, plm_trace_assumed(found.trace), &found.points[i]);
        ck_assert_double_eq_tol(found.points[i].tts_s, plmi_tts_s(&from, model, &found.rules), 1e-9);
        ck_assert_double_eq_tol(found.points[i].no_stop_s, plmi_no_stop_s(&from, model, &found.rules), 1e-9);
    }
    ck_assert_double_gt(found.points[1].no_stop_s, 60.0);
    ck_assert(found.points[3].no_stop_s == 0.0);
    give_back(&found);
}
END_TEST

/* Ten minutes at 12 m on air: nothing owed, nothing costs, no bail-out; any gradient factors above its own do. */
START_TEST(a_dive_that_owes_nothing)
{
    struct found found;
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 12);
    made_sample(&made, 660, 12);
    made_sample(&made, 780, 0);
    find(&found, &made);
    const struct plm_decompression *d = found.decompression;
    ck_assert_uint_eq(d->stop_count, 0);
    ck_assert(d->owed_s == 0.0 && isnan(d->deco_cost_min_per_min));
    ck_assert(!d->bailout && isnan(d->bailout_tts_s));
    ck_assert_double_eq_tol(d->tts_s, 40.0 + 60.0, 1e-6); /* 6 m at 9 m/min, 6 m at 6 m/min */
    ck_assert_double_lt(d->achieved_gf_high_pct, 40.0);
    ck_assert_double_ge(d->achieved_gf_low_pct, 1.0);
    ck_assert_double_le(d->achieved_gf_low_pct, ceil(fmax(1.0, d->achieved_gf_high_pct)));
    give_back(&found);
}
END_TEST

/* A loop of helium without oxygen to come up on: a stop that never clears is told, not waited for. */
START_TEST(what_never_clears)
{
    struct found found;
    struct made_dive made = made_start(1.01325);
    made.rules.schedule_max_h = 2.0;
    made_loop(&made, 0.05, 0.95, 0.5);
    made_sample(&made, 0, 0);
    made_sample(&made, 300, 100);
    made_sample(&made, 40000, 100);
    made_sample(&made, 41000, 0);
    find(&found, &made);
    ck_assert(isinf(found.decompression->tts_s));
    ck_assert(isnan(found.decompression->deco_cost_min_per_min));
    ck_assert(isinf(found.points[2].tts_s));
    ck_assert(isnan(found.decompression->achieved_gf_low_pct) || found.decompression->achieved_gf_low_pct <= 100.0);
    give_back(&found);
}
END_TEST

/* A dive whose record stops at depth: all that was spent counts, nothing is read beyond its end, and no surfacing is
 * made up. */
START_TEST(a_record_that_never_surfaces)
{
    struct found found;
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 40);
    made_sample(&made, 1800, 40);
    find(&found, &made);
    const struct plm_trace_summary *summary = plm_trace_summary_get(found.trace);
    ck_assert(summary->ends_in_water && isnan(summary->surfacing_gradient_pct) && summary->surfacing_leading == 0);
    ck_assert(isnan(found.decompression->ascent_s) && found.decompression->done_s == 0.0);
    ck_assert_double_gt(found.decompression->owed_s, 60.0);
    ck_assert(isnan(found.decompression->achieved_gf_high_pct) && isnan(found.decompression->achieved_gf_low_pct));
    /* What the model says of the moment stands. */
    ck_assert_double_gt(found.points[2].surfacing_gradient_pct, 100.0);
    give_back(&found);
}
END_TEST

/* Recorders stop short of the surface: such a dive is over. */
START_TEST(a_record_that_ends_just_below_the_surface)
{
    struct found found;
    struct made_dive made = made_start(1.01325);
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 120, 40);
    made_sample(&made, 1800, 40);
    made_sample(&made, 2100, 1.2);
    find(&found, &made);
    ck_assert(!plm_trace_summary_get(found.trace)->ends_in_water && found.decompression->ascent_s == 300.0);
    ck_assert_double_gt(found.decompression->achieved_gf_high_pct, 100.0);
    give_back(&found);
}
END_TEST

/* A loop of which nothing is known counts as open circuit on its diluent in the schedule as well as in the replay: its
 * oxygen pressure does not stay at that of the bottom on the way up. */
START_TEST(a_loop_of_which_nothing_is_known_comes_up_on_its_diluent)
{
    struct found found[2];
    for (int i = 0; i < 2; i++) {
        struct made_dive made = made_start(1.01325);
        if (i == 0) {
            made_loop(&made, 0.21, 0.0, (double)NAN);
        } else {
            made_open(&made, 0.21, 0.0);
        }
        made_sample(&made, 0, 0);
        made_sample(&made, 120, 40);
        made_sample(&made, 1800, 40);
        made_sample(&made, 5400, 0);
        find(&found[i], &made);
    }
    ck_assert_double_gt(found[1].decompression->owed_s, 1200.0);
    ck_assert_double_eq_tol(found[0].decompression->owed_s, found[1].decompression->owed_s, 1e-6);
    ck_assert_double_eq_tol(found[0].decompression->tts_s, found[1].decompression->tts_s, 1e-6);
    ck_assert_double_eq_tol(found[0].decompression->deco_cost_min_per_min,
                            found[1].decompression->deco_cost_min_per_min, 1e-6);
    give_back(&found[0]);
    give_back(&found[1]);
}
END_TEST

/* ascent_from.h: on the loop the set point in force, or where none is recorded the PO2 that the model took. */
START_TEST(a_schedule_is_breathed_at_the_set_point_in_force)
{
    struct made_dive made = made_start(1.01325);
    made_loop(&made, 0.10, 0.60, 1.3);
    made_sample(&made, 0, 0);
    made_sample_cells(&made, 120, 20, 1.1, 1.1, 1.1);
    made_sample_cells(&made, 600, 20, 1.1, 1.1, 1.1);
    struct plm_dive *dive = made_finish(&made);
    struct plm_trace *trace = made_replay(dive, &made.rules);
    size_t count;
    struct plm_point point = plm_trace_points(trace, &count)[2];
    struct plmi_ascent_from from;
    ck_assert_double_eq_tol(point.po2_bar, 1.1, 1e-12);
    plmi_ascent_from_point(&from, plm_trace_assumed(trace), &point);
    ck_assert_double_eq(from.gas.setpoint_bar, 1.3);
    point.setpoint_bar = (double)NAN;
    plmi_ascent_from_point(&from, plm_trace_assumed(trace), &point);
    ck_assert_double_eq_tol(from.gas.setpoint_bar, 1.1, 1e-12);
    plm_trace_free(trace);
    plm_dive_free(dive);
}
END_TEST

/* [m] least clearance of the dive replayed anew by these gradient factors. */
static double clearance_m(const struct found *found, double low_pct, double high_pct)
{
    struct plm_rules rules = found->rules;
    rules.gf_low_pct = low_pct;
    rules.gf_high_pct = high_pct;
    struct plm_trace *trace = made_replay(found->dive, &rules);
    double least_m = plm_trace_summary_get(trace)->min_clearance_m;
    plm_trace_free(trace);
    return least_m;
}

/*
 * Up to 3 m at once (9 m of 10 m, and then once more to 6 m), and there until the surface is reached at a much smaller
 * gradient than 3 m was: lines of gradient factors that end at the smaller one pass 3 m only where GF low is above GF
 * high, or never. Each GF low from 1 to 100 is held by a replay of its own.
 */
START_TEST(achieved_low_may_be_above_high)
{
    static const struct {
        double bottom_m, bottom_min, stop_min;
        bool dip;
    } rows[] = {{15, 14, 20, false}, {15, 26, 40, false}, {20, 10, 10, false},
                {40, 14, 40, false}, {10, 2, 20, true},   {10, 10, 20, true}};
    int none = 0, above = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct found found;
        struct made_dive made = made_start(1.01325);
        double t_s = 3 * rows[i].bottom_m, stop_m = rows[i].bottom_m > 10 ? 3 : 9;
        made_open(&made, 0.21, 0.0);
        made_sample(&made, 0, 0);
        made_sample(&made, t_s, rows[i].bottom_m);
        made_sample(&made, t_s += 60 * rows[i].bottom_min, rows[i].bottom_m);
        made_sample(&made, t_s += 6 * (rows[i].bottom_m - stop_m), stop_m);
        made_sample(&made, t_s += 60 * rows[i].stop_min, stop_m);
        made_sample(&made, t_s += 7 * stop_m, 0);
        for (int k = 0; k < 4 && rows[i].dip; k++) {
            made_sample(&made, t_s += k == 0 ? 60 : k == 2 ? 600 : 100, k == 1 || k == 2 ? 6 : 0);
        }
        find(&found, &made);
        double high_pct = found.decompression->achieved_gf_high_pct, low_pct = 1;
        ck_assert_double_gt(high_pct, 1.0);
        while (low_pct <= 100 && clearance_m(&found, low_pct, high_pct) < -1e-3) {
            low_pct++;
        }
        if (low_pct > 100) {
            ck_assert_msg(isnan(found.decompression->achieved_gf_low_pct), "dive %zu: %g, none passes", i,
                          found.decompression->achieved_gf_low_pct);
        } else {
            ck_assert_msg(fabs(found.decompression->achieved_gf_low_pct - low_pct) < 1e-9,
                          "dive %zu: %g, %g is the least to pass", i, found.decompression->achieved_gf_low_pct,
                          low_pct);
        }
        none += low_pct > 100;
        above += low_pct <= 100 && low_pct > high_pct;
        give_back(&found);
    }
    ck_assert(none > 0 && above > 0);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {owed_is_the_schedule_and_done_the_time_in_its_bands,
                                  the_state_decides_and_not_the_subtraction,
                                  no_stop_is_required_where_there_was_no_ceiling,
                                  bail_out_takes_the_mixes_carried,
                                  no_bail_out_time_without_a_mix_for_every_metre,
                                  a_mix_too_deep_does_not_make_stops_vanish,
                                  the_way_is_told_apart,
                                  the_cost_is_that_of_a_longer_dive,
                                  schedules_stand_at_every_sample,
                                  a_dive_that_owes_nothing,
                                  what_never_clears,
                                  a_record_that_never_surfaces,
                                  a_loop_of_which_nothing_is_known_comes_up_on_its_diluent,
                                  a_schedule_is_breathed_at_the_set_point_in_force,
                                  achieved_low_may_be_above_high,
                                  a_record_that_ends_just_below_the_surface};
    return SUITE_RUN("decompression", tests);
}
