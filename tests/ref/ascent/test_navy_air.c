/*
 * No-stop limits on air at gradient factors of 100/100 beside those of the US Navy. Another model,
 * so no equality is claimed: the Navy's limits come from an algorithm fitted to its own trials (rev
 * 7; rev 6 from memory), with divers working in cold water. What the test holds is that variant C,
 * that of recorders, is within a factor of 1.4 from 35 fsw down, and within 2 at 25 and 30 fsw,
 * where the limit is a matter of the slowest compartments and small differences in what they allow
 * are hours. Variant B, printed beside it, allows more in the shallows. Source: US Navy Diving
 * Manual rev 7 table 9-7; rev 6 from memory.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "ascent/schedule.h"
#include "support/lung.h"

static const struct limit {
    double depth_fsw, rev7_min, rev6_min;
} navy[] = {
    {25, 1102, 595}, {30, 371, 371}, {35, 232, 232}, {40, 163, 163}, {45, 125, 125}, {50, 92, 92},  {55, 74, 74},
    {60, 63, 60},    {70, 48, 48},   {80, 39, 39},   {90, 33, 30},   {100, 25, 25},  {110, 20, 20}, {120, 15, 15},
    {130, 12, 10},   {140, 10, 10},  {150, 8, 5},    {160, 7, 5},    {170, 6, 5},    {180, 6, 5},   {190, 5, 5},
};
enum { LIMITS = sizeof navy / sizeof navy[0] };

static const double m_per_fsw = 0.30643;  /* 3.0643 kPa, at 10 m to the bar */
static const double descent_m_min = 20.0; /* bottom time starts at the surface, as the Navy counts */

/* [min] bottom time on air without a stop. */
static double no_stop_min(double depth_fsw, int model)
{
    struct plm_rules rules = plm_rules_default();
    rules.model = model;
    rules.gf_low_pct = rules.gf_high_pct = 100.0;
    rules.no_stop_max_min = 3000.0;
    struct lung lung = {.mix = lung_mix(0.2098, 0.0), .surface_bar = 1.01325, .vapour_bar = 0.0627};
    lung.bar_per_m = plm_bar_per_m(rules.water_kg_m3);
    plmi_decay_init(&lung.decay, plm_zhl16_get(model));
    struct plmi_ascent_from from = {
        .tissue = plm_tissue_saturated(1.01325, 0.0627, 0.7902),
        .depth_m = depth_fsw * m_per_fsw,
        .surface_bar = 1.01325,
        .water_kg_m3 = rules.water_kg_m3,
        .anchor_bar = (double)NAN,
        .gas = {.mode = PLM_MODE_OPEN, .mix = lung.mix},
    };
    double descent_s = from.depth_m / descent_m_min * 60.0;
    lung_breathe(&lung, &from.tissue, 0.0, from.depth_m, 0.0, 0.0, descent_s);
    return (descent_s + plmi_no_stop_s(&from, plm_zhl16_get(model), &rules)) / 60.0;
}

START_TEST(limits_tell_the_navy_s_story)
{
    double last_min = 1e9;
    printf("fsw    Navy rev 7  rev 6   model B  ratio   model C  ratio (min; ratio to rev 7)\n");
    for (int i = 0; i < LIMITS; i++) {
        double b_min = no_stop_min(navy[i].depth_fsw, 1);
        double c_min = no_stop_min(navy[i].depth_fsw, 2);
        double ratio = c_min / navy[i].rev7_min;
        printf("%3.0f    %9.0f  %5.0f  %8.1f  %5.2f  %8.1f  %5.2f\n", navy[i].depth_fsw, navy[i].rev7_min,
               navy[i].rev6_min, b_min, b_min / navy[i].rev7_min, c_min, ratio);
        double factor = navy[i].depth_fsw >= 35 ? 1.4 : 2.0;
        ck_assert_msg(ratio < factor && ratio > 1.0 / factor, "%g fsw: %g min", navy[i].depth_fsw, c_min);
        ck_assert_double_lt(c_min, last_min);
        ck_assert_double_le(c_min, b_min);
        last_min = c_min;
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("navy_air");
    tcase_add_test(tests, limits_tell_the_navy_s_story);
    Suite *suite = suite_create("ascent");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
