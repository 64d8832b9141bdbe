/*
 * Tables as logs: where one dive ends and the next begins, what is told of guesses, gaps and bounds.
 * Source: plimsoll(1); the rules split_surface_min, surface_depth_m and zero_offset_max_m are conventions of ours.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

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

static const struct plm_sample *samples(int dive, size_t want)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(got.dives[dive], &count);
    ck_assert_msg(count == want, "dive %d: %zu samples", dive, count);
    return all;
}

#define TOLD(text) ck_assert_msg(diag_list_has(&got.told, text), "not told: %s; but %s", text, got.told.lines[0])

START_TEST(a_day_long_record_falls_into_dives)
{
    read_text("time_s,depth_m,mode,o2_frac,he_frac\n"
              "0,0,open,0.32,0\n1800,0,,,\n3600,0,,,\n3660,10,,,\n3900,12,,,\n4000,0,,,\n4300,0,,,\n4700,0,,,\n9000,0,,"
              ",\n9060,8,,,\n9400,0,,,\n9500,0,,,\n",
              2);
    /* The wait before the dive ends with its last row; that behind it is cut where the diver surfaced. */
    const struct plm_sample *first = samples(0, 4);
    ck_assert(first[0].time_ms == 0 && first[1].time_ms == 60000 && first[3].time_ms == 400000 && first[0].line == 4);
    const struct plm_sample *second = samples(1, 4);
    ck_assert(second[0].time_ms == 0 && second[1].depth_m == 8 && second[0].line == 10);
    ck_assert(info(1)->surface_interval_s == 5000 && info(0)->group == info(1)->group);
    ck_assert_int_eq(info(1)->index, 2);
    /* Settings hold over the surface in one record. */
    ck_assert(info(1)->gas_known && info(1)->mode_known);
}
END_TEST

START_TEST(a_short_stay_at_the_surface_parts_nothing)
{
    read_text("time_s,depth_m\n0,0\n60,10\n300,0\n800,0\n860,9\n1000,0\n", 1);
    (void)samples(0, 6);
    got.rules.split_surface_min = 5;
    read_text("time_s,depth_m\n0,0\n60,10\n300,0\n800,0\n860,9\n1000,0\n", 2);
}
END_TEST

START_TEST(a_recorder_that_sleeps_at_the_surface)
{
    read_text("date,time,depth_m\n2031-05-06,09:00:00,1.2\n2031-05-06,09:01:00,12\n2031-05-06,09:20:00,1.1\n2031-05-06,"
              "11:00:00,1.3\n2031-05-06,11:01:00,9\n"
              "2031-05-06,11:30:00,1.2\n",
              2);
    ck_assert(info(1)->surface_interval_s == 6000 && info(1)->start.local_ms - info(0)->start.local_ms == 7200000);
    /* A long gap in the depth is a gap. */
    read_text("time_s,depth_m\n0,0\n60,30\n2000,31\n2060,0\n", 1);
    TOLD("without samples");
}
END_TEST

START_TEST(dives_by_number)
{
    read_text("dive "
              "no,time_s,depth_m,mode,o2_frac\n7,0,0,open,0.32\n7,60,10,,\n7,300,0,,\n8,0,0,,\n8,60,20,,\n8,300,0,,\n9,"
              "0,0,,\n9,60,0,,\n",
              2);
    ck_assert_str_eq(info(0)->number, "7");
    ck_assert_str_eq(info(1)->number, "8");
    /* Nothing is taken over from a dive of another number. */
    ck_assert(info(0)->gas_known && !info(1)->gas_known && isnan(info(1)->surface_interval_s));
    TOLD("dive 2: no breathing gas is recorded at its start; air is taken");
    TOLD("error: dive 3 never leaves the surface; not read [dive-skipped]");
    ck_assert_int_eq(got.status, PLM_STATUS_END);
    ck_assert(got.partial);
}
END_TEST

