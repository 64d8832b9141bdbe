/*
 * The traps of UDDF, one test each, in the order in which the notes on the standard number them (6.1 to 6.22).
 * Source: the standard's own documentation and its examples, as plimsoll(1) says of formats; what to do where it is
 * silent is our convention.
 * SPDX-License-Identifier: MIT
 */
#include "unit/import/uddf_pieces.h"

START_TEST(trap_01_waypoints_without_depth_or_time)
{
    read_text(OPEN_DIVE(WP("60", "10", "") "<waypoint><divetime>120</divetime><alarm>ascent</alarm></waypoint>"
                                           "<waypoint><depth>9</depth></waypoint>" WP("200", "8", "")),
              1);
    (void)samples(4);
    size_t count;
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 1 && events[0].time_ms == 120000 && strcmp(events[0].text, "ascent") == 0);
    TOLD("a waypoint without depth; only its events are kept [depth-missing]");
    TOLD("a waypoint without time; dropped [time-missing]");
    ck_assert(got.partial);
    read_text(OPEN_DIVE(WP("60", "10", "") "<waypoint><depth>9</depth></waypoint><waypoint><depth>9</depth></"
                                           "waypoint><waypoint><depth>9</depth></waypoint>"),
              0);
    TOLD("dive 1 is not read: 3 of its 6 waypoints lack depth or time");
}
END_TEST

START_TEST(trap_02_first_and_last_waypoint_not_at_the_surface)
{
    read_text(
        FILE_OF(MIXES GROUP(DIVE(WP("20", "5", "<switchmix ref='air'/>") WP("60", "20", "") WP("600", "12", "")))), 1);
    const struct plm_sample *all = samples(4);
    ck_assert(all[0].time_ms == 0 && all[0].depth_m == 0 && all[1].time_ms == 20000);
    TOLD("the record begins at 5.0 m, 20 s; a start at the surface at 0 s is put before it");
    TOLD("the record ends at 12.0 m; the dive is closed there");
    read_text(FILE_OF(MIXES GROUP(DIVE(WP("0", "5", "<switchmix ref='air'/>") WP("60", "20", "") END))), 1);
    all = samples(4);
    ck_assert(all[0].time_ms == 0 && all[0].depth_m == 0 && all[1].time_ms == 0 && all[1].depth_m == 5);
}
END_TEST

START_TEST(trap_03_times_out_of_order_or_equal)
{
    read_text(OPEN_DIVE(WP("60", "10", "") WP("60", "10", "<temperature>283.15</temperature>") WP("60", "12", "")
                            WP("50", "11", "") WP("90", "12", "")),
              1);
    const struct plm_sample *all = samples(5);
    ck_assert(all[1].depth_m == 10 && all[1].temp_c == 10 && all[2].depth_m == 12 && all[2].time_ms == 60000 &&
              all[3].time_ms == 90000);
    TOLD("time goes back by 10 s; sample dropped [time-order]");
}
END_TEST

START_TEST(trap_04_mixes_that_are_not_there)
{
    read_text(OPEN_DIVE(WP("60", "10", "<switchmix ref='nowhere'/>")), 0);
    TOLD("error: the mix 'nowhere' is not defined; the dive is not read [mix-unknown]");
    read_text(OPEN_DIVE(WP("60", "10", "<switchmix/>")), 0);
    TOLD("error: a change of mix names no mix");
    /* Another dive of the file is still read. */
    read_text(
        FILE_OF(MIXES GROUP(DIVE(START WP("60", "10", "<switchmix ref='x'/>") END) DIVE(START WP("60", "10", "") END))),
        1);
    ck_assert_int_eq(info(0)->index, 2);
    ck_assert(got.partial);
}
END_TEST

