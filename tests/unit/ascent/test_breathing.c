/*
 * Which mix and which set point the way up is breathed on, at the bounds of the rules. Bounds are set by the tests to
 * numbers that a double holds exactly.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "ascent/breathing.h"
#include "support/suite.h"

static struct plmi_breathing find(const struct plmi_ascent_gas *gas, const struct plm_rules *rules)
{
    struct plmi_breathing breathing;
    plmi_breathing_find(&breathing, gas, rules);
    return breathing;
}

static double o2_at(const struct plmi_breathing *breathing, double ambient_bar)
{
    return plmi_breathing_mix(breathing, ambient_bar)->o2_frac;
}

static struct plmi_ascent_gas two_mixes(struct plm_mix a, struct plm_mix b)
{
    return (struct plmi_ascent_gas){.mode = PLM_MODE_OPEN,
                                    .mix = a,
                                    .carried_count = 2,
                                    .carried = {a, b},
                                    .carried_po2_max_bar = {(double)NAN, (double)NAN}};
}

/* Of equal oxygen the mix that the log names first: helium 20 or none, in either order. */
START_TEST(of_equal_oxygen_the_first_named)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix plain = {0.5, 0.0, 0.5}, helium = {0.5, 0.2, 0.3}, lean = {0.2, 0.4, 0.4};
    struct plmi_ascent_gas gas = two_mixes(plain, helium);
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert_double_eq(plmi_breathing_mix(&breathing, 2.0)->he_frac, 0.0);
    gas = two_mixes(helium, plain);
    breathing = find(&gas, &rules);
    ck_assert_double_eq(plmi_breathing_mix(&breathing, 2.0)->he_frac, 0.2);
    /* more oxygen goes first whatever the order */
    gas = two_mixes(lean, plain);
    breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 2.0), 0.5);
    gas = two_mixes(plain, lean);
    breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 2.0), 0.5);
}
END_TEST

/* 50 % within 1.5 bar of oxygen: down to 3.0 bar and no deeper. With a slack of 0.25 bar: (1.5 + 0.25) / 0.5 = 3.5 bar.
 */
START_TEST(a_mix_is_breathed_down_to_its_limit)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_gas gas = two_mixes((struct plm_mix){0.5, 0.0, 0.5}, (struct plm_mix){0.125, 0.5, 0.375});
    rules.deco_po2_max_bar = 1.5;
    rules.deco_po2_slack_bar = 0.0;
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, nextafter(3.0, 0.0)), 0.5);
    ck_assert_double_eq(o2_at(&breathing, 3.0), 0.5);
    ck_assert_double_eq(o2_at(&breathing, nextafter(3.0, 4.0)), 0.125);
    rules.deco_po2_slack_bar = 0.25;
    breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 3.5), 0.5);
    ck_assert_double_eq(o2_at(&breathing, nextafter(3.5, 4.0)), 0.125);
    /* a limit of the mix's own comes before the rule's: (1.25 + 0.25) / 0.5 = 3 bar */
    gas.carried_po2_max_bar[0] = 1.25;
    breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 3.0), 0.5);
    ck_assert_double_eq(o2_at(&breathing, nextafter(3.0, 4.0)), 0.125);
}
END_TEST

/* A mix denser than the rule gives way to the next one: its density at 1 bar times 4 is the rule here, so at 4 bar it
 * still holds. */
START_TEST(a_mix_is_breathed_down_to_its_density)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix plain = {0.25, 0.0, 0.75};
    struct plmi_ascent_gas gas = two_mixes(plain, (struct plm_mix){0.125, 0.75, 0.125});
    double limit_bar = 4.0;
    rules.deco_po2_max_bar = 8.0;
    rules.deco_density_max_g_l = limit_bar * plmi_density_open_g_l(&plain, 1.0);
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 4.0), 0.25);
    ck_assert_double_eq(o2_at(&breathing, nextafter(4.0, 5.0)), 0.125);
}
END_TEST

/* plimsoll-rules(5): the rule's set point is that of schedules where it is above 0, be it higher or lower than the one
 * in force. */
START_TEST(the_rules_set_point_is_taken_whether_higher_or_lower)
{
    struct plm_rules rules = plm_rules_default();
    struct plmi_ascent_gas gas = {.mode = PLM_MODE_CLOSED, .mix = {0.1, 0.6, 0.3}, .setpoint_bar = 1.25};
    static const double told_bar[][2] = {{0.0, 1.25}, {1.0, 1.0}, {1.25, 1.25}, {1.5, 1.5}};
    for (int i = 0; i < 4; i++) {
        rules.deco_setpoint_bar = told_bar[i][0];
        ck_assert_double_eq(find(&gas, &rules).setpoint_bar, told_bar[i][1]);
    }
}
END_TEST

/* Air is 21 % here and its PO2 1.75 bar at most: 8.33 bar. Beyond it the diver who breathes it breathes it still,
 * though oxygen is carried as well, which has less nitrogen: none. */
