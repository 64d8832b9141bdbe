/*
 * Names of columns, mixes and modes, times and dates, as they are written.
 * Sources: trade terms of six languages; ISO 8601; dates of the proleptic Gregorian calendar by `date -u -d ... +%s`.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "import/format/breathing.h"
#include "import/format/tokens.h"
#include "import/table/cell.h"
#include "import/table/header.h"
#include "import/table/time.h"

static const struct {
    const char *name;
    enum plmi_meaning meaning;
    const char *unit;
    int number;
} NAMES[] = {
    {"time_s", PLMI_MEANING_TIME, "s", 0},
    {"Time (min)", PLMI_MEANING_TIME, "min", 0},
    {"elapsed time [ms]", PLMI_MEANING_TIME, "ms", 0},
    {"Dive Time", PLMI_MEANING_TIME, NULL, 0},
    {"runtime", PLMI_MEANING_TIME, NULL, 0},
    {"Zeit", PLMI_MEANING_TIME, NULL, 0},
    {"Dur\xc3\xa9"
     "e (s)",
     PLMI_MEANING_TIME, "s", 0},
    {"Tiempo transcurrido (min)", PLMI_MEANING_TIME, "min", 0},
    {"depth_m", PLMI_MEANING_DEPTH, "m", 0},
    {"DEPTH [FT]", PLMI_MEANING_DEPTH, "ft", 0},
    {"Tiefe", PLMI_MEANING_DEPTH, NULL, 0},
    {"Profondeur (m)", PLMI_MEANING_DEPTH, "m", 0},
    {"Profundidad", PLMI_MEANING_DEPTH, NULL, 0},
    {"Profondit\xc3\xa0", PLMI_MEANING_DEPTH, NULL, 0},
    {"Diepte in meter", PLMI_MEANING_DEPTH, "meter", 0},
    {"sampleDepth", PLMI_MEANING_DEPTH, NULL, 0},
    {"max depth", PLMI_MEANING_OTHER, NULL, 0},
    {"average depth (m)", PLMI_MEANING_OTHER, NULL, 0},
    {"depth (bar)", PLMI_MEANING_PRESSURE, "bar", 0},
    {"ceiling depth", PLMI_MEANING_OTHER, NULL, 0},
    {"deco time (min)", PLMI_MEANING_OTHER, NULL, 0},
    {"max time", PLMI_MEANING_OTHER, NULL, 0},
    {"Intervall Zeit", PLMI_MEANING_OTHER, NULL, 0},
    {"ambient pressure (mbar)", PLMI_MEANING_PRESSURE, "mbar", 0},
    {"Umgebungsdruck [bar]", PLMI_MEANING_PRESSURE, "bar", 0},
    {"tank pressure", PLMI_MEANING_OTHER, NULL, 0},
    {"Flaschendruck", PLMI_MEANING_OTHER, NULL, 0},
    {"surface pressure", PLMI_MEANING_OTHER, NULL, 0},
    {"Temp \xc2\xb0"
     "F",
     PLMI_MEANING_TEMP, "F", 0},
    {"water temperature (deg C)", PLMI_MEANING_TEMP, "C", 0},
    {"air temperature", PLMI_MEANING_OTHER, NULL, 0},
    {"min temp", PLMI_MEANING_OTHER, NULL, 0},
    {"PO2 [ata]", PLMI_MEANING_PO2, "ata", 0},
    {"ppO2", PLMI_MEANING_PO2, NULL, 0},
    {"pO\xe2\x82\x82 (bar)", PLMI_MEANING_PO2, "bar", 0},
    {"Sauerstoffpartialdruck", PLMI_MEANING_PO2, NULL, 0},
    {"oxygen partial pressure kPa", PLMI_MEANING_PO2, "kPa", 0},
    {"cell1_bar", PLMI_MEANING_CELL, "bar", 1},
    {"PPO2 sensor 3", PLMI_MEANING_CELL, NULL, 3},
    {"Zelle 2", PLMI_MEANING_CELL, NULL, 2},
    {"PO2 #2", PLMI_MEANING_CELL, NULL, 2},
    {"setpoint_bar", PLMI_MEANING_SETPOINT, "bar", 0},
    {"PO2 set point", PLMI_MEANING_SETPOINT, NULL, 0},
    {"Sollwert", PLMI_MEANING_SETPOINT, NULL, 0},
    {"Consigne", PLMI_MEANING_SETPOINT, NULL, 0},
    {"o2_frac", PLMI_MEANING_O2, "fraction", 0},
    {"O2 %", PLMI_MEANING_O2, "%", 0},
    {"FHe", PLMI_MEANING_HE, NULL, 0},
    {"Helium [%]", PLMI_MEANING_HE, "%", 0},
    {"O2 (bar)", PLMI_MEANING_OTHER, NULL, 0},
    {"mode", PLMI_MEANING_MODE, NULL, 0},
    {"Dive Mode", PLMI_MEANING_MODE, NULL, 0},
    {"gas mix", PLMI_MEANING_GAS, NULL, 0},
    {"Diluent", PLMI_MEANING_GAS, NULL, 0},
    {"date", PLMI_MEANING_DATE, NULL, 0},
    {"Fecha", PLMI_MEANING_DATE, NULL, 0},
    {"Uhrzeit", PLMI_MEANING_CLOCK, NULL, 0},
    {"time of day", PLMI_MEANING_TIME, NULL, 0},
    {"Date/Time", PLMI_MEANING_DATE_CLOCK, NULL, 0},
    {"timestamp", PLMI_MEANING_DATE_CLOCK, NULL, 0},
    {"dive number", PLMI_MEANING_DIVE, NULL, 0},
    {"Dive #", PLMI_MEANING_DIVE, NULL, 0},
    {"sample number", PLMI_MEANING_OTHER, NULL, 0},
    {"NDL (min)", PLMI_MEANING_OTHER, NULL, 0},
    {"CNS %", PLMI_MEANING_OTHER, NULL, 0},
    {"heading", PLMI_MEANING_OTHER, NULL, 0},
    {"ascent rate (m/min)", PLMI_MEANING_OTHER, NULL, 0},
    {"colour", PLMI_MEANING_UNKNOWN, NULL, 0},
    {"", PLMI_MEANING_UNKNOWN, NULL, 0},
};

START_TEST(names_of_columns)
{
    struct plmi_header_cell cell = plmi_header_read(NAMES[_i].name);
    bool date_of_day = strcmp(NAMES[_i].name, "time of day") == 0; /* "day" may be a date, the values tell */
    ck_assert_msg(cell.meaning == NAMES[_i].meaning || (date_of_day && cell.meaning == PLMI_MEANING_DATE_CLOCK),
                  "%s: %s", NAMES[_i].name, plmi_meaning_info(cell.meaning)->name);
    if (NAMES[_i].meaning > PLMI_MEANING_OTHER) {
        ck_assert_msg((cell.unit == NULL) == (NAMES[_i].unit == NULL) &&
                          (cell.unit == NULL || plmi_text_same(cell.unit->name, NAMES[_i].unit)),
                      "%s: unit %s", NAMES[_i].name, cell.unit == NULL ? "none" : cell.unit->name);
    }
    ck_assert_msg(NAMES[_i].meaning != PLMI_MEANING_CELL || cell.number == NAMES[_i].number, "%s: number %d",
                  NAMES[_i].name, cell.number);
}
END_TEST