#define LONG_60  "a recorder of many words and made in 2031 that names its dives "
#define LONG_240 LONG_60 LONG_60 LONG_60 LONG_60

/* Two numbers that differ behind any room for them are two dives all the same; what does not fit is told. */
START_TEST(dives_by_a_long_number)
{
    read_text("dive,time_s,depth_m\n" LONG_240 "1,0,0\n" LONG_240 "1,60,9\n" LONG_240 "1,120,0\n" LONG_240
              "2,0,0\n" LONG_240 "2,60,20\n" LONG_240 "2,120,0\n",
              2);
    ck_assert(samples(0, 3)[1].depth_m == 9 && samples(1, 3)[1].depth_m == 20);
    TOLD("t:2:1: warning: the number of a dive is longer than");
    /* A cut falls between two characters, here of two bytes each. */
    char umlauts[141] = "", text[512];
    for (size_t i = 0; i < 140; i += 2) {
        memcpy(umlauts + i, "\xc3\xa4", 3);
    }
    (void)snprintf(text, sizeof text, "dive,time_s,depth_m\n%s,0,0\n%s,60,9\n%s,120,0\n", umlauts, umlauts, umlauts);
    read_text(text, 1);
    size_t n = strlen(info(0)->number);
    ck_assert(n > 40 && n % 2 == 0 && n < 140);
}
END_TEST

START_TEST(order_of_day_and_month)
{
    static const char TEXT[] =
        "date,time,depth_m\n05/06/2031,09:00:00,0\n05/06/2031,09:01:00,9\n05/06/2031,09:02:00,0\n";
    read_text(TEXT, 1);
    ck_assert(info(0)->start.local_ms == INT64_C(1938416400000)); /* 2031-06-05T09:00 */
    TOLD("day and month of 05/06/2031 cannot be told apart; the day is taken to stand first");
    ck_assert(!got.partial);
    got.options.date_order = "mdy";
    read_text(TEXT, 1);
    ck_assert(info(0)->start.local_ms == INT64_C(1935824400000)); /* 2031-05-06T09:00 */
    ck_assert(!diag_list_has(&got.told, "cannot be told apart"));
    got.options.date_order = NULL;
    /* The part that changes over midnight is the day. */
    read_text("date,time,depth_m\n05/06/2031,23:59:00,0\n05/06/2031,23:59:30,9\n05/07/2031,00:00:30,9\n05/07/"
              "2031,00:02:00,0\n",
              1);
    ck_assert(info(0)->start.local_ms == INT64_C(1935878340000)); /* 2031-05-06T23:59 */
    ck_assert(samples(0, 4)[3].time_ms == 180000);
}
END_TEST

START_TEST(a_start_before_the_header)
{
    read_text("Start: 05/06/2031 09:30\ntime_s,depth_m\n0,0\n60,9\n90,0\n", 1);
    ck_assert(info(0)->start.local_ms == INT64_C(1938418200000)); /* 2031-06-05T09:30 */
    TOLD("day and month of 05/06/2031 09:30 cannot be told apart");
    got.options.date_order = "mdy";
    read_text("Start: 05/06/2031 09:30\ntime_s,depth_m\n0,0\n60,9\n90,0\n", 1);
    /* 2031-05-06T09:30; the gas is told */
    ck_assert(info(0)->start.local_ms == INT64_C(1935826200000) && got.told.count == 1);
    /* The clock of the rows runs from the date before the header. */
    got.options.date_order = NULL;
    read_text("Date;16.05.2031\ntime;depth_m\n23:59:30;0\n00:00:30;9\n00:02:30;0\n", 1);
    ck_assert(info(0)->start.local_ms == INT64_C(1936742370000)); /* 2031-05-16T23:59:30 */
    ck_assert(samples(0, 3)[2].time_ms == 180000);
}
END_TEST

