/*
 * What else UDDF files do: prefixes, definitions that come late, old versions, plans, bounds, and what is refused.
 * Source: the standard's own documentation and its examples; what to do where it is silent is our convention.
 * SPDX-License-Identifier: MIT
 */
#include "unit/import/uddf_pieces.h"

START_TEST(namespaces_and_prefixes)
{
    read_text("<uddf xmlns='http://www.streit.cc/uddf/3.2/' version='3.2.1'>" MIXES GROUP(
                  DIVE(START WP("60", "10", "") END)) "</uddf>",
              1);
    read_text(
        "<u:uddf "
        "xmlns:u='http://example.org/u'><u:profiledata><u:repetitiongroup><u:dive><u:samples><u:waypoint><u:depth>0</"
        "u:depth><u:divetime>0</u:divetime>"
        "</u:waypoint><u:waypoint><u:depth>9</u:depth><u:divetime>60</u:divetime></u:waypoint></u:samples></u:dive></"
        "u:repetitiongroup></u:profiledata></u:uddf>",
        1);
    ck_assert(!info(0)->gas_known);
    TOLD("no breathing gas is recorded at its start; air is taken");
}
END_TEST

START_TEST(gases_behind_the_dives)
{
    read_text(FILE_OF(GROUP(DIVE(CLOSED WP("60", "30", "<setpo2>1.3e5</setpo2>")
                                     END)) "<divesite><site id='s'><name>S</name></site></divesite>" MIXES),
              1);
    ck_assert(mix(0)->mix.he_frac == 0.45);
    read_text(FILE_OF(GROUP(DIVE(START WP("60", "30", "<switchmix ref='none'/>") END)) MIXES), 0);
    TOLD("the mix 'none' is not defined");
}
END_TEST

START_TEST(version_2)
{
    read_text("<uddf version='2.2.0'><generator><name>w</name></generator><gasdefinitions><mix "
              "id='ean'><name>32</name><o2>0.320</o2><n2>0.680</n2><he>0</he></mix>"
              "<tankdata id='td'><mixref ref='ean'/><tankref "
              "ref='t'/></tankdata></gasdefinitions><profiledata><repetitiongroup id='r'><dive id='1'>"
              "<date><year>1999</year><month>4</month><day>6</day><dayofweek>2</dayofweek></date><time><hour>16</"
              "hour><minute>21</minute></time>"
              "<surfaceinterval><infinity/></surfaceinterval><density>1025.0</density><altitude>0</"
              "altitude><place>Reef</place><mixref ref='ean'/><samples>" WP("0", "0", "")
                  WP("60", "10", "<alarm>ascent</alarm>") END
              "</samples></dive></repetitiongroup></profiledata></uddf>",
              1);
    ck_assert(mix(0)->mix.o2_frac == 0.32 && info(0)->gas_known);
    /* date -d '1999-04-06T16:21Z' +%s */
    ck_assert(info(0)->start.known && info(0)->start.has_clock && info(0)->start.local_ms == INT64_C(923415660000));
    ck_assert(info(0)->water_kg_m3 == 1025 && info(0)->altitude_m == 0);
    ck_assert_str_eq(info(0)->site, "Reef");
    ck_assert(isinf(info(0)->surface_interval_s));
}
END_TEST

#define MODEL(id, low, high)                                                                         \
    "<buehlmann id='" id "'><gradientfactorlow>" low "</gradientfactorlow><gradientfactorhigh>" high \
    "</gradientfactorhigh></buehlmann>"
#define DIVE_LINKED(ref)                                         \
    "<dive id='d" ref "'><informationbeforedive><link ref='" ref \
    "'/></informationbeforedive><samples>" START WP("60", "10", "") END "</samples></dive>"

static void factors_are(size_t dive, double low_pct, double high_pct)
{
    const struct plm_dive_info *one = plm_dive_info_get(got.dives[dive]);
    ck_assert_msg(one->gf_low_pct == low_pct && one->gf_high_pct == high_pct, "%g/%g", one->gf_low_pct,
                  one->gf_high_pct);
}

/* The standard's documentation, 3.2.2: fractions, 0 <= low <= high <= 1. Which dive a model belongs to is told by a
 * link, as for every other definition. */
START_TEST(gradient_factors_of_the_model_that_a_dive_refers_to)
{
    read_text(FILE_OF(MIXES "<decomodel>" MODEL("a", "0.3", "0.8") MODEL("b", "0.55", "0.75") "</decomodel>" GROUP(
                  DIVE_LINKED("b") DIVE_LINKED("a") DIVE_LINKED("none"))),
              3);
    factors_are(0, 55, 75);
    factors_are(1, 30, 80);
    ck_assert(isnan(plm_dive_info_get(got.dives[2])->gf_low_pct));
    TOLD("the file has 2 decompression models with gradient factors, and dive 3 refers to none; they are not used");
    ck_assert(got.partial);
    /* one alone is that of every dive, and percent is told */
    reading_free(&got);
    read_text(
        FILE_OF(MIXES "<decomodel>" MODEL("a", "29", "80.5") "</decomodel>" GROUP(DIVE(START WP("60", "10", "") END))),
        1);
    factors_are(0, 29, 80.5);
    TOLD("a gradient factor of 29 is read as percent");
}
END_TEST