START_TEST(forms_of_times)
{
    ck_assert_int_eq(plmi_header_read("Time (min:sec)").form, PLMI_TIME_FORM_MIN_SEC);
    ck_assert_int_eq(plmi_header_read("time hh:mm:ss").form, PLMI_TIME_FORM_HOUR_MIN_SEC);
    ck_assert_int_eq(plmi_header_read("elapsed [hh:mm]").form, PLMI_TIME_FORM_HOUR_MIN);
    ck_assert(plmi_header_is_unit("(m)") &&
              plmi_header_is_unit("\xc2\xb0"
                                  "C") &&
              !plmi_header_is_unit("depth") && !plmi_header_is_unit(""));
}
END_TEST

/* No word stands twice in the table; every word is as plmi_tokens_split would write it. */
START_TEST(the_table_of_words)
{
    size_t count;
    const struct plmi_word *words = plmi_words(&count);
    for (size_t i = 0; i < count; i++) {
        struct plmi_tokens tokens;
        plmi_tokens_split(&tokens, words[i].word);
        ck_assert_msg(tokens.count == 1 && strcmp(tokens.token[0], words[i].word) == 0, "'%s'", words[i].word);
        for (size_t j = i + 1; j < count; j++) {
            ck_assert_msg(strcmp(words[i].word, words[j].word) != 0 || words[i].concepts == words[j].concepts,
                          "'%s' means two things", words[i].word);
        }
    }
}
END_TEST

