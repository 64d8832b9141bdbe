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

int main(void)
{
    const TTest *const tests[] = {of_equal_oxygen_the_first_named, a_mix_is_breathed_down_to_its_limit,
                                  a_mix_is_breathed_down_to_its_density,
                                  the_rules_set_point_is_taken_whether_higher_or_lower};
    return SUITE_RUN("breathing", tests);
}
