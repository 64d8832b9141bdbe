/*
 * Mixes and the loop: what raises each finding, and what just does not.
 * Expected: air reaches 5.2 g/L at 30.8 m and 6.2 g/L at 38.6 m (Anthony and Mitchell 2016, from memory, by densities
 * at 0 C); other bounds are common practice or conventions of this program, as rules.def says.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish plain = {.plan = NULL};

static void open_at(struct reviewed *reviewed, double o2_frac, double he_frac, double depth_m)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, at_m = 0;
    made_open(&made, o2_frac, he_frac);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &at_m, depth_m, depth_m * 3, 5);
    leg(&made, &time_s, &at_m, depth_m, 120, 5);
    leg(&made, &time_s, &at_m, 0, depth_m * 11, 5);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(raises_gas_density)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.21, 0, 31);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_GAS_DENSITY)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.21, 0, 38.8);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_GAS_DENSITY)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_gas_density)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.21, 0, 30.5);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_GAS_DENSITY), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_narcotic_depth)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.21, 0, 40.5);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_NARCOTIC_DEPTH)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.21, 0, 51);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_NARCOTIC_DEPTH)->severity, PLM_SEVERITY_CAUTION);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_narcotic_depth)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.21, 0, 39.5);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_NARCOTIC_DEPTH), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* From 18/45 to another mix at 20 m. */
static void switch_to(struct reviewed *reviewed, double o2_frac, double he_frac)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.18, 0.45);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 40, 120, 5);
    leg(&made, &time_s, &depth_m, 20, 140, 5);
    made_open(&made, o2_frac, he_frac);
    leg(&made, &time_s, &depth_m, 20, 60, 5);
    leg(&made, &time_s, &depth_m, 0, 240, 5);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(raises_counterdiffusion)
{
    struct reviewed reviewed;
    switch_to(&reviewed, 0.50, 0); /* N2 37 to 50, He 45 to 0: 0.29 */
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_COUNTERDIFFUSION);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq_tol(finding->value, 13.0 / 45, 1e-6);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_counterdiffusion)
{
    struct reviewed reviewed;
    switch_to(&reviewed, 0.55, 0); /* N2 37 to 45: 0.18 */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_COUNTERDIFFUSION), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_mix_too_deep)
{
    static const struct {
        double depth_m;
        enum plm_severity severity;
    } rows[] = {
        {17.6, PLM_SEVERITY_NOTE},    /* 1.38 bar */
        {20, PLM_SEVERITY_CAUTION},   /* 1.5 bar */
        {23.2, PLM_SEVERITY_SERIOUS}, /* 1.66 bar */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct reviewed reviewed;
        struct made_dive made = made_start(1.0);
        double time_s = 0, depth_m = 0;
        made_loop(&made, 0.50, 0, 1.3);
        made_sample(&made, 0, 0);
        leg(&made, &time_s, &depth_m, rows[i].depth_m, 120, 5);
        leg(&made, &time_s, &depth_m, rows[i].depth_m, 120, 5);
        leg(&made, &time_s, &depth_m, 0, 300, 5);
        reviewed_make(&reviewed, &made, &plain);
        const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_MIX_TOO_DEEP);
        ck_assert_int_eq(finding->severity, rows[i].severity);
        ck_assert_double_eq_tol(finding->limit, 16, 1e-3);
        reviewed_free(&reviewed);
    }
}
END_TEST

