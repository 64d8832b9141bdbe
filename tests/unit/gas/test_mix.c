/*
 * Names of mixes and modes in the trade's terms, and the edges of gas functions.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>

#include "gas/mix.h"

static const struct name {
    double o2_frac, he_frac;
    const char *text;
} names[] = {
    {0.21, 0.0, "air"},
    {0.2095, 0.0, "air"},
    {0.209, 0.0, "air"},
    {0.32, 0.0, "nitrox 32"},
    {0.36, 0.0, "nitrox 36"},
    {0.5, 0.0, "nitrox 50"},
    {1.0, 0.0, "oxygen"},
    {0.996, 0.0, "oxygen"},
    {0.18, 0.45, "18/45"},
    {0.10, 0.70, "10/70"},
    {0.08, 0.65, "8/65"},
    {0.21, 0.35, "21/35"},
    {0.21, 0.004, "air"},
    {0.12, 0.0, "nitrox 12"},
    {0.04, 0.96, "4/96"},
    {0.21, 0.01, "21/1"},
    {0.21, 0.006, "21/1"},
    /* air is what rounds to 21 %: half a percent to either side, no more */
    {0.205, 0.0, "air"},
    {0.2049, 0.0, "nitrox 20"},
    {0.215, 0.0, "air"},
    {0.2151, 0.0, "nitrox 22"},
    {0.22, 0.0, "nitrox 22"},
    {0.20, 0.0, "nitrox 20"},
};

START_TEST(mixes_have_the_trade_s_names)
{
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        double n2_frac = 1.0 - names[i].o2_frac - names[i].he_frac;
        struct plm_mix mix = {names[i].o2_frac, names[i].he_frac, n2_frac};
        char buffer[24];
        ck_assert_ptr_eq(plm_mix_name(&mix, buffer, sizeof buffer), buffer);
        ck_assert_str_eq(buffer, names[i].text);
    }
}
END_TEST

START_TEST(names_fit_any_buffer)
{
    struct plm_mix mix = {0.32, 0.0, 0.68}, none = {(double)NAN, -7.0, 1e300}, much = {7.0, 7.0, -13.0},
                   less = {-0.5, 0.0, 1.5};
    char buffer[24] = "unchanged";
    ck_assert_str_eq(plm_mix_name(&mix, buffer, 4), "nit");
    ck_assert_str_eq(plm_mix_name(&mix, buffer, 1), "");
    ck_assert_str_eq(plm_mix_name(&none, buffer, sizeof buffer), "nitrox 0");
    ck_assert_str_eq(plm_mix_name(&much, buffer, sizeof buffer), "nitrox 0");
    ck_assert_str_eq(plm_mix_name(&less, buffer, sizeof buffer), "nitrox 0");
}
END_TEST

START_TEST(modes_have_words)
{
    ck_assert_str_eq(plm_mode_text(PLM_MODE_OPEN), "open");
    ck_assert_str_eq(plm_mode_text(PLM_MODE_CLOSED), "closed");
    ck_assert_str_eq(plm_mode_text(PLM_MODE_SEMICLOSED), "semiclosed");
    ck_assert_str_eq(plm_mode_text((enum plm_mode)17), "unknown");
}
END_TEST

START_TEST(atmosphere_ends_where_it_is_not_tested)
{
    ck_assert(isnan(plm_standard_atmosphere_bar(-501.0)));
    ck_assert(isnan(plm_standard_atmosphere_bar(9001.0)));
    ck_assert(isnan(plm_standard_atmosphere_bar((double)NAN)));
    ck_assert_double_gt(plm_standard_atmosphere_bar(-500.0), 1.01325);
    /* 307.4 hPa at 9000 m; U.S. Standard Atmosphere, 1976, table I, geopotential altitude, from memory */
    ck_assert_double_eq_tol(plm_standard_atmosphere_bar(9000.0), 0.3074, 1e-4);
}
END_TEST

START_TEST(a_loop_of_oxygen_has_no_inert_gas)
{
    const struct plm_mix oxygen = {1.0, 0.0, 0.0};
    for (double ambient_bar = 0.7; ambient_bar < 3.0; ambient_bar += 0.1) {
        struct plmi_inspired inspired = plmi_inspired_loop(&oxygen, ambient_bar, 1.2, 0.0627);
        ck_assert_double_eq(inspired.n2_bar, 0.0);
        ck_assert_double_eq(inspired.he_bar, 0.0);
        /* and so the oxygen is all there is, as its density says */
        ck_assert_double_eq(inspired.o2_bar, ambient_bar);
        ck_assert_double_eq_tol(plmi_density_loop_g_l(&oxygen, ambient_bar, 1.2), 1.428 * ambient_bar / 1.01325, 1e-12);
    }
}
END_TEST

/*
 * A loop cannot hold more oxygen than there is pressure. Oxygen 1.428, nitrogen 1.251, helium 0.178 g/L at 1 atm
 * (handbook values, as in Anthony and Mitchell 2016). Set point 1.3 on 10/60, so nitrogen is a third of what is not
 * oxygen, helium two thirds: at 1.2 bar all is oxygen; at 1.3 bar still; at 1.6 bar 0.3 bar are inert, 0.1 nitrogen and
 * 0.2 helium.
 */
START_TEST(a_loop_holds_no_more_oxygen_than_pressure)
{
    const struct plm_mix diluent = {0.1, 0.6, 0.3};
    ck_assert_double_eq_tol(plmi_density_loop_g_l(&diluent, 1.2, 1.3), 1.2 * 1.428 / 1.01325, 1e-12);
    ck_assert_double_eq_tol(plmi_density_loop_g_l(&diluent, 1.3, 1.3), 1.3 * 1.428 / 1.01325, 1e-12);
    ck_assert_double_eq_tol(plmi_density_loop_g_l(&diluent, 1.6, 1.3),
                            (1.3 * 1.428 + 0.1 * 1.251 + 0.2 * 0.178) / 1.01325, 1e-12);
}
END_TEST

START_TEST(nothing_inspired_is_negative)
{
    const struct plm_mix mix = {0.18, 0.45, 0.37};
    struct plmi_inspired loop = plmi_inspired_loop(&mix, 1.31, 1.3, 0.0627);
    ck_assert_double_eq(loop.n2_bar, 0.0);
    struct plmi_inspired open = plmi_inspired_open(&mix, 0.05, 0.0627);
    ck_assert_double_eq(open.n2_bar, 0.0);
    ck_assert_double_eq(open.he_bar, 0.0);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("mix");
    tcase_add_test(tests, mixes_have_the_trade_s_names);
    tcase_add_test(tests, names_fit_any_buffer);
    tcase_add_test(tests, modes_have_words);
    tcase_add_test(tests, atmosphere_ends_where_it_is_not_tested);
    tcase_add_test(tests, a_loop_of_oxygen_has_no_inert_gas);
    tcase_add_test(tests, a_loop_holds_no_more_oxygen_than_pressure);
    tcase_add_test(tests, nothing_inspired_is_negative);
    Suite *suite = suite_create("gas");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