START_TEST(a_start_in_several_lines)
{
    static const char ROWS[] = "time_s,depth_m\n0,0\n60,9\n90,0\n";
    static const struct {
        const char *lines;
        int64_t start_ms;
    } STARTS[] = {
        /* 2031-05-06T09:30:00Z is 1935826200 s since 1970 (date -u +%s). */
        {"Start: 2031-05-06 09:30\nDate: 2031-05-06\n", INT64_C(1935826200000)},
        {"Date: 2031-05-06\nStart: 2031-05-06 09:30\n", INT64_C(1935826200000)},
        {"Date: 2031-05-06\nClock: 09:30\n", INT64_C(1935826200000)},
        {"Clock: 09:30\nDate: 2031-05-06\n", INT64_C(1935826200000)},
        {"Clock: 09:30\nDate: 2031-05-06\nDate: 2031-05-06\nClock: 09:30\n", INT64_C(1935826200000)},
    };
    for (size_t i = 0; i < sizeof STARTS / sizeof STARTS[0]; i++) {
        char text[256];
        (void)snprintf(text, sizeof text, "%s%s", STARTS[i].lines, ROWS);
        read_text(text, 1);
        ck_assert_msg(info(0)->start.known && info(0)->start.has_clock && info(0)->start.local_ms == STARTS[i].start_ms,
                      "%s: %lld", STARTS[i].lines, (long long)info(0)->start.local_ms);
    }
    read_text("Clock: 09:30\ntime_s,depth_m\n0,0\n60,9\n90,0\n", 1);
    ck_assert(!info(0)->start.known);
}
END_TEST

START_TEST(an_interval_before_the_header)
{
    read_text("Sample interval: 10 s\ndepth_m\n0\n9\n9\n0\n", 1);
    ck_assert_int_eq(samples(0, 4)[3].time_ms, 30000);
    read_text("Sample interval: 10 min\ndepth_m\n0\n9\n0\n", 1);
    ck_assert_int_eq(samples(0, 3)[2].time_ms, 1200000);
    static const char *const NEVER[] = {"1e300 s", "3600.1 s", "0", "-10 s"};
    for (size_t i = 0; i < sizeof NEVER / sizeof NEVER[0]; i++) {
        char text[128];
        (void)snprintf(text, sizeof text, "Sample interval: %s\ndepth_m\n0\n9\n0\n", NEVER[i]);
        read_text(text, 0);
        TOLD("t:1: warning: a sample interval of");
        TOLD("no column of time");
    }
    got.options.interval_s = 1e300;
    read_text("depth_m\n0\n9\n0\n", 0);
    TOLD("a sample interval of");
    TOLD("no column of time");
}
END_TEST

START_TEST(what_is_missing_is_named)
{
    read_text("time_s,temp_c\n0,20\n", 0);
    TOLD("t:1: error: no column of depth; understood: time_s (column 1), temp_c (column 2)");
    read_text("depth_m,temp_c\n0,20\n", 0);
    TOLD("t:1: error: no column of time; --columns names one by hand, --interval 10s");
    read_text("a,b\n1,2\n3,4\n", 0);
    TOLD("error: no header row is understood (the first row begins with 'a'); name the columns: --columns "
         "time_s,depth_m,...");
    read_text("time_s,depth_m\n", 0);
    TOLD("the table holds no row with time and depth");
    got.options.columns = "time_s,colour";
    read_text("0,0\n1,1\n", 0);
    TOLD("--columns: 'colour' names no column that is read");
    ck_assert_int_eq(got.status, PLM_STATUS_ARGUMENT);
    got.options.columns = "time_s,depth_m,temp_c";
    read_text("0,0\n1,1\n", 0);
    TOLD("--columns names 3 columns, the table has 2");
}
END_TEST

START_TEST(rows_without_depth_and_time)
{
    read_text("time_s,depth_m\n0,0\n60,9\n70,\n80,-\n,8\n90,8\n120,0\n", 1);
    (void)samples(0, 4);
    TOLD("t:4: note: 2 rows without a depth, up to line 5; passed over");
    TOLD("t:6: warning: a row without time; dropped [time-missing]");
}
END_TEST