/* The oxygen is too high because the mix is too deep: one event. 0.5 (1 + 2.32) = 1.66 bar, 1.6 bar are met at 22 m. */
START_TEST(a_mix_too_deep_is_the_oxygen_too_high_by_it)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.50, 0, 23.2);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_HIGH), 1);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq_tol(finding->value, 1.66, 1e-6);
    ck_assert_ptr_nonnull(strstr(finding->text, "up to 1.66 bar"));
    ck_assert_ptr_nonnull(strstr(finding->text, "nitrox 50, whose limit is met at 22.0 m"));
    reviewed_free(&reviewed);
    open_at(&reviewed, 0.50, 0, 27); /* 1.85 bar */
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH)->severity, PLM_SEVERITY_SERIOUS);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_mix_too_deep)
{
    struct reviewed reviewed;
    open_at(&reviewed, 0.50, 0, 22.8); /* 1.64 bar, within half a metre's allowance */
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* A loop on oxygen alone is held against the limit of oxygen, not against a set point that nothing could hold. */
START_TEST(oxygen_alone_has_no_set_point_to_exceed)
{
    for (int i = 0; i < 2; i++) {
        struct reviewed reviewed;
        struct made_dive made = made_start(1.0);
        double time_s = 0, depth_m = 0;
        made_loop(&made, 1.0, 0, 1.3);
        made_sample(&made, 0, 0);
        leg(&made, &time_s, &depth_m, i == 0 ? 6 : 8, 60, 5);
        leg(&made, &time_s, &depth_m, i == 0 ? 6 : 8, 120, 5);
        leg(&made, &time_s, &depth_m, 0, 120, 5);
        reviewed_make(&reviewed, &made, &plain);
        ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), (size_t)i);
        reviewed_free(&reviewed);
    }
}
END_TEST

/* On the loop at 30 m and 1.3 bar; for off_s the cells read a, b, c. */
static void cells(struct reviewed *reviewed, double off_s, double a_bar, double b_bar, double c_bar)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_loop(&made, 0.21, 0.35, 1.3);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 10);
    for (int i = 0; i < 60; i++) {
        bool off = i * 10 < off_s;
        time_s += 10;
        made_sample_cells(&made, time_s, 30, off ? a_bar : 1.3, off ? b_bar : 1.3, off ? c_bar : 1.3);
    }
    leg(&made, &time_s, &depth_m, 0, 300, 10);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(raises_setpoint_not_held)
{
    struct reviewed reviewed;
    cells(&reviewed, 130, 1.09, 1.09, 1.09);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_SETPOINT_NOT_HELD);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq_tol(finding->value, 1.09, 1e-9);
    ck_assert_double_eq(finding->limit, 1.3);
    reviewed_free(&reviewed);
    cells(&reviewed, 130, 1.51, 1.51, 1.51);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_SETPOINT_NOT_HELD)->severity, PLM_SEVERITY_NOTE);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_setpoint_not_held)
{
    struct reviewed reviewed;
    cells(&reviewed, 120, 1.09, 1.09, 1.09);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_SETPOINT_NOT_HELD), 0);
    reviewed_free(&reviewed);
    cells(&reviewed, 600, 1.11, 1.11, 1.11);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_SETPOINT_NOT_HELD), 0);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(raises_cells_disagree)
{
    struct reviewed reviewed;
    cells(&reviewed, 70, 1.3, 1.32, 1.09);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CELLS_DISAGREE);
    ck_assert_double_eq_tol(finding->value, 0.23, 1e-9);
    ck_assert_ptr_nonnull(strstr(finding->text, "Cell 3"));
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(spares_cells_disagree)
{
    struct reviewed reviewed;
    cells(&reviewed, 60, 1.3, 1.32, 1.09);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CELLS_DISAGREE), 0);
    reviewed_free(&reviewed);
    cells(&reviewed, 600, 1.3, 1.3, 1.11);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CELLS_DISAGREE), 0);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {raises_gas_density,       spares_gas_density,
                                  raises_narcotic_depth,    spares_narcotic_depth,
                                  raises_counterdiffusion,  spares_counterdiffusion,
                                  raises_mix_too_deep,      a_mix_too_deep_is_the_oxygen_too_high_by_it,
                                  spares_mix_too_deep,      oxygen_alone_has_no_set_point_to_exceed,
                                  raises_setpoint_not_held, spares_setpoint_not_held,
                                  raises_cells_disagree,    spares_cells_disagree};
    return SUITE_RUN("gas kinds", tests);
}
