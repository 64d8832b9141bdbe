/*
 * Units, clocks and zones at values where a neighbour reads otherwise: on the bound, and on both sides of it.
 * Source: arithmetic beside each check; where a bound lies is a convention of ours, and what lies beyond it is told.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "unit/reading.h"

static struct reading got;

static void begin(void)
{
    reading_init(&got);
}

static void end(void)
{
    reading_free(&got);
}

static void read_text(const char *text, int dives)
{
    reading_free(&got);
    reading_text(&got, text);
    ck_assert_msg(got.count == dives, "%d dives, %s: %s", got.count, plm_status_text(got.status), got.told.lines[0]);
}

static const struct plm_dive_info *info(int dive)
{
    return plm_dive_info_get(got.dives[dive]);
}

static const struct plm_sample *sample(int dive, size_t at)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(got.dives[dive], &count);
    ck_assert_msg(at < count, "%zu samples", count);
    return &all[at];
}

static double setpoint(size_t at)
{
    size_t count;
    return plm_dive_settings(got.dives[0], &count)[sample(0, at)->setting].setpoint_bar;
}

#define TOLD(text)            ck_assert_msg(diag_list_has(&got.told, text), "not told: %s; but %s", text, got.told.lines[0])
#define NEAR(got_value, want) ck_assert_double_eq_tol(got_value, want, 1e-9)

/* Tables. */

START_TEST(a_clock_that_steps_back_a_second_adds_no_day)
{
    read_text("time,depth_m\n09:00:00,0\n09:01:00,9\n09:00:59,9\n09:02:00,9\n09:03:00,0\n", 1);
    size_t count;
    (void)plm_dive_samples(got.dives[0], &count);
    ck_assert_uint_eq(count, 4);
    ck_assert_int_eq(sample(0, 3)->time_ms, 180000);
    TOLD("time goes back by 1 s");
}
END_TEST

START_TEST(midnight_is_a_fall_of_more_than_half_a_day)
{
    static const char PAST[] =
        "time,depth_m\n22:50:00,0\n22:55:00,10\n23:00:00,0\n10:59:59,0\n11:04:59,10\n11:09:59,0\n";
    static const char AT[] = "time,depth_m\n22:50:00,0\n22:55:00,10\n23:00:00,0\n11:00:00,0\n11:05:00,10\n11:10:00,0\n";
    /* 23:00:00 to 10:59:59 is 43,201 s back, or 11 h 59 min 59 s on. */
    read_text(PAST, 2);
    NEAR(info(1)->surface_interval_s, 43199);
    read_text(AT, 1);
    TOLD("time goes back by 43200 s");
}
END_TEST

#define NIGHT "23:50:00,0\n23:55:00,10\n00:05:00,10\n00:10:00,0\n"

START_TEST(a_record_passes_midnight_after_midnight)
{
    read_text("time,depth_m\n" NIGHT NIGHT NIGHT, 3);
    for (int i = 0; i < 3; i++) {
        /* 23:50 to 00:10; 00:10 to 23:50. */
        ck_assert_int_eq(sample(i, 3)->time_ms, 1200000);
        ck_assert(i == 0 || info(i)->surface_interval_s == 23 * 3600 + 40 * 60);
    }
}
END_TEST

START_TEST(a_change_of_zone_is_no_jump)
{
    /* 22:01 Z is 09:01 of the next day at +11:00. */
    read_text("stamp,depth_m\n2031-05-06T09:00:00+11:00,0\n2031-05-05T22:01:00Z,9\n2031-05-06T02:02:00+04:00,0\n", 1);
    ck_assert_int_eq(sample(0, 1)->time_ms, 60000);
    ck_assert_int_eq(sample(0, 2)->time_ms, 120000);
    ck_assert_int_eq(info(0)->start.offset_min, 660);
}
END_TEST

static double preamble_surface_bar(const char *value)
{
    char text[256];
    (void)snprintf(text, sizeof text, "Surface pressure: %s\ntime_s,depth_m\n0,0\n60,9\n120,0\n", value);
    read_text(text, 1);
    return info(0)->surface_bar;
}

START_TEST(a_bare_surface_pressure_before_the_header)
{
    NEAR(preamble_surface_bar("1013"), 1.013);
    NEAR(preamble_surface_bar("1013.25 hPa"), 1.01325);
    NEAR(preamble_surface_bar("400"), 0.4);
    NEAR(preamble_surface_bar("1.013"), 1.013);
    ck_assert(isnan(preamble_surface_bar("399")));
    ck_assert(isnan(preamble_surface_bar("9999")));
}
END_TEST