START_TEST(rows_of_another_width)
{
    read_text("time_s,depth_m,temp_c\n0,0\n60,9,20,7\n90,8,20,\n120,0,20\n", 1);
    ck_assert(isnan(samples(0, 4)[0].temp_c));
    TOLD("t:3:9: warning: the row has 4 cells, the table 3 columns; the cells behind are dropped [csv-columns]");
}
END_TEST

START_TEST(settings_hold_and_measurements_do_not)
{
    read_text("time_s,depth_m,mode,o2_frac,he_frac,setpoint_bar,po2_bar,cell1_bar\n0,0,closed,0.1,0.7,0.7,0.71,0.7\n60,"
              "30,,,,,,\n90,30,,,0.6,1.3,,1.2\n600,0,,,,,,\n",
              1);
    const struct plm_sample *all = samples(0, 4);
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(got.dives[0], &count);
    ck_assert_uint_eq(count, 2);
    ck_assert(all[1].setting == 0 && isnan(all[1].po2_bar) && isnan(all[1].cell_bar[0]) && all[0].po2_bar == 0.71);
    ck_assert(settings[1].mode == PLM_MODE_CLOSED && settings[1].setpoint_bar == 1.3);
    const struct plm_dive_mix *mixes = plm_dive_mixes(got.dives[0], &count);
    ck_assert(count == 2 && mixes[settings[1].mix].mix.o2_frac == 0.1 && mixes[settings[1].mix].mix.he_frac == 0.6);
}
END_TEST

START_TEST(mixes_that_cannot_be_end_the_reading)
{
    read_text("time_s,depth_m,o2_frac,he_frac\n0,0,0.7,0.7\n60,9,,\n", 0);
    ck_assert_int_eq(got.status, PLM_STATUS_INPUT);
    read_text("time_s,depth_m,o2_frac,he_frac\n0,0,,0.5\n60,9,,\n", 0);
    TOLD("helium is told and no oxygen; the mix cannot be known");
    read_text("time_s,depth_m,gas\n0,0,stage 3 of 4\n60,9,\n", 0);
    TOLD("names no mix");
}
END_TEST

START_TEST(modes_that_are_not_known)
{
    read_text("time_s,depth_m,mode\n0,0,open\n60,9,sideways\n120,9,apnea\n180,0,\n", 1);
    TOLD("t:3:6: warning: 'sideways' is no breathing mode that is known; the mode before stays in force [mode]");
    TOLD("'apnea' is no mode that the model knows; open circuit taken");
}
END_TEST

START_TEST(set_points_without_a_mode)
{
    read_text("time_s,depth_m,o2_frac,setpoint_bar\n0,0,0.21,0.7\n60,9,,\n180,0,,\n", 1);
    TOLD("set points or cells are recorded and no breathing mode; a closed loop is taken");
}
END_TEST

START_TEST(the_better_of_two_columns)
{
    read_text("time_s,depth of the wreck m,depth_m,depth_ft\n0,30,0,0\n60,30,9,29.5\n180,30,0,0\n", 1);
    ck_assert(samples(0, 3)[1].depth_m == 9);
    TOLD("not read: depth of the wreck m (column 2), depth_ft (column 4)");
}
END_TEST

START_TEST(a_point_that_shows_late)
{
    char text[8000] = "time_s;depth_m\n";
    size_t n = strlen(text);
    for (int i = 0; i < 500; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%d;%d\n", i * 10, i % 20);
    }
    (void)snprintf(text + n, sizeof text - n, "5000;7,5\n5010;0\n");
    read_text(text, 1);
    ck_assert(samples(0, 502)[500].depth_m == 7.5);
}
END_TEST

