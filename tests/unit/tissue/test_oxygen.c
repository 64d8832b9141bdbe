/*
 * Conventions of the oxygen clocks, where no publication says anything: below the first row of the table and above its
 * last one. Nothing outside holds them; they are held to what plimsoll-model(7), CNS, says that they are.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>

#include "support/suite.h"
#include "tissue/oxygen.h"

/* From 0.5 to 0.6 bar the line from 900 to 720 min: 810 half-way; below nothing is counted. */
START_TEST(below_the_first_row)
{
    ck_assert_double_eq_tol(plmi_cns_limit_min(0.55), 810, 1e-9);
    ck_assert_double_eq_tol(plmi_cns_day_limit_min(0.55), 810, 1e-9);
    ck_assert_double_eq_tol(plmi_cns_limit_min(0.5), 900, 1e-9);
    ck_assert_double_eq_tol(plmi_cns_pct(0.5, 0.5, 9), 1, 1e-9);
    ck_assert_double_eq(plmi_cns_pct(0.4999999, 0.4999999, 9), 0);
}
END_TEST

/* The last row's limit, 45 min and 150 min of 24 h, holds up to any pressure, on the level and on ramps. */
START_TEST(above_the_last_row)
{
    static const double po2_bar[] = {1.6, 1.6000001, 1.7, 2.5, 11, 200};
    for (size_t i = 0; i < sizeof po2_bar / sizeof po2_bar[0]; i++) {
        ck_assert_double_eq_tol(plmi_cns_limit_min(po2_bar[i]), 45, 1e-9);
        ck_assert_double_eq_tol(plmi_cns_day_limit_min(po2_bar[i]), 150, 1e-9);
        ck_assert_double_eq_tol(plmi_cns_pct(po2_bar[i], po2_bar[i], 45), 100, 1e-9);
        ck_assert_double_eq_tol(plmi_cns_pct(1.6, po2_bar[i], 45), 100, 1e-9);
        ck_assert_double_eq_tol(plmi_cns_day_pct(po2_bar[i], po2_bar[i], 150), 100, 1e-9);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {below_the_first_row, above_the_last_row};
    return SUITE_RUN("oxygen", tests);
}
