/*
 * Whether a reading says that something of the input is not in its dives.
 * Source: our contract in plimsoll/import.h; what is left out stands in each row, and is told.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdio.h>
#include <string.h>

#include "unit/reading.h"

#define HEAD "time_s,depth_m,temp_c\n0,0,20\n60,9,20\n"
#define TAIL "180,9,20\n240,0,20\n"

static const struct {
    const char *text;
    bool partial;
    const char *told; /* NULL: nothing is left out */
} TABLES[] = {
    {HEAD "120,9,20\n" TAIL, false, NULL},
    {HEAD "120,9,warm\n" TAIL, true, "[number]"},
    {HEAD "120,deep,20\n" TAIL, true, "[number]"},
    {HEAD "30,9,20\n" TAIL, true, "[time-order]"},
    {HEAD ",9,20\n" TAIL, true, "[time-missing]"},
    {HEAD "120,9999,20\n" TAIL, true, "[range]"},
    {HEAD "120,9,20,1\n" TAIL, true, "[csv-columns]"},
    {HEAD "120,9,\xff\n" TAIL, true, "[encoding]"},
    {"surface pressure,9 bar\n" HEAD "120,9,20\n" TAIL, true, "[range]"},
    /* A doubt is no loss: all of the table is in the dive. */
    {"time_s,depth_m\n0,0\n60,400\n600,0\n", false, "[unit-guessed]"},
};

START_TEST(tables)
{
    static struct reading got;
    reading_init(&got);
    reading_text(&got, TABLES[_i].text);
    ck_assert_msg(got.count == 1 && got.partial == TABLES[_i].partial, "row %d: %d dives, partial %d; %s", _i,
                  got.count, got.partial, got.told.lines[0]);
    ck_assert_msg(TABLES[_i].told == NULL || diag_list_has(&got.told, TABLES[_i].told), "row %d: %s", _i,
                  got.told.lines[0]);
    reading_free(&got);
}
END_TEST

#define MIX                "<mix id='a'><name>a</name><o2>0.21</o2></mix>"
#define POINT(time, depth) "<waypoint><depth>" depth "</depth><divetime>" time "</divetime></waypoint>"
#define DIVE(more)                                                                                                \
    "<dive><informationbeforedive><datetime>2031-05-06T09:30:00</datetime><surfaceintervalbeforedive><infinity/>" \
    "</surfaceintervalbeforedive></informationbeforedive><samples>"                                               \
    "<waypoint><depth>0</depth><divetime>0</divetime><divemode type='opencircuit'/><switchmix "                   \
    "ref='a'/></waypoint>" POINT("60", "9") more POINT("180", "9") POINT("240", "0") "</samples></dive>"
#define UDDF(dives)                                                                                      \
    "<uddf version='3.2.3'><gasdefinitions>" MIX "</gasdefinitions><profiledata><repetitiongroup>" dives \
    "</repetitiongroup></profiledata></uddf>"

static const struct {
    const char *text;
    int dives;
    bool partial;
    const char *told;
} FILES[] = {
    {UDDF(DIVE("")), 1, false, NULL},
    {UDDF(DIVE(POINT("120", "deep"))), 1, true, "[number]"},
    {UDDF(DIVE(POINT("30", "9"))), 1, true, "[time-order]"},
    {UDDF(DIVE("<waypoint><depth>9</depth></waypoint>")), 1, true, "[time-missing]"},
    {UDDF(DIVE("<waypoint><depth>9</depth><divetime>120</divetime><divemode type='odd'/></waypoint>")), 1, true,
     "[mode]"},
    {UDDF(DIVE("") "<dive><samples><waypoint><depth>0</depth><divetime>0</divetime><switchmix ref='b'/></waypoint>"
                   "</samples></dive>"),
     1, true, "[dive-skipped]"},
    {UDDF(DIVE("") "<dive><samples>" POINT("0", "0") POINT("60", "0") "</samples></dive>"), 1, true, "[dive-skipped]"},
};

START_TEST(uddf)
{
    static struct reading got;
    reading_init(&got);
    reading_text(&got, FILES[_i].text);
    ck_assert_msg(got.count == FILES[_i].dives && got.partial == FILES[_i].partial,
                  "row %d: %d dives, partial %d; %s; %s", _i, got.count, got.partial, got.told.lines[0],
                  got.told.lines[1]);
    ck_assert_msg(FILES[_i].told == NULL || diag_list_has(&got.told, FILES[_i].told), "row %d: %s", _i,
                  got.told.lines[0]);
    reading_free(&got);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("partial");
    tcase_add_loop_test(tests, tables, 0, (int)(sizeof TABLES / sizeof TABLES[0]));
    tcase_add_loop_test(tests, uddf, 0, (int)(sizeof FILES / sizeof FILES[0]));
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? 0 : 1;
}