START_TEST(zero_offset_told_and_taken_off)
{
    char text[2000] = "time_s,depth_m\n";
    size_t n = strlen(text);
    for (int i = 0; i < 40; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%d,%s\n", i * 10, i < 8 || i > 30 ? "-0.8" : "11.2");
    }
    read_text(text, 1);
    ck_assert(samples(0, 40)[20].depth_m == 11.2);
    TOLD("warning: the surface reads about -0.8 m (17 of the first rows lie at the least depth, -0.8 m); depths are "
         "taken as recorded (--zero auto takes it off)");
    got.options.zero_auto = true;
    read_text(text, 1);
    ck_assert_double_eq_tol(samples(0, 40)[20].depth_m, 12, 1e-12);
    TOLD("note: the surface reads about -0.8 m");
}
END_TEST

/* In waves the readings at the surface lie within 1.1 m (a convention of ours): 7 x -0.21 and 10 x -1.3 m are -0.85 m
 * on average, -0.19 m is no such reading. */
START_TEST(waves_make_the_surface_wide)
{
    static const struct {
        const char *high, *told;
    } rows[] = {
        {"-0.21", "the surface reads about -0.9 m (17 of the first rows lie at the least depth, -1.3 m)"},
        {"-0.19", "the surface reads about -1.3 m (10 of the first rows lie at the least depth, -1.3 m)"},
    };
    for (size_t row = 0; row < sizeof rows / sizeof rows[0]; row++) {
        char text[2000] = "time_s,depth_m\n";
        size_t n = strlen(text);
        for (int i = 0; i < 40; i++) {
            n += (size_t)snprintf(text + n, sizeof text - n, "%d,%s\n", i * 10,
                                  i < 7    ? rows[row].high
                                  : i > 29 ? "-1.3"
                                           : "11.2");
        }
        read_text(text, 1);
        TOLD(rows[row].told);
    }
}
END_TEST

START_TEST(depths_written_as_negative_numbers)
{
    read_text("time_s,depth_m\n0,0\n60,-12.5\n300,-9\n400,0.1\n", 1);
    ck_assert(samples(0, 4)[1].depth_m == 12.5 && samples(0, 4)[3].depth_m == 0);
    TOLD("warning: column 2, depth: it runs from -12.5 to 0.1; the sign is turned");
}
END_TEST

START_TEST(commas_that_are_two_things)
{
    read_text("time_s,depth_m\n0,0,0\n60,12,5\n300,9,1\n", 0);
    TOLD("3 of the first 3 rows have more cells than the header has names");
}
END_TEST

START_TEST(a_clock_coarser_than_the_sampling)
{
    char text[2000] = "date,time,depth_m\n";
    size_t n = strlen(text);
    for (int i = 0; i < 60; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "2031-05-06,09:%02d,%d\n", i / 6, i % 13);
    }
    read_text(text, 1);
    TOLD("samples time stands still");
}
END_TEST

/* An absolute pressure needs a surface to be counted from: 1.013 bar read as 0 m, and 2.013 bar as 10 m with EN 13319.
 */
START_TEST(absolute_pressures_need_a_surface)
{
    read_text("time_s,absolute pressure (bar)\n0,1.013\n60,2.013\n120,1.013\n", 1);
    ck_assert(info(0)->surface_bar == 1.013);
    ck_assert_double_eq_tol(samples(0, 3)[1].depth_m, 10, 1e-6);
    read_text("time_s,absolute pressure (bar)\n0,0\n60,2.013\n120,1.013\n", 0);
    ck_assert_int_eq(got.status, PLM_STATUS_INPUT);
    TOLD("column 2, pressure: its least value, 0.000 bar, is no surface pressure (0.4 to 1.2 bar); a line before the "
         "header tells it: "
         "surface pressure, 1.013 bar; nothing read");
    read_text("time_s,absolute pressure (bar)\n0,3.2\n60,4\n120,3.3\n", 0);
    TOLD("its least value, 3.200 bar, is no surface pressure");
    read_text("surface pressure,1.013 bar\ntime_s,absolute pressure (bar)\n0,0\n60,2.013\n120,1.013\n", 1);
    ck_assert(info(0)->surface_bar == 1.013 && samples(0, 3)[0].depth_m == 0);
    TOLD("is above the surface; 0 m taken");
}
END_TEST

