/*
 * The anchor of the gradient factors where it decides, and the gas of a stay, against the slow diver, who is written
 * apart. Source of the definitions: plimsoll-model(7), SCHEDULE.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "ascent/schedule.h"
#include "ref/ascent/slow_diver.h"
#include "support/suite.h"

static const double tolerance_s = 2.0;

static struct slow_diver diver(const struct plm_rules *rules, double o2, double he)
{
    return (struct slow_diver){
        .model = plm_zhl16_get(rules->model),
        .surface_bar = 1.0,
        .bar_per_m = 0.1,
        .vapour_bar = rules->water_vapour_bar,
        .gf_low = rules->gf_low_pct / 100.0,
        .gf_high = rules->gf_high_pct / 100.0,
        .step_m = rules->stop_step_m,
        .last_m = rules->last_stop_m,
        .rate_m_s = rules->schedule_rate_m_min / 60.0,
        .shallow_rate_m_s = rules->schedule_shallow_rate_m_min / 60.0,
        .shallow_m = rules->schedule_shallow_band_m,
        .po2_max_bar = rules->deco_po2_max_bar + rules->deco_po2_slack_bar,
        .density_max_g_l = rules->deco_density_max_g_l,
        .mix_count = 1,
        .mixes = {{o2, he}},
    };
}

static struct plmi_ascent_from from_of(const struct slow_diver *d)
{
    const struct slow_mix *mix = &d->mixes[0];
    struct plmi_ascent_from from = {
        .depth_m = d->depth_m,
        .surface_bar = d->surface_bar,
        .water_kg_m3 = d->bar_per_m / 9.80665e-5,
        .anchor_bar = d->anchor_bar > d->surface_bar ? d->anchor_bar : (double)NAN,
        .gas = {.mode = d->on_loop ? PLM_MODE_CLOSED : PLM_MODE_OPEN,
                .mix = {mix->o2, mix->he, 1.0 - mix->o2 - mix->he},
                .setpoint_bar = d->setpoint_bar},
    };
    for (int c = 0; c < PLM_COMPARTMENTS; c++) {
        from.tissue.n2_bar[c] = d->n2[c];
        from.tissue.he_bar[c] = d->he[c];
    }
    return from;
}

/* The longest stay from which the slow diver goes straight up lies within 2 s of no_stop_s. setpoint_bar: that of the
 * way up. */
static void check_no_stop(const struct slow_diver *d, double no_stop_s, double setpoint_bar)
{
    struct slow_diver stayed = *d;
    slow_stay(&stayed, no_stop_s - tolerance_s);
    struct slow_diver going = stayed;
    going.setpoint_bar = setpoint_bar;
    ck_assert_msg(slow_is_direct(&going), "%.1f s are too long", no_stop_s);
    slow_stay(&stayed, 2.0 * tolerance_s);
    going = stayed;
    going.setpoint_bar = setpoint_bar;
    ck_assert_msg(!slow_is_direct(&going), "%.1f s are too short", no_stop_s);
}

/*
 * A diver full of nitrogen changes to a mix of much helium at the stop: helium comes in faster than nitrogen leaves,
 * tensions rise, and the deepest ceiling is met while waiting, often before the wait ends. All later stops hang from
 * it, and so does the end of the wait itself.
 */
START_TEST(a_wait_deepens_the_anchor)
{
    static const struct {
        double he, depth_m, gf_low_pct, bottom_s;
    } rows[] = {{0.7, 27, 30, 2400}, {0.79, 24, 20, 3600}, {0.4, 24, 10, 4800},
                {0.6, 21, 30, 4800}, {0.3, 21, 10, 2400},  {0.2, 18, 30, 4800}};
    int deepened = 0;
    for (size_t row = 0; row < sizeof rows / sizeof rows[0]; row++) {
        struct plm_rules rules = plm_rules_default();
        rules.gf_low_pct = rows[row].gf_low_pct;
        rules.gf_high_pct = 90;
        struct slow_diver d = diver(&rules, 0.21, 0.0);
        slow_go_down(&d, 36.0, rows[row].bottom_s);
        d.depth_m = rows[row].depth_m;
        d.anchor_bar = d.surface_bar;
        d.mixes[0] = (struct slow_mix){0.21, rows[row].he};
        struct plmi_ascent_from from = from_of(&d);
        struct slow_diver still = d;
        slow_stay(&still, 0.01);
        struct plmi_schedule schedule;
        plmi_schedule_find(&schedule, &from, d.model, &rules);
        ck_assert(slow_go_up(&d, 4e5));
        printf("helium %.2f: anchor %.2f bar at first, %.2f bar in the end; %.1f s to the surface, slow diver %.1f s\n",
               rows[row].he, still.anchor_bar, d.anchor_bar, schedule.tts_s, d.tts_s);
        deepened += d.anchor_bar > still.anchor_bar + 0.1;
        ck_assert_msg(fabs(schedule.tts_s - d.tts_s) < tolerance_s, "row %zu: %.1f s, slow diver %.1f s", row,
                      schedule.tts_s, d.tts_s);
        ck_assert_int_eq(schedule.stop_count, d.stop_count);
        for (int i = 0; i < d.stop_count; i++) {
            ck_assert_double_eq_tol(schedule.stops[i].depth_m, d.depths_m[i], 1e-6);
            ck_assert_double_eq_tol(schedule.stops[i].wait_s, d.waits_s[i], tolerance_s);
        }
    }
    ck_assert_int_ge(deepened, 3);
}
END_TEST

/*
 * The same tensions, with an anchor from deeper water and without. Where the last metres are climbed slowly, fast
 * compartments give off so much on the way that a stop depth on the way is stricter than the surface; and there the
 * line from GF low to GF high is further up with the deep anchor, so the stay is longer.
 */
START_TEST(a_stay_remembers_the_anchor)
{
    struct plm_rules rules = plm_rules_default();
    rules.gf_low_pct = 20;
    rules.gf_high_pct = 70;
    rules.schedule_shallow_rate_m_min = 0.7;
    rules.schedule_shallow_band_m = 5.5;
    struct slow_diver d = diver(&rules, 0.21, 0.0);
    slow_go_down(&d, 34.5, 120.0);
    double longest_s[2];
    for (int deep = 0; deep < 2; deep++) {
        d.anchor_bar = deep ? 3.5 : d.surface_bar;
        struct plmi_ascent_from from = from_of(&d);
        longest_s[deep] = plmi_no_stop_s(&from, d.model, &rules);
        printf("anchor at %.1f bar: no stop for %.1f s\n", d.anchor_bar, longest_s[deep]);
        check_no_stop(&d, longest_s[deep], 0.0);
    }
    ck_assert_double_gt(longest_s[1], longest_s[0] + 60.0);
}
END_TEST

/* The stay is breathed by the set point in force, the way up by that of the rule. */
START_TEST(a_stay_is_breathed_as_it_is)
{
    struct plm_rules rules = plm_rules_default();
    rules.deco_setpoint_bar = 1.4;
    struct slow_diver d = diver(&rules, 0.21, 0.0);
    d.on_loop = true;
    d.setpoint_bar = 0.7;
    slow_go_down(&d, 24.0, 300.0);
    struct plmi_ascent_from from = from_of(&d);
    double no_stop_s = plmi_no_stop_s(&from, d.model, &rules);
    printf("at 0.7 bar, up at 1.4 bar: no stop for %.1f s\n", no_stop_s);
    check_no_stop(&d, no_stop_s, 1.4);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_wait_deepens_the_anchor, a_stay_remembers_the_anchor, a_stay_is_breathed_as_it_is};
    return SUITE_RUN("anchor", tests);
}