START_TEST(what_was_breathed_stands_in_where_no_mix_keeps_its_oxygen)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix air = {0.21, 0.0, 0.79}, oxygen = {1.0, 0.0, 0.0}, lean = {0.18, 0.45, 0.37};
    struct plmi_ascent_gas gas = two_mixes(oxygen, (struct plm_mix){0.5, 0.0, 0.5});
    gas.mix = air; /* breathed and not among those carried */
    rules.deco_po2_max_bar = 1.75;
    rules.deco_po2_slack_bar = 0.0;
    rules.deco_density_max_g_l = 20.0;
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 9.0), 0.21);
    ck_assert_double_eq(o2_at(&breathing, 8.0), 0.21);
    ck_assert_double_eq(o2_at(&breathing, 3.5), 0.5);
    ck_assert_double_eq(o2_at(&breathing, 1.75), 1.0);
    /* of those carried the leanest is not taken where it is too rich, too, but the one breathed */
    gas = two_mixes(lean, (struct plm_mix){0.5, 0.0, 0.5});
    gas.mix = (struct plm_mix){0.5, 0.0, 0.5};
    breathing = find(&gas, &rules);
    ck_assert_double_eq(o2_at(&breathing, 10.0), 0.5);
    ck_assert_double_eq(o2_at(&breathing, 9.0), 0.18);
    /* all that can be carried, and the one breathed beside them */
    gas.carried_count = PLMI_CARRIED_MAX;
    for (int i = 0; i < PLMI_CARRIED_MAX; i++) {
        gas.carried[i] = oxygen;
        gas.carried_po2_max_bar[i] = (double)NAN;
    }
    breathing = find(&gas, &rules);
    ck_assert_int_eq(breathing.count, PLMI_CARRIED_MAX + 1);
    ck_assert_double_eq(o2_at(&breathing, 3.5), 0.5);
}
END_TEST

/* A mix with less oxygen than air is too lean where its PO2 is below the rule: 12.5 % within 0.25 and 1.5 bar from 12
 * bar up to 2 bar; 50 % down to 3 bar. */
START_TEST(a_gap_is_where_no_mix_keeps_its_oxygen)
{
    struct plm_rules rules = plm_rules_default();
    const struct plm_mix lean = {0.125, 0.5, 0.375}, half = {0.5, 0.0, 0.5}, oxygen = {1.0, 0.0, 0.0};
    double from_bar = 0, to_bar = 0;
    rules.deco_po2_max_bar = 1.5;
    rules.deco_po2_slack_bar = 0.0;
    rules.po2_min_bar = 0.25;
    struct plmi_ascent_gas gas = two_mixes(lean, half);
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert(!plmi_breathing_gap(&breathing, 12.0, 1.0, &from_bar, &to_bar));
    ck_assert(plmi_breathing_gap(&breathing, 13.0, 1.0, &from_bar, &to_bar));
    ck_assert_double_eq(from_bar, 13.0);
    ck_assert_double_eq(to_bar, 12.0);
    /* 12.5 % and oxygen leave 2 bar to 1.5 bar, whichever is named first; from below both gaps are found in turn */
    for (int i = 0; i < 2; i++) {
        gas = i == 0 ? two_mixes(lean, oxygen) : two_mixes(oxygen, lean);
        breathing = find(&gas, &rules);
        ck_assert(plmi_breathing_gap(&breathing, 13.0, 1.0, &from_bar, &to_bar));
        ck_assert_double_eq(to_bar, 12.0);
        ck_assert(plmi_breathing_gap(&breathing, to_bar, 1.0, &from_bar, &to_bar));
        ck_assert_double_eq(from_bar, 2.0);
        ck_assert_double_eq(to_bar, 1.5);
        ck_assert(!plmi_breathing_gap(&breathing, to_bar, 1.0, &from_bar, &to_bar));
    }
    /* oxygen alone: from anywhere up to 1.5 bar; nothing at all above the end asked for */
    gas.mix = oxygen;
    gas.carried_count = 0;
    breathing = find(&gas, &rules);
    ck_assert(plmi_breathing_gap(&breathing, 13.0, 1.0, &from_bar, &to_bar));
    ck_assert_double_eq(to_bar, 1.5);
    ck_assert(plmi_breathing_gap(&breathing, 13.0, 2.0, &from_bar, &to_bar));
    ck_assert_double_eq(to_bar, 2.0);
    /* a mix that is too lean wherever it is not too rich bounds nothing */
    rules.deco_po2_max_bar = 0.125;
    gas = two_mixes(lean, lean);
    breathing = find(&gas, &rules);
    ck_assert(plmi_breathing_gap(&breathing, 13.0, 0.25, &from_bar, &to_bar));
    ck_assert_double_eq(to_bar, 0.25);
    /* the loop covers all of it */
    gas.mode = PLM_MODE_CLOSED;
    gas.setpoint_bar = 1.25;
    breathing = find(&gas, &rules);
    ck_assert(!plmi_breathing_gap(&breathing, 13.0, 1.0, &from_bar, &to_bar));
}
END_TEST

/* Air is breathed at the surface of a mountain lake, where it has 0.15 bar. */
START_TEST(air_is_never_too_lean)
{
    struct plm_rules rules = plm_rules_default();
    double from_bar, to_bar;
    struct plmi_ascent_gas gas = {.mode = PLM_MODE_OPEN, .mix = {0.209, 0.0, 0.791}};
    struct plmi_breathing breathing = find(&gas, &rules);
    ck_assert(!plmi_breathing_gap(&breathing, 3.0, 0.7, &from_bar, &to_bar));
    gas.mix = (struct plm_mix){0.18, 0.0, 0.82};
    breathing = find(&gas, &rules);
    ck_assert(plmi_breathing_gap(&breathing, 3.0, 0.7, &from_bar, &to_bar));
    ck_assert_double_eq_tol(from_bar, 1.0, 1e-12);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {of_equal_oxygen_the_first_named,
                                  a_mix_is_breathed_down_to_its_limit,
                                  a_mix_is_breathed_down_to_its_density,
                                  the_rules_set_point_is_taken_whether_higher_or_lower,
                                  what_was_breathed_stands_in_where_no_mix_keeps_its_oxygen,
                                  a_gap_is_where_no_mix_keeps_its_oxygen,
                                  air_is_never_too_lean};
    return SUITE_RUN("breathing", tests);
}
