/*
 * Units against NIST Special Publication 811 (2008), appendix B.8, to the digits printed there:
 * foot 3.048 E-01 m (exact), atmosphere (standard) 1.013 25 E+05 Pa, psi 6.894 757 E+03 Pa, degree Fahrenheit
 * t/C = (t/F - 32)/1.8, kelvin t/C = T/K - 273.15, bar 1.0 E+05 Pa, minute 60 s, hour 3600 s.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"

static void check_unit(enum plmi_quantity quantity, const char *name, double value, double want, double tolerance)
{
    const struct plmi_unit *unit = plmi_unit_find(quantity, name, strlen(name));
    ck_assert_msg(unit != NULL, "%s", name);
    double ours = plmi_unit_convert(unit, value);
    ck_assert_msg(fabs(ours - want) <= tolerance, "%g %s: %.17g, not %.17g", value, name, ours, want);
}

START_TEST(factors)
{
    check_unit(PLMI_QUANTITY_DEPTH, "ft", 1, 0.3048, 0);
    check_unit(PLMI_QUANTITY_DEPTH, "FEET", 100, 30.48, 0);
    /* feet and metres of sea water are the depths that they stand for: a foot is 0.3048 m exactly */
    check_unit(PLMI_QUANTITY_DEPTH, "fsw", 1, 0.3048, 0);
    check_unit(PLMI_QUANTITY_DEPTH, "fsw", 190, 57.912, 1e-12);
    check_unit(PLMI_QUANTITY_DEPTH, "msw", 40.5, 40.5, 0);
    check_unit(PLMI_QUANTITY_DEPTH, "m", 40.5, 40.5, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "atm", 1, 1.01325, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "ata", 2, 2.0265, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "psi", 1, 6.894757e-2, 0.5e-8);
    check_unit(PLMI_QUANTITY_PRESSURE, "mbar", 1013.25, 1.01325, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "kPa", 130, 1.3, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "Pa", 130000, 1.3, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "bar", 1.3, 1.3, 0);
    check_unit(PLMI_QUANTITY_TEMPERATURE, "F", 212, 100, 0);
    check_unit(PLMI_QUANTITY_TEMPERATURE,
               "\xc2\xb0"
               "F",
               32, 0, 0);
    check_unit(PLMI_QUANTITY_TEMPERATURE, "F", -40, -40, 0);
    check_unit(PLMI_QUANTITY_TEMPERATURE, "k", 298.15, 25, 1e-12);
    check_unit(PLMI_QUANTITY_TEMPERATURE, "C", 21.5, 21.5, 0);
    check_unit(PLMI_QUANTITY_TIME, "min", 1.5, 90, 0);
    check_unit(PLMI_QUANTITY_TIME, "h", 1, 3600, 0);
    check_unit(PLMI_QUANTITY_TIME, "ms", 1500, 1.5, 0);
}
END_TEST

/* However a unit is spelled, it is that unit. */
START_TEST(spellings)
{
    static const struct {
        enum plmi_quantity quantity;
        const char *names;
    } rows[] = {
        {PLMI_QUANTITY_DEPTH, "m metre metres meter meters msw"},
        {PLMI_QUANTITY_DEPTH, "ft foot feet fsw"},
        {PLMI_QUANTITY_PRESSURE, "bar bars"},
        {PLMI_QUANTITY_PRESSURE, "mbar millibar hPa"},
        {PLMI_QUANTITY_PRESSURE, "Pa pascal"},
        {PLMI_QUANTITY_PRESSURE, "psi psia psig"},
        {PLMI_QUANTITY_PRESSURE, "atm ata"},
        {PLMI_QUANTITY_TEMPERATURE, "C \xc2\xb0"
                                    "C degC celsius"},
        {PLMI_QUANTITY_TEMPERATURE, "F \xc2\xb0"
                                    "F degF fahrenheit"},
        {PLMI_QUANTITY_TEMPERATURE, "K kelvin"},
        {PLMI_QUANTITY_TIME, "s sec secs second seconds"},
        {PLMI_QUANTITY_TIME, "min mins minute minutes"},
        {PLMI_QUANTITY_TIME, "h hr hour hours"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *name = rows[i].names;
        size_t n = strcspn(name, " ");
        const struct plmi_unit *first = plmi_unit_find(rows[i].quantity, name, n);
        ck_assert_ptr_nonnull(first);
        for (name += n; *name != '\0'; name += n) {
            name += strspn(name, " ");
            n = strcspn(name, " ");
            const struct plmi_unit *other = plmi_unit_find(rows[i].quantity, name, n);
            ck_assert_msg(other != NULL, "%s", name);
            ck_assert_double_eq(plmi_unit_convert(other, 77.7), plmi_unit_convert(first, 77.7));
        }
    }
    check_unit(PLMI_QUANTITY_DEPTH, "cm", 150, 1.5, 0);
    check_unit(PLMI_QUANTITY_DEPTH, "mm", 1500, 1.5, 0);
    check_unit(PLMI_QUANTITY_PRESSURE, "MPa", 20, 200, 0);
}
END_TEST

/* What a recorder writes in Pa or mbar is the very double that the same value in bar reads as. */
START_TEST(whole_pascals_lose_nothing)
{
    const struct plmi_unit *pascal = plmi_unit_find(PLMI_QUANTITY_PRESSURE, "Pa", 2);
    const struct plmi_unit *millibar = plmi_unit_find(PLMI_QUANTITY_PRESSURE, "mbar", 4);
    for (int i = 0; i < 300000; i++) {
        double bar = (double)i / 1000;
        if (plmi_unit_convert(pascal, i * 100.0) > bar || plmi_unit_convert(pascal, i * 100.0) < bar ||
            plmi_unit_convert(millibar, i) > bar || plmi_unit_convert(millibar, i) < bar) {
            ck_abort_msg("%d mbar", i);
        }
    }
}
END_TEST

START_TEST(names_that_are_none)
{
    ck_assert_ptr_null(plmi_unit_find(PLMI_QUANTITY_DEPTH, "bar", 3));
    ck_assert_ptr_null(plmi_unit_find(PLMI_QUANTITY_DEPTH, "", 0));
    ck_assert_ptr_null(plmi_unit_find(PLMI_QUANTITY_DEPTH, "fathoms and more letters", 24));
    ck_assert_ptr_null(plmi_unit_find(PLMI_QUANTITY_DEPTH, "m\0", 2));
    ck_assert_ptr_nonnull(plmi_unit_find(PLMI_QUANTITY_DEPTH, "ft/min", 2));
    size_t count = 0;
    ck_assert_ptr_nonnull(plmi_units(&count));
    ck_assert_uint_gt(count, 40);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("units");
    tcase_add_test(tests, factors);
    tcase_add_test(tests, spellings);
    tcase_add_test(tests, whole_pascals_lose_nothing);
    tcase_add_test(tests, names_that_are_none);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