START_TEST(looks_of_cells)
{
    static const struct {
        const char *cell;
        enum plmi_look look;
    } CELLS[] = {
        {"", PLMI_LOOK_EMPTY},
        {" - ", PLMI_LOOK_TEXT},
        {"-", PLMI_LOOK_EMPTY},
        {"n/a", PLMI_LOOK_EMPTY},
        {"12", PLMI_LOOK_NUMBER},
        {"-1.5", PLMI_LOOK_NUMBER},
        {"1,5", PLMI_LOOK_NUMBER},
        {"1e3", PLMI_LOOK_NUMBER},
        {"12:30", PLMI_LOOK_CLOCK},
        {"1:02:03.5", PLMI_LOOK_CLOCK},
        {"9:30 PM", PLMI_LOOK_CLOCK},
        {"2031-05-06", PLMI_LOOK_DATE},
        {"6.5.2031", PLMI_LOOK_DATE},
        {"05/06/31", PLMI_LOOK_DATE},
        {"2031-05-06T09:30:00+02:00", PLMI_LOOK_DATE_CLOCK},
        {"06/05/2031 9:30", PLMI_LOOK_DATE_CLOCK},
        {"abc", PLMI_LOOK_TEXT},
        {"1:2:3:4:5", PLMI_LOOK_TEXT},
        {"12m", PLMI_LOOK_NUMBER},
        {"21 \xc2\xb0\x43", PLMI_LOOK_NUMBER},
        {"45 mV", PLMI_LOOK_NUMBER},
        {"12:31 min", PLMI_LOOK_CLOCK},
        {"12 tanks", PLMI_LOOK_TEXT},
        {"12 m 30 s", PLMI_LOOK_TEXT},
        {"2031-05-06 s", PLMI_LOOK_TEXT},
        {"m", PLMI_LOOK_TEXT},
    };
    for (size_t i = 0; i < sizeof CELLS / sizeof CELLS[0]; i++) {
        ck_assert_msg(plmi_cell_look(CELLS[i].cell) == CELLS[i].look, "'%s': %d", CELLS[i].cell,
                      plmi_cell_look(CELLS[i].cell));
    }
}
END_TEST

START_TEST(times)
{
    int64_t ms = -1;
    ck_assert(plmi_elapsed_parse("75:30", false, &ms) && ms == 4530000);
    ck_assert(plmi_elapsed_parse("1:15:30", false, &ms) && ms == 4530000);
    ck_assert(plmi_elapsed_parse("1:15", true, &ms) && ms == 4500000);
    ck_assert(plmi_elapsed_parse("0:05.25", false, &ms) && ms == 5250);
    ck_assert(!plmi_elapsed_parse("1:60", false, &ms) && !plmi_elapsed_parse("1:2:60", false, &ms) &&
              !plmi_elapsed_parse("12", false, &ms));
    ck_assert(!plmi_elapsed_parse("1:2:3:4", false, &ms) && !plmi_elapsed_parse("1:2x", false, &ms) &&
              !plmi_elapsed_parse("", false, &ms));
    ck_assert(!plmi_elapsed_parse("99999999999999999999:00", false, &ms));
    ck_assert(plmi_daytime_parse("23:59:59", &ms) && ms == 86399000);
    ck_assert(plmi_daytime_parse("12:00 AM", &ms) && ms == 0);
    ck_assert(plmi_daytime_parse("12:30:00 p.m.", &ms) && ms == 45000000);
    ck_assert(plmi_daytime_parse("9:30:15,5", &ms) && ms == 34215500);
    ck_assert(!plmi_daytime_parse("24:00", &ms) && !plmi_daytime_parse("13:00 PM", &ms) &&
              !plmi_daytime_parse("9:30 xm", &ms) && !plmi_daytime_parse("9", &ms));
}
END_TEST

START_TEST(dates)
{
    int64_t days = 0;
    struct plm_stamp stamp;
    const int64_t may_6 = 22405; /* 2031-05-06: 1935792000 / 86400 */
    ck_assert(plmi_date_parse("06/05/2031", PLMI_DATE_ORDER_DMY, &days) && days == may_6);
    ck_assert(plmi_date_parse("05/06/2031", PLMI_DATE_ORDER_MDY, &days) && days == may_6);
    ck_assert(plmi_date_parse("2031-05-06", PLMI_DATE_ORDER_DMY, &days) && days == may_6);
    ck_assert(plmi_date_parse("6.5.31", PLMI_DATE_ORDER_DMY, &days) && days == may_6);
    ck_assert(plmi_date_parse("31-05-06", PLMI_DATE_ORDER_YMD, &days) && days == may_6);
    ck_assert(plmi_date_parse("20310506", PLMI_DATE_ORDER_DMY, &days) && days == may_6);
    ck_assert(!plmi_date_parse("31/02/2031", PLMI_DATE_ORDER_DMY, &days) &&
              !plmi_date_parse("06-05/2031", PLMI_DATE_ORDER_DMY, &days));
    ck_assert(!plmi_date_parse("06/05", PLMI_DATE_ORDER_DMY, &days) &&
              !plmi_date_parse("", PLMI_DATE_ORDER_DMY, &days));
    ck_assert(plmi_stamp_parse("06/05/2031 09:30", PLMI_DATE_ORDER_DMY, &stamp) &&
              stamp.local_ms == INT64_C(1935826200000) && stamp.has_clock);
    ck_assert(plmi_stamp_parse("2031-05-06T09:30:00Z", PLMI_DATE_ORDER_DMY, &stamp) && stamp.has_zone &&
              stamp.offset_min == 0);
    ck_assert(plmi_stamp_parse("06.05.2031", PLMI_DATE_ORDER_DMY, &stamp) && !stamp.has_clock);
    ck_assert(!plmi_stamp_parse("06.05.2031 noon", PLMI_DATE_ORDER_DMY, &stamp) &&
              !plmi_stamp_parse("soon", PLMI_DATE_ORDER_DMY, &stamp));
    ck_assert(plmi_date_order_parse("mdy") == PLMI_DATE_ORDER_MDY &&
              plmi_date_order_parse(NULL) == PLMI_DATE_ORDER_UNKNOWN);
}
END_TEST