START_TEST(trap_05_modes_missing_or_misspelt)
{
    read_text(
        FILE_OF(MIXES GROUP(DIVE(WP("0", "0", "<switchmix ref='tx'/><setpo2>1.3e5</setpo2>") WP("60", "30", "") END))),
        1);
    ck_assert_int_eq(setting(1)->mode, PLM_MODE_CLOSED);
    ck_assert(!info(0)->mode_known);
    TOLD("set points or cells are recorded and no breathing mode; a closed loop is taken");
    static const char *const WORDS[] = {"closed-circuit", "CCR", "ClosedCircuit", "closedcircuit"};
    for (size_t i = 0; i < 4; i++) {
        char whole[3000];
        (void)snprintf(whole, sizeof whole,
                       FILE_OF(MIXES GROUP(DIVE("<waypoint><depth>0</depth><divetime>0</divetime><switchmix "
                                                "ref='tx'/><divemode type='%s'/></waypoint>" WP("60", "30", "") END))),
                       WORDS[i]);
        read_text(whole, 1);
        ck_assert_int_eq(setting(1)->mode, PLM_MODE_CLOSED);
    }
    read_text(OPEN_DIVE(WP("60", "10", "<divemode type='hovering'/>")), 1);
    TOLD("'hovering' is no breathing mode that is known");
    read_text(OPEN_DIVE(WP("60", "10", "<divemode type='apnea'/>")), 1);
    TOLD("breath-hold dives are not modelled");
}
END_TEST

START_TEST(trap_06_oxygen_pressures_in_bar)
{
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2 setby='user'>1.3</setpo2><measuredpo2 ref='a'>1.28</measuredpo2>")), 1);
    ck_assert(setting(1)->setpoint_bar == 1.3 && samples(3)[1].cell_bar[0] == 1.28);
    TOLD("oxygen pressures of this file are read as bar; the standard asks for pascal [unit-guessed]");
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2 setby='user'>1.3e5</setpo2><measuredpo2 ref='a'>128000</measuredpo2>")),
              1);
    ck_assert(setting(1)->setpoint_bar == 1.3 && samples(3)[1].cell_bar[0] == 1.28);
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2 setby='user'>130</setpo2>")), 1);
    TOLD("error: an oxygen pressure of 130 is neither pascal nor bar; value dropped [po2]");
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2 setby='user'>1.3e5</setpo2><measuredpo2 ref='a'>1.28</measuredpo2>")),
              1);
    TOLD("is not in the unit of the others");
    ck_assert(isnan(samples(3)[1].cell_bar[0]));
    read_text(
        FILE_OF("<gasdefinitions><mix id='tx'><o2>0.5</o2><maximumpo2>1.4</maximumpo2></mix></gasdefinitions>" GROUP(
            DIVE(WP("0", "0", "<divemode type='opencircuit'/><switchmix ref='tx'/>") WP("60", "10", "") END))),
        1);
    ck_assert(mix(0)->po2_max_bar == 1.4);
}
END_TEST

START_TEST(trap_07_temperatures_in_celsius)
{
    read_text(
        OPEN_DIVE(WP("60", "10", "<temperature>11.5</temperature>") WP("90", "10", "<temperature>120</temperature>")),
        1);
    ck_assert(samples(4)[1].temp_c == 11.5 && isnan(samples(4)[2].temp_c));
    TOLD("temperatures of this file are read as Celsius");
    TOLD("a temperature of 120 is neither kelvin nor Celsius; value dropped");
    read_text(OPEN_DIVE(WP("60", "10", "<temperature>284.65</temperature>")), 1);
    ck_assert(samples(3)[1].temp_c == 11.5);
}
END_TEST

START_TEST(trap_08_tank_pressures_in_bar)
{
    size_t count;
    read_text(OPEN_DIVE(WP("60", "10", "<tankpressure ref='t1'>182</tankpressure>")), 1);
    ck_assert(plm_dive_events(got.dives[0], &count)[0].value == 182);
    TOLD("tank pressures of this file are read as bar");
    read_text(OPEN_DIVE(WP("60", "10", "<tankpressure ref='t1'>18200000.0</tankpressure>")), 1);
    const struct plm_event *event = plm_dive_events(got.dives[0], &count);
    ck_assert(event->value == 182 && event->kind == PLM_EVENT_TANK_PRESSURE && strcmp(event->text, "t1") == 0);
}
END_TEST

#define MIX_DIVE(parts)                                                           \
    FILE_OF("<gasdefinitions><mix id='m'>" parts "</mix></gasdefinitions>" GROUP( \
        DIVE(WP("0", "0", "<divemode type='opencircuit'/><switchmix ref='m'/>") WP("60", "10", "") END)))

