/*
 * Dates against the C library's calendar (gmtime_r) and ISO 8601 forms.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/clock.h"

/* Every day from 1900 to 2200, against gmtime_r. */
START_TEST(days_and_dates)
{
    int64_t first = 0;
    int64_t last = 0;
    ck_assert(plmi_clock_days(1900, 1, 1, &first) && plmi_clock_days(2200, 12, 31, &last));
    ck_assert_int_eq(first, -25567);
    for (int64_t days = first; days <= last; days++) {
        time_t seconds = (time_t)(days * 86400);
        struct tm want;
        int year = 0;
        int month = 0;
        int day = 0;
        int64_t back = 0;
        if (gmtime_r(&seconds, &want) == NULL) {
            ck_abort();
        }
        plmi_clock_date(days, &year, &month, &day);
        bool same = year == want.tm_year + 1900 && month == want.tm_mon + 1 && day == want.tm_mday;
        if (!same || !plmi_clock_days(year, month, day, &back) || back != days) {
            ck_abort_msg("day %lld: %d-%d-%d", (long long)days, year, month, day);
        }
    }
}
END_TEST

START_TEST(dates_that_are_none)
{
    static const int dates[][3] = {{1899, 12, 31}, {2201, 1, 1},  {2031, 0, 1},  {2031, 13, 1}, {2031, 1, 0},
                                   {2031, 4, 31},  {2031, 2, 29}, {2100, 2, 29}, {1900, 2, 29}, {2032, 2, 30}};
    for (size_t i = 0; i < sizeof dates / sizeof dates[0]; i++) {
        int64_t days = 7;
        ck_assert(!plmi_clock_days(dates[i][0], dates[i][1], dates[i][2], &days));
        ck_assert_int_eq(days, 7);
    }
    int64_t days = 0;
    ck_assert(plmi_clock_days(2000, 2, 29, &days) && plmi_clock_days(2032, 2, 29, &days));
}
END_TEST

/* What is read, and what is written of it. */
static void check_stamp(const char *text, const char *want)
{
    struct plm_stamp stamp = {0};
    struct plmi_text out;
    plmi_text_init(&out);
    ck_assert_msg(plmi_clock_parse(text, strlen(text), &stamp), "%s", text);
    ck_assert(stamp.known);
    plmi_clock_write(&out, &stamp);
    ck_assert_str_eq(out.bytes, want);
    plmi_text_free(&out);
}

START_TEST(stamps)
{
    check_stamp("2031-05-06T09:30:00+02:00", "2031-05-06T09:30:00+02:00");
    check_stamp("2031-05-06T09:30:00.5+02:00", "2031-05-06T09:30:00.500+02:00");
    check_stamp("2031-05-06T09:30:00,1239Z", "2031-05-06T09:30:00.123+00:00");
    check_stamp("1999-04-06T16:21", "1999-04-06T16:21:00");
    check_stamp("2031-05-06 09:30", "2031-05-06T09:30:00");
    check_stamp("2031-05-06t09:30z", "2031-05-06T09:30:00+00:00");
    check_stamp("2031-05-06T09:30-0330", "2031-05-06T09:30:00-03:30");
    check_stamp("2031-05-06T09:30:15 +14", "2031-05-06T09:30:15+14:00");
    check_stamp(" 2006-06-20\r\n", "2006-06-20");
    check_stamp("1969-12-31T23:59:59.999", "1969-12-31T23:59:59.999");
    struct plm_stamp stamp = {0};
    ck_assert(plmi_clock_parse("1970-01-02T00:00:01", 19, &stamp));
    ck_assert(stamp.local_ms == 86401000 && stamp.has_clock && !stamp.has_zone);
    ck_assert(plmi_clock_parse("1970-01-02", 10, &stamp));
    ck_assert(stamp.local_ms == 86400000 && !stamp.has_clock);
}
END_TEST

START_TEST(stamps_that_are_none)
{
    static const char *const texts[] = {"",
                                        "2031",
                                        "2006-08",
                                        "2031-02-29",
                                        "2031-05-06T",
                                        "2031-05-06T09",
                                        "2031-05-06T24:00",
                                        "2031-05-06T09:60",
                                        "2031-05-06T09:30:60",
                                        "2031-05-06T09:30:00.",
                                        "2031-05-06T9:30",
                                        "2031-05-06T09:30+19:00",
                                        "2031-05-06T09:30+02:60",
                                        "2031-05-06T09:30+2",
                                        "2031-05-06T09:30:00 CET",
                                        "06.05.2031",
                                        "2031-05-06x",
                                        "31-05-06"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct plm_stamp stamp = {.local_ms = 7};
        ck_assert_msg(!plmi_clock_parse(texts[i], strlen(texts[i]), &stamp), "%s", texts[i]);
        ck_assert(stamp.local_ms == 7 && !stamp.known);
    }
}
END_TEST

START_TEST(unknown_writes_nothing)
{
    struct plm_stamp stamp = {0};
    struct plmi_text out;
    plmi_text_init(&out);
    plmi_clock_write(&out, &stamp);
    ck_assert_uint_eq(out.count, 0);
    plmi_text_free(&out);
}
END_TEST

/* RFC 3339, 5.8: 1996-12-19T16:39:57-08:00 is 1996-12-20T00:39:57Z. */
START_TEST(moments)
{
    struct plm_stamp west, utc;
    ck_assert(plm_stamp_parse("1996-12-19T16:39:57-08:00", &west) && plm_stamp_parse("1996-12-20T00:39:57Z", &utc));
    ck_assert_int_eq(plm_stamp_utc_ms(&west), plm_stamp_utc_ms(&utc));
    ck_assert_int_eq(plm_stamp_utc_ms(&utc), utc.local_ms);
    ck_assert_int_eq(plm_stamp_of(plm_stamp_utc_ms(&west), -480).local_ms, west.local_ms);
}
END_TEST

START_TEST(zones)
{
    static const struct {
        const char *text;
        bool ok;
        int minutes;
    } rows[] = {
        {"+02:00", true, 120}, {"Z", true, 0},       {"-0330", true, -210}, {"+18:00", true, 1080},
        {"-18", true, -1080},  {"+18:01", false, 0}, {"02:00", false, 0},   {"", false, 0},
        {"+", false, 0},       {"+02:0", false, 0},  {"+02:00 ", false, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int minutes = 0;
        ck_assert_msg(plmi_clock_zone_parse(rows[i].text, &minutes) == rows[i].ok, "%s", rows[i].text);
        ck_assert_int_eq(minutes, rows[i].minutes);
    }
}
END_TEST

START_TEST(durations)
{
    static const struct {
        double seconds;
        const char *want;
    } rows[] = {
        {0, "0:00:00"},    {59.4, "0:00:59"}, {59.5, "0:01:00"}, {3930, "1:05:30"}, {360000, "100:00:00"},
        {-61, "-0:01:01"}, {-0.2, "0:00:00"}, {NAN, ""},         {INFINITY, ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_text out;
        plmi_text_init(&out);
        plmi_clock_duration(&out, rows[i].seconds);
        ck_assert_str_eq(out.bytes == NULL ? "" : out.bytes, rows[i].want);
        plmi_text_free(&out);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("clock");
    tcase_add_test(tests, days_and_dates);
    tcase_add_test(tests, dates_that_are_none);
    tcase_add_test(tests, stamps);
    tcase_add_test(tests, stamps_that_are_none);
    tcase_add_test(tests, unknown_writes_nothing);
    tcase_add_test(tests, moments);
    tcase_add_test(tests, zones);
    tcase_add_test(tests, durations);
    Suite *suite = suite_create("base");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