static const struct {
    const char *models, *said;
} ODD_FACTORS[] = {
    {MODEL("a", "0.8", "0.3"), "gradient factors are a low one and a high one not below it; they are left aside"},
    {MODEL("a", "0.001", "0.3"), "a gradient factor of 0 % is not within 1 to 100; it is left aside"},
    {MODEL("a", "some", "0.3"), "a gradient factor 'some' is no number; value dropped"},
    {MODEL("a", "0.3", "800"), "a gradient factor of 800 % is not within 1 to 100; it is left aside"},
};

START_TEST(gradient_factors_that_cannot_be)
{
    char whole[4000];
    (void)snprintf(whole, sizeof whole,
                   FILE_OF(MIXES "<decomodel>%s</decomodel>" GROUP(DIVE(START WP("60", "10", "") END))),
                   ODD_FACTORS[_i].models);
    read_text(whole, 1);
    ck_assert(isnan(info(0)->gf_low_pct) && isnan(info(0)->gf_high_pct));
    TOLD(ODD_FACTORS[_i].said);
    ck_assert(got.partial);
}
END_TEST

START_TEST(plans_tanks_and_the_rest_of_a_dive)
{
    reading_free(&got);
    read_text(
        FILE_OF(
            "<diver><owner id='o'><personal><firstname>Tern</firstname></personal><equipment><tank "
            "id='t'><name>stage</name></tank>"
            "<divecomputer "
            "id='c'><name>wrist</name></divecomputer></equipment></owner><buddy><personal><firstname>Other</"
            "firstname></personal></buddy></diver>"
            "<gasdefinitions><mix id='tx'><o2>0.18</o2><he>0.45</he></mix><mix "
            "id='b'><o2>0.5</o2><maximumpo2>1.6e5</maximumpo2></mix></gasdefinitions>"
            "<decomodel><buehlmann "
            "id='x'><gradientfactorlow>0.3</gradientfactorlow><gradientfactorhigh>0.8</gradientfactorhigh></"
            "buehlmann></decomodel>" GROUP(
                "<dive id='d'><informationbeforedive><surfaceintervalbeforedive><infinity/></surfaceintervalbeforedive>"
                "<plannedprofile startdivemode='closedcircuit' startmix='tx'>" WP("0", "0", "") WP("120", "40", "")
                    WP("7500", "40", "") WP("7700", "0", "") "</plannedprofile><inputprofile>" WP("0", "0", "") WP(
                        "9", "99", "") "</inputprofile></informationbeforedive>"
                                       "<tankdata><link ref='t'/><link ref='b'/></tankdata><samples>" CLOSED WP(
                                           "60", "30",
                                           "<heading>212</heading><decostop kind='mandatory' decodepth='12' "
                                           "duration='60'/><otu>3</otu><gradientfactor tissue='3'>0.31</gradientfactor>"
                                           "<nodecotime>300</nodecotime><pulserate>1.35</pulserate><setmarker>1</"
                                           "setmarker><tankpressure ref='t'>2e7</tankpressure>"
                                           "<remainingbottomtime>60</remainingbottomtime>") END
                "</samples><applicationdata><waypoint><depth>400</depth></waypoint></"
                "applicationdata></dive>") "<tablegeneration><calculateprofile><profile "
                                           "id='p'/></calculateprofile></tablegeneration>"),
        1);
    ck_assert_str_eq(info(0)->diver, "Tern");
    ck_assert_str_eq(info(0)->recorder, "wrist");
    ck_assert_ptr_null(info(0)->notes);
    ck_assert(info(0)->gf_low_pct == 30 && info(0)->gf_high_pct == 80 && !info(0)->gf_by_card);
    const struct plm_dive *plan = plm_dive_plan(got.dives[0]);
    ck_assert_ptr_nonnull(plan);
    size_t count;
    /* two hours from corner to corner are no gap */
    ck_assert(plm_dive_samples(plan, &count)[1].depth_m == 40 && count == 4);
    ck_assert_uint_eq(count, 4);
    ck_assert_int_eq(plm_dive_settings(plan, &count)[0].mode, PLM_MODE_CLOSED);
    const struct plm_dive_mix *mixes = plm_dive_mixes(got.dives[0], &count);
    ck_assert_uint_eq(count, 2);
    ck_assert(mixes[0].carried && mixes[0].po2_max_bar == 1.6 && !mixes[1].carried);
    static const struct {
        enum plm_event_kind kind;
        double value, value2;
    } WANT[] = {
        {PLM_EVENT_HEADING, 212, NAN}, {PLM_EVENT_STOP, 12, 60},
        {PLM_EVENT_OTU, 3, NAN},       {PLM_EVENT_GRADIENT, 31, 3},
        {PLM_EVENT_NO_STOP, 300, NAN}, {PLM_EVENT_PULSE, 81, NAN},
        {PLM_EVENT_MARKER, NAN, NAN},  {PLM_EVENT_TANK_PRESSURE, 200, NAN},
    };
    const struct plm_event *events = plm_dive_events(got.dives[0], &count);
    ck_assert_uint_eq(count, sizeof WANT / sizeof WANT[0]);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(events[i].kind, WANT[i].kind);
        ck_assert(isnan(WANT[i].value) ? isnan(events[i].value) : fabs(events[i].value - WANT[i].value) < 1e-12);
        ck_assert(isnan(WANT[i].value2) ? isnan(events[i].value2) : events[i].value2 == WANT[i].value2);
    }
    ck_assert_str_eq(events[1].text, "mandatory");
    ck_assert_str_eq(events[7].text, "stage");
    TOLD("recorded and not read: remainingbottomtime, 1 time");
    TOLD("tablegeneration asks a program for tables");
}
END_TEST