START_TEST(water_before_the_header)
{
    /* Salt water by convention 1025 kg/m3, fresh water 1000: common practice, no source. EN 13319: 1.0197 kg/l. */
    read_text("Water: salt\ntime_s,depth_m\n0,0\n60,9\n120,0\n", 1);
    NEAR(info(0)->water_kg_m3, 1025);
    read_text("Water: fresh\ntime_s,depth_m\n0,0\n60,9\n120,0\n", 1);
    NEAR(info(0)->water_kg_m3, 1000);
    read_text("Water: EN13319\ntime_s,depth_m\n0,0\n60,9\n120,0\n", 1);
    ck_assert_double_eq_tol(info(0)->water_kg_m3, 1019.7, 0.05);
}
END_TEST

START_TEST(depth_from_pressure_by_the_density_that_the_table_names)
{
    /* 1000 kg/m3 * 9.80665 m/s2 = 0.0980665 bar a metre: 2.941995 bar over the surface are 30 m. */
    read_text("Water: fresh\nSurface pressure: 1 bar\ntime_s,absolute pressure (bar)\n0,1.0\n60,3.941995\n120,1.0\n",
              1);
    ck_assert_double_eq_tol(sample(0, 1)->depth_m, 30, 1e-6);
}
END_TEST

static double bare_po2_bar(const char *most)
{
    char text[256];
    (void)snprintf(text, sizeof text, "time_s,depth_m,mode,po2\n0,0,closed,0.7\n60,9,,%s\n120,0,,0.7\n", most);
    read_text(text, 1);
    return sample(0, 1)->po2_bar;
}

START_TEST(a_bare_oxygen_pressure_is_bar_up_to_five)
{
    NEAR(bare_po2_bar("1.6"), 1.6);
    NEAR(bare_po2_bar("5"), 5);
    /* 1 kPa is 0.01 bar. */
    NEAR(bare_po2_bar("5.1"), 0.051);
}
END_TEST

/* UDDF. */

#define MIXES                 "<gasdefinitions><mix id='tx'><o2>0.18</o2><he>0.45</he></mix></gasdefinitions>"
#define WP(time, depth, more) "<waypoint><depth>" depth "</depth><divetime>" time "</divetime>" more "</waypoint>"
#define POINTS(first, second) WP("0", "0", first) WP("60", "9", second) WP("600", "0", "")
#define DIVE(before, points) \
    "<dive><informationbeforedive>" before "</informationbeforedive><samples>" points "</samples></dive>"
#define FILE_OF(dives)                                                                         \
    "<?xml version='1.0'?><uddf version='3.2.0'>" MIXES "<profiledata><repetitiongroup>" dives \
    "</repetitiongroup></profiledata></uddf>"
#define LOOP  "<divemode type='closedcircuit'/><switchmix ref='tx'/>"
#define OPEN  "<divemode type='opencircuit'/><switchmix ref='tx'/>"
#define FIRST "<surfaceintervalbeforedive><infinity/></surfaceintervalbeforedive>"

static double uddf_surface_bar(const char *value)
{
    char text[1200];
    (void)snprintf(text, sizeof text, FILE_OF(DIVE(FIRST "<surfacepressure>%s</surfacepressure>", POINTS(OPEN, ""))),
                   value);
    read_text(text, 1);
    return info(0)->surface_bar;
}

START_TEST(a_surface_pressure_in_pascal_bar_or_millibar)
{
    NEAR(uddf_surface_bar("101300"), 1.013);
    ck_assert(!diag_list_has(&got.told, "is read as"));
    NEAR(uddf_surface_bar("1.013"), 1.013);
    TOLD("a surface pressure of 1.013 is read as bar");
    NEAR(uddf_surface_bar("1013"), 1.013);
    TOLD("a surface pressure of 1013 is read as mbar");
    NEAR(uddf_surface_bar("400"), 0.4);
    /* 399 mbar and 1300 Pa are no surface: 0.4 to 1.2 bar by plimsoll-log(5). */
    ck_assert(isnan(uddf_surface_bar("399")));
    TOLD("a surface pressure of 399 cannot be; value dropped");
    ck_assert(isnan(uddf_surface_bar("1300")));
}
END_TEST