START_TEST(mixes)
{
    static const struct {
        const char *name;
        double o2, he;
    } MIXES[] = {
        {"air", 0.21, 0},
        {"Luft", 0.21, 0},
        {"aire", 0.21, 0},
        {"aria", 0.21, 0},
        {"lucht", 0.21, 0},
        {"oxygen", 1, 0},
        {"O2", 1, 0},
        {"Sauerstoff", 1, 0},
        {"oxyg\xc3\xa8ne", 1, 0},
        {"ox\xc3\xadgeno", 1, 0},
        {"ossigeno", 1, 0},
        {"zuurstof", 1, 0},
        {"5", 0.05, 0},
        {"32", 0.32, 0},
        {"32%", 0.32, 0},
        {"32 % O2", 0.32, 0},
        {"EAN32", 0.32, 0},
        {"nitrox 32", 0.32, 0},
        {"Nx 50", 0.5, 0},
        {"nitrox 32/68", 0.32, 0},
        {"18/45", 0.18, 0.45},
        {"Tx18/45", 0.18, 0.45},
        {"Trimix 10/70", 0.1, 0.7},
        {"heliox 20/80", 0.2, 0.8},
        {"100", 1, 0},
        {"0.32", 0.32, 0},
        {"0,32", 0.32, 0},
        {"1.0", 1, 0},
    };
    static const char *const NONE[] = {"",    "blue",   "nitrox", "18/45/37", "70/70", "0/50", "tx 18",  "nitrox 18/45",
                                       "EAN", "air 32", "1.4",    "101",      "1",     "3",    "18.5/45"};
    double o2;
    double he;
    for (size_t i = 0; i < sizeof MIXES / sizeof MIXES[0]; i++) {
        ck_assert_msg(plmi_mix_name_parse(MIXES[i].name, &o2, &he) && o2 == MIXES[i].o2 && he == MIXES[i].he, "%s",
                      MIXES[i].name);
    }
    for (size_t i = 0; i < sizeof NONE / sizeof NONE[0]; i++) {
        ck_assert_msg(!plmi_mix_name_parse(NONE[i], &o2, &he), "%s: %g/%g", NONE[i], o2, he);
    }
}
END_TEST

START_TEST(modes)
{
    enum plm_mode mode;
    bool apnoe;
    ck_assert(plmi_mode_parse("Closed Circuit", &mode, &apnoe) && mode == PLM_MODE_CLOSED && !apnoe);
    ck_assert(plmi_mode_parse("CCR", &mode, &apnoe) && mode == PLM_MODE_CLOSED);
    ck_assert(plmi_mode_parse("bail-out", &mode, &apnoe) && mode == PLM_MODE_OPEN && !apnoe);
    ck_assert(plmi_mode_parse("semi-ferm\xc3\xa9", &mode, &apnoe) && mode == PLM_MODE_SEMICLOSED);
    ck_assert(plmi_mode_parse("apnoe", &mode, &apnoe) && apnoe);
    ck_assert(!plmi_mode_parse("", &mode, &apnoe) && !plmi_mode_parse("gauge", &mode, &apnoe));
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("names");
    tcase_add_loop_test(tests, names_of_columns, 0, (int)(sizeof NAMES / sizeof NAMES[0]));
    tcase_add_test(tests, forms_of_times);
    tcase_add_test(tests, the_table_of_words);
    tcase_add_test(tests, looks_of_cells);
    tcase_add_test(tests, times);
    tcase_add_test(tests, dates);
    tcase_add_test(tests, mixes);
    tcase_add_test(tests, modes);
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