START_TEST(dives_without_samples)
{
    read_text(
        FILE_OF(MIXES GROUP(
            "<dive id='a'><informationafterdive><greatestdepth>18</greatestdepth></informationafterdive></dive>" DIVE(
                START WP("60", "10", "") END))),
        1);
    ck_assert_int_eq(info(0)->index, 2);
    TOLD("note: dive 1 has no samples; skipped");
    ck_assert(!got.partial);
    read_text(FILE_OF(MIXES), 0);
    TOLD("the file holds no dive");
}
END_TEST

START_TEST(bounds)
{
    got.rules.rows_max = 3;
    reading_text(&got, OPEN_DIVE(WP("60", "10", "") WP("90", "10", "")));
    ck_assert_int_eq(got.status, PLM_STATUS_LIMIT);
    TOLD("more than 3 waypoints (rule rows_max)");
    got.rules = plm_rules_default();
    got.rules.dives_max = 1;
    reading_text(&got, FILE_OF(MIXES GROUP(DIVE(START WP("60", "10", "") END) DIVE(START WP("60", "10", "") END))));
    ck_assert(got.status == PLM_STATUS_LIMIT && got.count == 1);
    TOLD("more than 1 dives (rule dives_max)");
}
END_TEST

START_TEST(more_definitions_than_any_logbook)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_puts(&text, "<uddf><gasdefinitions>");
    for (int i = 0; i < 1001; i++) {
        plmi_text_printf(&text, "<mix id='m%d'><o2>0.21</o2></mix>", i);
    }
    plmi_text_puts(&text, "</gasdefinitions></uddf>");
    reading_text(&got, text.bytes);
    ck_assert_int_eq(got.status, PLM_STATUS_LIMIT);
    TOLD("more than 1000 mixes; reading stops there [limit]");
    plmi_text_free(&text);
}
END_TEST

START_TEST(what_is_refused_by_name)
{
    reading_text(&got, "<profile udcf='1'><units>metric</units></profile>");
    ck_assert_int_eq(got.status, PLM_STATUS_INPUT);
    TOLD("it is UDCF, the predecessor of UDDF, and not read");
    reading_text(&got, "<?xml version='1.0'?><!-- x --><gpx/>");
    TOLD("no known format: the input looks like XML with the root element 'gpx'");
    reading_bytes(&got, "PK\x03\x04xxxxxxxx", 12);
    TOLD("it is a zip archive; unpack it");
    reading_text(&got, "");
    TOLD("the input is empty");
    reading_text(&got, "{\"dives\": []}");
    TOLD("the input looks like JSON");
    reading_text(&got, "%PDF-1.7 ...");
    TOLD("a PDF document");
    reading_bytes(&got, "\x00\x01\x02\x03\x04", 5);
    TOLD("binary data");
}
END_TEST

int main(void)
{
    const TTest *const all[] = {
        namespaces_and_prefixes,
        gases_behind_the_dives,
        version_2,
        plans_tanks_and_the_rest_of_a_dive,
        gradient_factors_of_the_model_that_a_dive_refers_to,
        dives_without_samples,
        bounds,
        more_definitions_than_any_logbook,
        what_is_refused_by_name,
    };
    TCase *tests = tcase_create("uddf_files");
    tcase_add_checked_fixture(tests, begin, end);
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        tcase_add_test(tests, all[i]);
    }
    tcase_add_loop_test(tests, gradient_factors_that_cannot_be, 0, (int)(sizeof ODD_FACTORS / sizeof ODD_FACTORS[0]));
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