START_TEST(trap_09_mixes_with_parts_missing_or_in_percent)
{
    read_text(MIX_DIVE("<o2>0.32</o2>"), 1);
    ck_assert(mix(0)->mix.o2_frac == 0.32 && mix(0)->mix.he_frac == 0);
    read_text(MIX_DIVE("<n2>0.68</n2>"), 1);
    ck_assert_double_eq_tol(mix(0)->mix.o2_frac, 0.32, 1e-12);
    TOLD("tells no oxygen");
    read_text(MIX_DIVE("<o2>21</o2><n2>79</n2>"), 1);
    ck_assert(mix(0)->mix.o2_frac == 0.21);
    TOLD("read as percent");
    read_text(MIX_DIVE("<o2>0.209</o2><n2>0.79</n2>"), 1);
    read_text(MIX_DIVE("<o2>0.2</o2><n2>0.79</n2>"), 1);
    TOLD("instead of 1; nitrogen takes what is left");
    read_text(MIX_DIVE("<o2>0.2</o2><n2>0.7</n2>"), 0);
    TOLD("come to 0.9 instead of 1");
    read_text(MIX_DIVE("<he>0.5</he>"), 0);
    TOLD("neither oxygen nor nitrogen");
    read_text(MIX_DIVE("<o2>0.2</o2><ar>0.8</ar>"), 1);
    TOLD("argon");
    read_text(MIX_DIVE("<o2>0.04</o2><h2>0.96</h2>"), 0);
    TOLD("hydrogen");
    read_text(MIX_DIVE("<o2>0.7</o2><he>0.7</he>"), 0);
    ck_assert(got.partial);
}
END_TEST

START_TEST(trap_10_depths_in_feet)
{
    read_text(OPEN_DIVE(WP("10", "60", "")), 1);
    TOLD("depth changes by up to 6.0 m/s, faster than a diver: are its depths feet");
    read_text(OPEN_DIVE(WP("300", "360", "")), 1);
    TOLD("dive 1 reaches 360 m: are its depths feet? metres taken");
}
END_TEST

START_TEST(trap_11_several_dives_and_groups)
{
#define TIMED(id, when, before)                                                                                    \
    "<dive id='" id "'><informationbeforedive><divenumber>" id "</divenumber><datetime>" when "</datetime>" before \
    "</informationbeforedive><samples>" START WP("60", "10", "") END "</samples></dive>"
#define AFTER(s) "<surfaceintervalbeforedive><passedtime>" s "</passedtime></surfaceintervalbeforedive>"
    read_text(
        FILE_OF(MIXES "<profiledata><repetitiongroup id='g1'>" TIMED("11", "2031-05-06T09:00", "") TIMED(
            "12", "2031-05-06T12:10:00", AFTER("10800")) TIMED("13", "2031-05-06T15:00:00", "")
                    TIMED("14", "2031-05-06T18:00:00", AFTER("60")) "</repetitiongroup><repetitiongroup id='g2'>" TIMED(
                        "15", "2031-05-07", "<surfaceintervalbeforedive><infinity/></surfaceintervalbeforedive>")
                        TIMED("16", "2031-05-08", "") "</repetitiongroup></profiledata>"),
        6);
    ck_assert(isinf(info(0)->surface_interval_s) && info(1)->surface_interval_s == 10800);
    ck_assert(info(2)->surface_interval_s == 2 * 3600 + 40 * 60); /* 12:10:00 and 600 s to 15:00:00 */
    ck_assert(info(3)->surface_interval_s == 60);
    ck_assert(info(0)->group == 1 && info(3)->group == 1 && info(4)->group == 2 && info(5)->group == 2);
    ck_assert(isinf(info(4)->surface_interval_s) && isnan(info(5)->surface_interval_s));
    ck_assert_str_eq(info(3)->number, "14");
    ck_assert_str_eq(info(3)->id, "14");
    ck_assert(info(4)->start.known && !info(4)->start.has_clock);
    TOLD("dive 1 is the first of its group and does not say 'infinity'");
    TOLD("dive 3: the surface interval is taken from the clock, 160 min");
    TOLD("dive 4: a surface interval of 1 min is told, the clock says 170 min; the one told is taken");
    TOLD("dive 6: neither the file nor the clock tells the surface interval before it");
}
END_TEST

START_TEST(trap_12_intervals_in_odd_places)
{
#define TWO(before)                                                                                                    \
    FILE_OF(MIXES GROUP(DIVE(START WP("60", "10", "") END) "<dive id='e'>" before "<samples>" START WP("60", "10", "") \
                            END "</samples></dive>"))
    read_text(TWO("<surfaceintervalbeforedive><passedtime>infinity</passedtime></surfaceintervalbeforedive>"), 2);
    ck_assert(isinf(info(1)->surface_interval_s));
    read_text(TWO("<surfaceintervalbeforedive><passedtime> 7200.0 </passedtime></surfaceintervalbeforedive>"), 2);
    ck_assert(info(1)->surface_interval_s == 7200);
    /* The interval after a dive is another thing. */
    read_text(TWO("<informationafterdive><surfaceintervalafterdive><passedtime>99</passedtime></"
                  "surfaceintervalafterdive></informationafterdive>"),
              2);
    ck_assert(isnan(info(1)->surface_interval_s));
}
END_TEST