START_TEST(surroundings_before_the_header)
{
    static const struct {
        const char *line;
        double surface_bar, altitude_m, water_kg_m3;
        const char *told;
    } trials[] = {
        {"Water: 1100", NAN, NAN, 1100, NULL},
        {"Water: 900 kg/m3", NAN, NAN, 900, NULL},
        {"Density: 1025", NAN, NAN, 1025, NULL},
        {"Density: 1101", NAN, NAN, NAN,
         "t:1: warning: a density of 1101 kg/m3 is not within 900 to 1100; it is left aside"},
        {"Surface pressure: 400 mbar", 0.4, NAN, NAN, NULL},
        {"Surface pressure: 1200", 1.2, NAN, NAN, NULL},
        {"Surface pressure: 0 bar", NAN, NAN, NAN,
         "t:1: warning: a surface pressure of 0.000 bar is not within 0.4 to 1.2; it is left aside"},
        {"Altitude: 9500 m", NAN, NAN, NAN, "an altitude of 9500 m is not within -500 to 9000; it is left aside"},
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        char text[200];
        snprintf(text, sizeof text, "%s\ntime_s,depth_m\n0,0\n60,9\n120,0\n", trials[i].line);
        read_text(text, 1);
        ck_assert_msg((isnan(trials[i].surface_bar) && isnan(info(0)->surface_bar)) ||
                          fabs(info(0)->surface_bar - trials[i].surface_bar) < 1e-9,
                      "%s", text);
        ck_assert_msg((isnan(trials[i].altitude_m) && isnan(info(0)->altitude_m)) ||
                          info(0)->altitude_m == trials[i].altitude_m,
                      "%s", text);
        ck_assert_msg((isnan(trials[i].water_kg_m3) && isnan(info(0)->water_kg_m3)) ||
                          info(0)->water_kg_m3 == trials[i].water_kg_m3,
                      "%s", text);
        if (trials[i].told != NULL) {
            TOLD(trials[i].told);
        }
        ck_assert_msg(got.partial == (trials[i].told != NULL), "%s", text);
    }
}
END_TEST

START_TEST(bounds)
{
    got.rules.dives_max = 1;
    read_text("dive,time_s,depth_m\n1,0,0\n1,60,9\n1,90,0\n2,0,0\n2,60,9\n2,90,0\n",
              1); /* the one that was whole is kept */
    TOLD("more than 1 dives (rule dives_max); reading stops there");
    ck_assert_int_eq(got.status, PLM_STATUS_LIMIT);
    got.rules = plm_rules_default();
    got.rules.rows_max = 3;
    read_text("time_s,depth_m\n0,0\n60,9\n90,0\n120,0\n", 0);
    ck_assert_int_eq(got.status, PLM_STATUS_LIMIT);
    got.rules = plm_rules_default();
    got.rules.columns_max = 2;
    read_text("time_s,depth_m,temp_c\n0,0,1\n60,9,1\n", 0);
    TOLD("(rule columns_max)");
    got.rules = plm_rules_default();
    got.rules.cell_max_bytes = 16;
    read_text("time_s,depth_m\n0,0\n60,00000000000000000009\n90,0\n", 0);
    TOLD("(rule cell_max_bytes)");
}
END_TEST

START_TEST(a_new_mix_in_every_row)
{
    static char text[60000] = "time_s,depth_m,o2_frac\n";
    size_t n = strlen(text);
    for (int i = 0; i < 1100; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%d,9,0.2%05d\n", i, i * 7);
    }
    read_text(text, 0);
    ck_assert_int_eq(got.status, PLM_STATUS_LIMIT);
    TOLD("more than 1000 mixes in one dive");
}
END_TEST