START_TEST(surface_intervals_across_zones)
{
    /* 10:00:00+11:00 and 10 min end at 23:10 Z of the day before; 00:40 Z is 90 min after. */
    read_text(FILE_OF(DIVE(FIRST "<datetime>2031-05-06T10:00:00+11:00</datetime>", POINTS(OPEN, ""))
                          DIVE("<datetime>2031-05-06T00:40:00Z</datetime>", POINTS(OPEN, ""))),
              2);
    NEAR(info(1)->surface_interval_s, 5400);
}
END_TEST

START_TEST(the_last_set_point_told_is_in_force)
{
    read_text(FILE_OF(DIVE(FIRST, POINTS(LOOP "<setpo2>130000</setpo2>", "<setpo2 setby='user'>100000</setpo2>"))), 1);
    NEAR(setpoint(0), 1.3);
    NEAR(setpoint(1), 1.0);
    read_text(FILE_OF(DIVE(FIRST, POINTS(LOOP "<setpo2 setby='user'>130000</setpo2>", "<setpo2>100000</setpo2>"))), 1);
    NEAR(setpoint(0), 1.3);
    NEAR(setpoint(1), 1.0);
    read_text(FILE_OF(DIVE(FIRST, POINTS(LOOP "<setpo2>130000</setpo2>", "<setpo2 setby='user'>high</setpo2>"))), 1);
    NEAR(setpoint(1), 1.3);
}
END_TEST

START_TEST(on_the_loop_again_by_the_computers_set_point)
{
    /* Two series, as setpoint_in_force has it: the computer's on a closed loop, else the user's. */
    read_text(
        FILE_OF(DIVE(FIRST, POINTS(OPEN "<setpo2 setby='user'>130000</setpo2><setpo2 setby='computer'>70000</setpo2>",
                                   "<divemode type='closedcircuit'/>"))),
        1);
    NEAR(setpoint(1), 0.7);
}
END_TEST

static double uddf_cell_bar(const char *value)
{
    char text[1200];
    (void)snprintf(text, sizeof text, FILE_OF(DIVE(FIRST, POINTS(LOOP "<measuredpo2 ref='a'>%s</measuredpo2>", ""))),
                   value);
    read_text(text, 1);
    return sample(0, 0)->cell_bar[0];
}

START_TEST(oxygen_pressures_in_pascal_or_bar)
{
    NEAR(uddf_cell_bar("2.4"), 2.4);
    TOLD("oxygen pressures of this file are read as bar");
    NEAR(uddf_cell_bar("10"), 10);
    ck_assert(isnan(uddf_cell_bar("10.1")));
    TOLD("an oxygen pressure of 10.1 is neither pascal nor bar; value dropped");
    ck_assert(isnan(uddf_cell_bar("4999")));
    NEAR(uddf_cell_bar("5000"), 0.05);
}
END_TEST

START_TEST(pascal_to_the_last_bit)
{
    /* The double nearest to 1300.0000000000001 is 1300, but 0.013000000000000001 and 0.013 are two doubles. */
    static const char OWN[] =
        "<uddf version='3.2.0'><generator><name>plimsoll</name></generator>" MIXES
        "<profiledata>" DIVE(FIRST, POINTS(LOOP "<measuredpo2 ref='a'>1300.0000000000001</measuredpo2>",
                                           "<measuredpo2 ref='a'>1300</measuredpo2>")) "</profiledata></uddf>";
    read_text(OWN, 1);
    ck_assert(sample(0, 0)->cell_bar[0] == 0.013000000000000001 && sample(0, 1)->cell_bar[0] == 0.013);
}
END_TEST

START_TEST(celsius_and_kelvin_are_one_double)
{
    /* 10 C is 283.15 K; what a recorder cannot show is rounded off in both. */
    static const char *const TEN[] = {"10", "283.15", "10.0000000001", "283.1500000001"};
    for (size_t i = 0; i < sizeof TEN / sizeof TEN[0]; i++) {
        char text[1200];
        (void)snprintf(text, sizeof text, FILE_OF(DIVE(FIRST, POINTS(OPEN "<temperature>%s</temperature>", ""))),
                       TEN[i]);
        read_text(text, 1);
        ck_assert_msg(sample(0, 0)->temp_c == 10.0, "%s: %.17g", TEN[i], sample(0, 0)->temp_c);
    }
}
END_TEST

#define LONG_60  "a cell of many words, made in 2031, that has a name to match "
#define LONG_300 LONG_60 LONG_60 LONG_60 LONG_60 LONG_60