START_TEST(trap_13_altitude_and_surface_pressure)
{
#define SITE \
    "<divesite><site id='lake'><name>Lake</name><geography><altitude>420</altitude></geography></site></divesite>"
#define AT(before)                                                                           \
    FILE_OF(SITE MIXES GROUP("<dive id='d'><informationbeforedive><link ref='lake'/>" before \
                             "</informationbeforedive><samples>" START WP("60", "10", "") END "</samples></dive>"))
    read_text(AT(""), 1);
    ck_assert(info(0)->altitude_m == 420 && isnan(info(0)->surface_bar));
    ck_assert_str_eq(info(0)->site, "Lake");
    read_text(AT("<altitude>500</altitude>"), 1);
    ck_assert(info(0)->altitude_m == 500);
    read_text(AT("<surfacepressure>96400.0</surfacepressure>"), 1);
    ck_assert(info(0)->surface_bar == 0.964 && !diag_list_has(&got.told, "does not fit"));
    read_text(AT("<altitude>1800</altitude><surfacepressure>101000</surfacepressure>"), 1);
    ck_assert(info(0)->surface_bar == 1.01);
    TOLD("a surface pressure of 1.010 bar does not fit an altitude of 1800 m; the pressure is taken [pressure]");
    read_text(AT("<surfacepressure>7</surfacepressure>"), 1);
    ck_assert(isnan(info(0)->surface_bar));
    TOLD("a surface pressure of 7 cannot be");
}
END_TEST

START_TEST(trap_14_cns_is_shown_and_never_used)
{
    size_t count;
    read_text(OPEN_DIVE(WP("60", "10", "<cns>0.37</cns>") WP("90", "10", "<cns>41</cns>")), 1);
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 2 && events[0].kind == PLM_EVENT_CNS && events[0].value == 0.37 && events[1].value == 41);
}
END_TEST

START_TEST(trap_15_set_points_of_user_and_computer)
{
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2 setby='computer'>0.7e5</setpo2>")
                            WP("90", "30", "<setpo2 setby='user'>1.2e5</setpo2>")
                                WP("120", "30", "<setpo2 setby='computer'>1.3e5</setpo2>")
                                    WP("200", "20", "<divemode type='opencircuit'/><switchmix ref='d50'/>")
                                        WP("300", "15", "<divemode type='closedcircuit'/><switchmix ref='tx'/>")),
              1);
    ck_assert(setting(1)->setpoint_bar == 0.7 && setting(2)->setpoint_bar == 0.7 && setting(3)->setpoint_bar == 1.3);
    ck_assert(setting(5)->setpoint_bar == 1.3 && setting(5)->mode == PLM_MODE_CLOSED);
    TOLD("set points are told by user and by computer");
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2>0.7e5</setpo2>") WP("90", "30", "<setpo2>1.3e5</setpo2>")), 1);
    ck_assert(setting(1)->setpoint_bar == 0.7 && setting(2)->setpoint_bar == 1.3);
    size_t count;
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 2 && events[1].kind == PLM_EVENT_SETPOINT && events[1].value == 1.3);
    /* On open circuit it has no effect and stays for the return to the loop. */
    read_text(LOOP_DIVE(WP("60", "30",
                           "<divemode type='opencircuit'/><switchmix ref='d50'/><setpo2 setby='user'>1.1e5</setpo2>")
                            WP("90", "30", "<divemode type='closedcircuit'/><switchmix ref='tx'/>")),
              1);
    ck_assert(setting(1)->mode == PLM_MODE_OPEN && setting(2)->mode == PLM_MODE_CLOSED &&
              setting(2)->setpoint_bar == 1.1);
}
END_TEST

START_TEST(trap_16_a_mix_on_the_loop_is_the_diluent)
{
    read_text(LOOP_DIVE(WP("60", "30", "<setpo2>1.3e5</setpo2>")
                            WP("300", "20", "<divemode type='opencircuit'/><switchmix ref='d50'/>")),
              1);
    ck_assert(mix(0)->use == PLM_MIX_USE_DILUENT && mix(0)->mix.he_frac == 0.45 && !mix(0)->carried);
    ck_assert(mix(2)->carried && mix(2)->use == PLM_MIX_USE_ANY);
}
END_TEST