START_TEST(a_verdict_for_every_column)
{
    struct plm_diag_sink sink = diag_list_sink(&got.told);
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    static const char TEXT[] = "time;Tiefe [ft];colour\n0;0;1\n60;30;1\n120;0;1\n";
    ck_assert_int_eq(plm_source_open_memory(&source, TEXT, sizeof TEXT - 1, "t", &got.rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_import_open(&import, source, &got.options, &sink), PLM_STATUS_OK);
    const struct plm_verdict *verdict = plm_import_verdict(import);
    ck_assert_str_eq(verdict->format, "csv");
    ck_assert_uint_eq(verdict->column_count, 3);
    ck_assert(verdict->columns[0].read && verdict->columns[0].guessed && strcmp(verdict->columns[0].unit, "s") == 0);
    ck_assert(verdict->columns[1].read && !verdict->columns[1].guessed && strcmp(verdict->columns[1].unit, "ft") == 0);
    ck_assert_str_eq(verdict->columns[1].meaning, "depth");
    ck_assert(!verdict->columns[2].read && strcmp(verdict->columns[2].evidence, "the name is not known") == 0);
    for (size_t i = 0; i < verdict->fact_count; i++) {
        ck_assert(verdict->facts[i].what[0] != '\0' && verdict->facts[i].found[0] != '\0' &&
                  verdict->facts[i].evidence[0] != '\0');
    }
    plm_import_free(import);
    plm_source_free(source);
    ck_assert_str_eq(plm_import_format_get(0)->name, "uddf");
    ck_assert_ptr_null(plm_import_format_get(99));
}
END_TEST

START_TEST(a_row_that_cannot_be_parts_no_dives)
{
    /* 130,000 m is no depth: the row at 900,000 s neither begins a dive nor hides the long stay at the surface behind
     * it. */
    read_text("time_s,depth_m\n0,0\n60,9\n300,9\n900000,130000\n360,0\n420,0\n4000,0\n4060,8\n4300,8\n4400,0\n", 2);
    (void)samples(0, 4);
    ck_assert_int_eq(samples(1, 4)[0].time_ms, 0);
    TOLD("a depth of 130000.0 m is beyond 500 m (rule depth_max_m); sample dropped");
    read_text("time_s,depth_m\n2250,130000\n0,0\n60,9\n300,9\n360,0\n", 1);
    ck_assert_int_eq(samples(0, 4)[0].time_ms, 0);
    ck_assert_uint_eq(info(0)->line, 3);
}
END_TEST

int main(void)
{
    const TTest *const all[] = {
        a_day_long_record_falls_into_dives,
        a_short_stay_at_the_surface_parts_nothing,
        a_recorder_that_sleeps_at_the_surface,
        dives_by_number,
        dives_by_a_long_number,
        order_of_day_and_month,
        a_start_before_the_header,
        a_start_in_several_lines,
        an_interval_before_the_header,
        what_is_missing_is_named,
        rows_without_depth_and_time,
        rows_of_another_width,
        settings_hold_and_measurements_do_not,
        mixes_that_cannot_be_end_the_reading,
        modes_that_are_not_known,
        set_points_without_a_mode,
        the_better_of_two_columns,
        a_point_that_shows_late,
        zero_offset_told_and_taken_off,
        waves_make_the_surface_wide,
        depths_written_as_negative_numbers,
        commas_that_are_two_things,
        a_clock_coarser_than_the_sampling,
        absolute_pressures_need_a_surface,
        surroundings_before_the_header,
        bounds,
        a_new_mix_in_every_row,
        a_row_that_cannot_be_parts_no_dives,
        a_verdict_for_every_column,
    };
    TCase *tests = tcase_create("csv");
    tcase_add_checked_fixture(tests, begin, end);
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        tcase_add_test(tests, all[i]);
    }
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