/* References that differ far behind are two. */
START_TEST(references_of_any_length)
{
    read_text(
        FILE_OF(DIVE(FIRST, POINTS(LOOP "<measuredpo2 ref='" LONG_300
                                        "1'>100000</measuredpo2><measuredpo2 ref='" LONG_300 "2'>110000</measuredpo2>",
                                   "<tankpressure ref='" LONG_300 "3'>20000000</tankpressure>"))),
        1);
    NEAR(sample(0, 0)->cell_bar[0], 1.0);
    NEAR(sample(0, 0)->cell_bar[1], 1.1);
    size_t count;
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 1 && strcmp(events[0].text, LONG_300 "3") == 0);
}
END_TEST

/* The texts of one waypoint have little room; what finds none is cut between two characters, and told. */
START_TEST(long_texts_of_events_are_cut_and_told)
{
    static char text[4000], long_text[1100];
    for (size_t i = 0; i < 1040; i += 2) {
        memcpy(long_text + i, "\xc3\xa4", 2);
    }
    (void)snprintf(text, sizeof text, FILE_OF(DIVE(FIRST, POINTS(OPEN "<alarm>%s</alarm>", "<alarm>short</alarm>"))),
                   long_text);
    read_text(text, 1);
    size_t count;
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 2 && strlen(events[0].text) > 900 && strlen(events[0].text) % 2 == 0 &&
              strcmp(events[1].text, "short") == 0);
    TOLD("texts of events in one waypoint are longer than is kept; cut");
}
END_TEST

/* Where the gases stand behind, the definitions are read anew from the start, while what encloses the dives is open
 * still. */
START_TEST(dives_inside_of_what_they_refer_to)
{
    static const char *const AROUND[][2] = {
        {"<mix id='m'><o2>0.3</o2>", "<o2>0.4</o2><name>later</name><maximumpo2>140000</maximumpo2></mix>"},
        {"<site id='s'><name>reef</name>", "<altitude>100</altitude><name>later</name></site>"},
        {"<tankdata><mixref ref='tx'/>", "<name>later</name></tankdata>"}};
    char text[4096];
    for (size_t i = 0; i < sizeof AROUND / sizeof AROUND[0]; i++) {
        (void)snprintf(text, sizeof text,
                       "<uddf "
                       "version='3.2.0'><generator><name>logger</name><o2>0.5</o2></generator>%s<profiledata>%s</"
                       "profiledata>%s%s</uddf>",
                       AROUND[i][0], DIVE(FIRST, POINTS(OPEN, "")), AROUND[i][1], MIXES);
        read_text(text, 1);
        ck_assert_double_eq_tol(sample(0, 1)->depth_m, 9, 1e-9);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("edges");
    TCase *tables = tcase_create("tables");
    tcase_add_checked_fixture(tables, begin, end);
    tcase_add_test(tables, a_clock_that_steps_back_a_second_adds_no_day);
    tcase_add_test(tables, midnight_is_a_fall_of_more_than_half_a_day);
    tcase_add_test(tables, a_record_passes_midnight_after_midnight);
    tcase_add_test(tables, a_change_of_zone_is_no_jump);
    tcase_add_test(tables, a_bare_surface_pressure_before_the_header);
    tcase_add_test(tables, water_before_the_header);
    tcase_add_test(tables, depth_from_pressure_by_the_density_that_the_table_names);
    tcase_add_test(tables, a_bare_oxygen_pressure_is_bar_up_to_five);
    suite_add_tcase(suite, tables);
    TCase *uddf = tcase_create("uddf");
    tcase_add_checked_fixture(uddf, begin, end);
    tcase_add_test(uddf, a_surface_pressure_in_pascal_bar_or_millibar);
    tcase_add_test(uddf, surface_intervals_across_zones);
    tcase_add_test(uddf, the_last_set_point_told_is_in_force);
    tcase_add_test(uddf, on_the_loop_again_by_the_computers_set_point);
    tcase_add_test(uddf, oxygen_pressures_in_pascal_or_bar);
    tcase_add_test(uddf, pascal_to_the_last_bit);
    tcase_add_test(uddf, celsius_and_kelvin_are_one_double);
    tcase_add_test(uddf, references_of_any_length);
    tcase_add_test(uddf, long_texts_of_events_are_cut_and_told);
    tcase_add_test(uddf, dives_inside_of_what_they_refer_to);
    suite_add_tcase(suite, uddf);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? 0 : 1;
}