START_TEST(trap_17_cells_without_a_name)
{
    read_text(LOOP_DIVE(WP("60", "30", "<measuredpo2>1.2e5</measuredpo2>")), 1);
    ck_assert(samples(3)[1].cell_bar[0] == 1.2);
    read_text(LOOP_DIVE(WP("60", "30", "<measuredpo2>1.2e5</measuredpo2><measuredpo2>1.3e5</measuredpo2>")), 1);
    ck_assert(isnan(samples(3)[1].cell_bar[0]));
    TOLD("2 measured oxygen pressures tell no cell; all dropped [po2]");
    read_text(
        LOOP_DIVE(WP("60", "30", "<measuredpo2 ref='b'>1.2e5</measuredpo2><measuredpo2 ref='a'>0.6e5</measuredpo2>") WP(
            "90", "30", "<measuredpo2 ref='a'>0.61e5</measuredpo2><measuredpo2 ref='b'>1.21e5</measuredpo2>")),
        1);
    const struct plm_sample *all = samples(4);
    ck_assert(all[1].cell_bar[0] == 1.2 && all[1].cell_bar[1] == 0.6 && all[2].cell_bar[0] == 1.21 &&
              all[2].cell_bar[1] == 0.61);
    read_text(LOOP_DIVE(WP("60", "30",
                           "<measuredpo2 ref='1'>1e5</measuredpo2><measuredpo2 ref='2'>1e5</measuredpo2><measuredpo2 "
                           "ref='3'>1e5</measuredpo2>"
                           "<measuredpo2 ref='4'>1e5</measuredpo2><measuredpo2 ref='5'>1e5</measuredpo2><measuredpo2 "
                           "ref='6'>1e5</measuredpo2>")),
              1);
    TOLD("more than 5 cells; '6' dropped");
}
END_TEST

START_TEST(trap_18_ids_with_blanks_doubled_and_names_for_ids)
{
    read_text(FILE_OF("<gasdefinitions><mix id='my mix 1'><o2>0.32</o2></mix></gasdefinitions>" GROUP(
                  "<dive id='dive 543_19990406'>" INFO "<samples>" WP("0", "0", "<switchmix ref='my mix 1'/>")
                      WP("60", "10", "") END "</samples></dive>")),
              1);
    ck_assert_str_eq(info(0)->id, "dive 543_19990406");
    read_text(
        FILE_OF("<gasdefinitions><mix id='m'><o2>0.32</o2></mix><mix id='m'><o2>0.36</o2></mix></gasdefinitions>" GROUP(
            DIVE(WP("0", "0", "<switchmix ref='m'/>") WP("60", "10", "") END))),
        0);
    TOLD("the id 'm' stands for two mixes");
    read_text(OPEN_DIVE(WP("60", "10", "<switchmix ref='EAN50'/>")), 1);
    ck_assert(mix(1)->mix.o2_frac == 0.5);
    TOLD("'EAN50' is the name of a mix, not its id; that mix is taken");
    read_text(FILE_OF("<gasdefinitions><mix id='a'><name>x</name><o2>0.32</o2></mix><mix "
                      "id='b'><name>x</name><o2>0.36</o2></mix></gasdefinitions>" GROUP(
                          DIVE(WP("0", "0", "<switchmix ref='x'/>") WP("60", "10", "") END))),
              0);
}
END_TEST

START_TEST(trap_19_attributes_that_drifted)
{
    size_t count;
    read_text(
        OPEN_DIVE(WP(
            "60", "10",
            "<alarm level='2'>breath</alarm><alarm value='3'>rbt</alarm><tankpressure tankref='t'>2e7</tankpressure>")),
        1);
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert(count == 3 && events[0].value == 2 && events[1].value == 3);
    ck_assert_str_eq(events[2].text, "t");
}
END_TEST

static void read_wide(const char *text, bool big_end)
{
    static unsigned char bytes[20000];
    size_t n = 0;
    bytes[n++] = big_end ? 0xfe : 0xff;
    bytes[n++] = big_end ? 0xff : 0xfe;
    for (; *text != '\0'; text++) {
        bytes[n++] = big_end ? 0 : (unsigned char)*text;
        bytes[n++] = big_end ? (unsigned char)*text : 0;
    }
    reading_free(&got);
    reading_bytes(&got, bytes, n);
    ck_assert_int_eq(got.count, 1);
}

START_TEST(trap_20_encodings)
{
    read_wide("<uddf version='3.2.0'>" MIXES GROUP(DIVE(START WP("60", "10", "") END)) "</uddf>", false);
    read_wide("<uddf version='3.2.0'>" MIXES GROUP(DIVE(START WP("60", "10", "") END)) "</uddf>", true);
    read_text("\xef\xbb\xbf" OPEN_DIVE(WP("60", "10", "")), 1);
    read_text("<?xml version='1.0' encoding='ISO-8859-1'?><uddf>" MIXES GROUP(
                  DIVE(START WP("60", "10",
                                "<setmarker>R\xfc"
                                "ckweg</setmarker>") END)) "</uddf>",
              1);
    size_t count;
    ck_assert_str_eq(plm_dive_events(got.dives[0], &count)[0].text, "R\xc3\xbc"
                                                                    "ckweg");
    /* Declared UTF-8, Latin-1 bytes in free text: replaced and told. */
    read_text(OPEN_DIVE(WP("60", "10",
                           "<setmarker>R\xfc"
                           "ckweg</setmarker>")),
              1);
    TOLD("[encoding]");
    read_text("<uddf>" MIXES GROUP(DIVE(START WP("60", "10", "") END)) "</uddf>", 1);
    read_text(OPEN_DIVE(WP("60", "10", "<setmarker>a & b</setmarker>")), 0);
    TOLD("[xml-syntax]");
}
END_TEST

START_TEST(trap_21_what_is_not_well_formed)
{
    read_text("<uddf>" MIXES
              "\n<profiledata><repetitiongroup><dive><samples><waypoint><depth>0</depth>\n <divetime0.0</divetime>",
              0);
    TOLD("t:3:");
    TOLD("[xml-syntax]");
    read_text("<uddf>" MIXES "<profiledata><repetitiongroup><dive><samples><(waypoint>", 0);
    read_text(OPEN_DIVE(WP("60", "10", "") WP("3.0.1", "10", "") WP("90", "10", "")), 1);
    (void)samples(4);
    TOLD("divetime '3.0.1' is no number; value dropped [number]");
    /* Dives that were whole before the file breaks off are given. */
    static const char CUT[] =
        "<uddf>" MIXES "<profiledata><repetitiongroup>" DIVE(START WP("60", "10", "") END) "<dive id='e'><samples>";
    reading_free(&got);
    reading_text(&got, CUT);
    ck_assert(got.count == 1 && got.status == PLM_STATUS_INPUT && got.partial);
    TOLD("[xml-syntax]");
}
END_TEST

START_TEST(trap_22_depths_above_the_surface)
{
    read_text(OPEN_DIVE(WP("60", "-0.6", "") WP("90", "10", "") WP("120", "-2.5", "")), 1);
    const struct plm_sample *all = samples(5);
    ck_assert(all[1].depth_m == 0 && all[3].depth_m == 0);
    TOLD("a depth of -2.5 m is above the surface; 0 m taken");
    ck_assert(!diag_list_has(&got.told, "-0.6"));
}
END_TEST

int main(void)
{
    const TTest *const all[] = {
        trap_01_waypoints_without_depth_or_time,
        trap_02_first_and_last_waypoint_not_at_the_surface,
        trap_03_times_out_of_order_or_equal,
        trap_04_mixes_that_are_not_there,
        trap_05_modes_missing_or_misspelt,
        trap_06_oxygen_pressures_in_bar,
        trap_07_temperatures_in_celsius,
        trap_08_tank_pressures_in_bar,
        trap_09_mixes_with_parts_missing_or_in_percent,
        trap_10_depths_in_feet,
        trap_11_several_dives_and_groups,
        trap_12_intervals_in_odd_places,
        trap_13_altitude_and_surface_pressure,
        trap_14_cns_is_shown_and_never_used,
        trap_15_set_points_of_user_and_computer,
        trap_16_a_mix_on_the_loop_is_the_diluent,
        trap_17_cells_without_a_name,
        trap_18_ids_with_blanks_doubled_and_names_for_ids,
        trap_19_attributes_that_drifted,
        trap_20_encodings,
        trap_21_what_is_not_well_formed,
        trap_22_depths_above_the_surface,
    };
    TCase *tests = tcase_create("uddf");
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
