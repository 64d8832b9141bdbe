/*
 * Dive cards: what they tell replaces the log's word, what they do not tell leaves it, and no bad line is passed over.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/log.h>

static struct plm_rules rules;
static char told[8192];

static void take_diag(void *context, const struct plm_diag *diag)
{
    char line[1024];
    (void)context;
    (void)plm_diag_format(diag, line, (int)sizeof line);
    size_t n = strlen(told);
    (void)snprintf(told + n, sizeof told - n, "%s\n", line);
}

static const struct plm_diag_sink SINK = {take_diag, NULL};

static void setup(void)
{
    rules = plm_rules_default();
    told[0] = '\0';
}

static struct plm_card *read_card(const char *text, enum plm_status expected)
{
    struct plm_source *source;
    struct plm_card *card;
    ck_assert_int_eq(plm_source_open_memory(&source, text, strlen(text), "a.card", &rules, &SINK), PLM_STATUS_OK);
    enum plm_status status = plm_card_read(&card, source, &rules, &SINK);
    ck_assert_msg(status == expected, "status %d, said: %s", (int)status, told);
    plm_source_free(source);
    return card;
}

/* All dives of a log with the card laid over them; the n-th is returned. */
static struct plm_dive *laid(const char *log, const char *text, int n)
{
    struct plm_card *card = read_card(text, PLM_STATUS_OK);
    struct plm_log_options options = plm_log_options_default(&rules);
    struct plm_source *source;
    struct plm_log *read;
    struct plm_dive *out = NULL;
    options.card = card;
    ck_assert_int_eq(plm_source_open_memory(&source, log, strlen(log), "a.csv", &rules, &SINK), PLM_STATUS_OK);
    ck_assert_int_eq(plm_log_open_source(&read, source, &options, &SINK), PLM_STATUS_OK);
    for (int i = 1; i <= n; i++) {
        plm_dive_free(out);
        ck_assert_int_eq(plm_log_next(read, &out), PLM_STATUS_OK);
    }
    plm_log_free(read);
    plm_source_free(source);
    plm_card_free(card);
    return out;
}

static const char LOG[] = "time_s,depth_m\n0,0\n60,20\n600,20\n700,0\n";

static const struct plm_setting *setting_at(const struct plm_dive *dive, int64_t time_ms)
{
    size_t count, setting_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    size_t i = 0;
    while (i + 1 < count && samples[i + 1].time_ms <= time_ms) {
        i++;
    }
    return &settings[samples[i].setting];
}

/* Who names one mix and no change has said what was breathed; a mix for later, and two of them, say nothing of it. */
START_TEST(one_mix_is_breathed_from_the_start)
{
    static const struct {
        const char *card;
        double o2_frac;
    } trials[] = {{"[mixes]\nback = nitrox 32\n", 0.32},
                  {"[mixes]\nback = 32\n[at 5:00]\nmode = open\n", 0.32},
                  {"[mixes]\nback = 32\ndeco = 50\n", 0.21},
                  {"[mixes]\ndeco = 50 deco\n", 0.21},
                  {"[mixes]\nback = 32\n[at 5:00]\nmix = back\n", 0.21}};
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        size_t count;
        struct plm_dive *dive = laid(LOG, trials[i].card, 1);
        const struct plm_dive_mix *mix = &plm_dive_mixes(dive, &count)[setting_at(dive, 0)->mix];
        ck_assert_msg(mix->mix.o2_frac == trials[i].o2_frac, "card %zu: %g", i, mix->mix.o2_frac);
        ck_assert_msg(plm_dive_info_get(dive)->gas_known == (trials[i].o2_frac > 0.3), "card %zu", i);
        ck_assert_msg((strstr(told, "air is taken") != NULL) == (trials[i].o2_frac < 0.3), "card %zu: %s", i, told);
        plm_dive_free(dive);
        told[0] = '\0';
    }
    struct plm_dive *dive = laid("time_s,depth_m,o2_frac\n0,0,0.28\n60,20,\n600,20,\n700,0,\n", trials[0].card, 1);
    size_t count;
    ck_assert(plm_dive_mixes(dive, &count)[setting_at(dive, 0)->mix].mix.o2_frac == 0.28);
    plm_dive_free(dive);
}
END_TEST

#define UDDF(points)                                                                                                \
    "<?xml version='1.0'?><uddf version='3.2.0'><profiledata><repetitiongroup id='g'><dive id='d'><samples>" points \
    "</samples></dive></repetitiongroup></profiledata></uddf>"
#define POINT(time, depth, more) "<waypoint><depth>" depth "</depth><divetime>" time "</divetime>" more "</waypoint>"

/* A log that switches mixes and defines none takes the card's, by their names, their parts, or as there is only one. */
START_TEST(a_log_without_definitions_takes_the_mixes_of_the_card)
{
    static const struct {
        const char *log, *card, *said;
        double o2_frac, then_frac;
    } trials[] = {
        {UDDF(POINT("0", "0", "<switchmix ref='m1'/>") POINT("60", "20", "") POINT("600", "20", "<switchmix ref='M2'/>")
                  POINT("700", "0", "")),
         "[mixes]\nm1 = 21/35 diluent\nm2 = 50 deco\n", NULL, 0.21, 0.5},
        {UDDF(POINT("0", "0", "<switchmix ref='tx2135'/>") POINT("60", "20", "")
                  POINT("600", "20", "<switchmix ref='EAN50'/>") POINT("700", "0", "")),
         "[mixes]\ntx2135 = 21/35\ndeco = 50 deco\n",
         "warning: the mix 'EAN50' is not defined; the card's 'deco' is taken [mix-guessed]", 0.21, 0.5},
        {UDDF(POINT("0", "0", "<switchmix ref='x'/>") POINT("60", "20", "") POINT("600", "20", "")
                  POINT("700", "0", "")),
         "[mixes]\nback = 32\n", "the mix 'x' is not defined; the card's 'back' is taken", 0.32, 0.32},
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        size_t count;
        told[0] = '\0';
        struct plm_dive *dive = laid(trials[i].log, trials[i].card, 1);
        const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
        ck_assert_msg(mixes[setting_at(dive, 0)->mix].mix.o2_frac == trials[i].o2_frac, "log %zu", i);
        ck_assert_msg(mixes[setting_at(dive, 650000)->mix].mix.o2_frac == trials[i].then_frac, "log %zu", i);
        ck_assert_msg(count == (trials[i].o2_frac == trials[i].then_frac ? 1 : 2), "log %zu: %zu mixes", i, count);
        ck_assert_msg(trials[i].said != NULL ? strstr(told, trials[i].said) != NULL : strstr(told, "[mix") == NULL,
                      "log %zu: %s", i, told);
        ck_assert(plm_dive_info_get(dive)->gas_known);
        plm_dive_free(dive);
    }
}
END_TEST

START_TEST(mixes_that_neither_log_nor_card_names)
{
    static const char log[] =
        UDDF(POINT("0", "0", "<switchmix ref='m3'/>") POINT("60", "20", "") POINT("700", "0", ""));
    static const struct {
        const char *card, *said;
    } trials[] = {
        {"[mixes]\nm1 = 21/35\nm2 = 50\n",
         "the mix 'm3' is not defined, and the card names none so; the dive is not read"},
        {"[dive]\ndiver = Tern\n", "the mix 'm3' is not defined, nor is any other (a dive card can: [mixes])"},
    };
    for (size_t i = 0; i < 2; i++) {
        struct plm_card *card = read_card(trials[i].card, PLM_STATUS_OK);
        struct plm_log_options options = plm_log_options_default(&rules);
        struct plm_source *source;
        struct plm_log *read;
        struct plm_dive *dive;
        options.card = card;
        ck_assert_int_eq(plm_source_open_memory(&source, log, strlen(log), "a.uddf", &rules, &SINK), PLM_STATUS_OK);
        ck_assert_int_eq(plm_log_open_source(&read, source, &options, &SINK), PLM_STATUS_OK);
        ck_assert_int_eq(plm_log_next(read, &dive), PLM_STATUS_INPUT);
        ck_assert_msg(strstr(told, trials[i].said) != NULL, "%s", told);
        plm_log_free(read);
        plm_source_free(source);
        plm_card_free(card);
    }
}
END_TEST

START_TEST(a_card_tells_who_when_where)
{
    struct plm_dive *dive = laid(LOG,
                                 "[dive]\ndiver = Tern\nstart = 2031-05-06T09:30\nzone = +10:00\nsurface_bar = "
                                 "0.9\nwater = salt\nrecorder = wrist\n"
                                 "site = north terrace\nplan = p.uddf\n",
                                 1);
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    ck_assert_str_eq(info->diver, "Tern");
    ck_assert_str_eq(info->recorder, "wrist");
    ck_assert_str_eq(info->site, "north terrace");
    ck_assert(info->start.known && info->start.has_zone);
    ck_assert_int_eq(info->start.offset_min, 600);
    ck_assert_double_eq(info->surface_bar, 0.9);
    ck_assert_double_eq(info->water_kg_m3, 1025);
    ck_assert(!info->gas_known);
    ck_assert_ptr_nonnull(strstr(told, "[gas-assumed]"));
    plm_dive_free(dive);
}
END_TEST

START_TEST(changes_are_timed_and_stay)
{
    struct plm_dive *dive = laid(LOG,
                                 "[mixes]\nbottom = 10/70 diluent\nrich = 50 deco 1.6bar\n[at 0]\nmode = closed\nmix = "
                                 "bottom\nsetpoint_bar = 0.7\n"
                                 "[at 5:00]\nsetpoint_bar = 1.3\n[at 0:11:00]\nmode = open\nmix = rich\n",
                                 1);
    size_t count;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    ck_assert_int_eq(setting_at(dive, 0)->mode, PLM_MODE_CLOSED);
    ck_assert_double_eq(mixes[setting_at(dive, 0)->mix].mix.o2_frac, 0.1);
    ck_assert_double_eq(setting_at(dive, 299999)->setpoint_bar, 0.7);
    ck_assert_double_eq(setting_at(dive, 300000)->setpoint_bar, 1.3);
    ck_assert_int_eq(setting_at(dive, 660000)->mode, PLM_MODE_OPEN);
    ck_assert_double_eq(mixes[setting_at(dive, 660000)->mix].mix.o2_frac, 0.5);
    ck_assert(mixes[setting_at(dive, 660000)->mix].carried);
    ck_assert_double_eq(mixes[setting_at(dive, 660000)->mix].po2_max_bar, 1.6);
    ck_assert(plm_dive_info_get(dive)->gas_known);
    plm_dive_free(dive);
}
END_TEST

START_TEST(what_a_card_leaves_out_stays_the_logs)
{
    struct plm_dive *dive =
        laid("time_s,depth_m,mode,o2_frac,setpoint_bar\n0,0,closed,0.21,0.7\n600,20,,,1.2\n700,0,,,\n",
             "[at 0]\nmix = oxygen\n", 1);
    size_t count;
    ck_assert_int_eq(setting_at(dive, 0)->mode, PLM_MODE_CLOSED);
    ck_assert_double_eq(setting_at(dive, 0)->setpoint_bar, 0.7);
    ck_assert_double_eq(setting_at(dive, 600000)->setpoint_bar, 1.2);
    ck_assert_double_eq(plm_dive_mixes(dive, &count)[setting_at(dive, 600000)->mix].mix.o2_frac, 1.0);
    plm_dive_free(dive);
}
END_TEST

START_TEST(a_change_between_samples_lies_on_the_line)
{
    struct plm_dive *dive = laid(LOG, "[at 0:30]\nmix = 32\n", 1);
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    ck_assert_uint_eq(count, 5);
    ck_assert_int_eq(samples[1].time_ms, 30000);
    ck_assert_double_eq_tol(samples[1].depth_m, 10.0, 1e-12);
    plm_dive_free(dive);
}
END_TEST

/* Each bad line is an error that names file and line, and the card is not used. */
/* Windows-1252 has o with stroke at 0xF8 (Unicode, mappings, CP1252.TXT). */
START_TEST(a_card_is_decoded_like_a_table)
{
    struct plm_dive *dive = laid(LOG,
                                 "\xEF\xBB\xBF[dive]\r\n"
                                 "diver = Tern\r\nsite = N\xC3\xB8k\n",
                                 1);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Tern");
    ck_assert_str_eq(plm_dive_info_get(dive)->site, "N\xC3\xB8k");
    plm_dive_free(dive);
    told[0] = '\0';
    dive = laid(LOG, "[dive]\ndiver = S\xF8ren\n", 1);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "S\xC3\xB8ren");
    ck_assert_msg(strstr(told, "a.card: note: the text is WINDOWS-1252; read as that") != NULL, "%s", told);
    plm_dive_free(dive);
    told[0] = '\0';
    dive = laid(LOG, "[dive]\ndiver = T\x1b[1mern\n", 1);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "T\xEF\xBF\xBD[1mern");
    ck_assert_msg(strstr(told, "a.card:2: warning: byte 0x1b is not text") != NULL, "%s", told);
    plm_dive_free(dive);
}
END_TEST

static const struct {
    const char *text, *said;
} BAD[] = {
    {"[dive]\ndivr = Tern\n", "a.card:2: error: no key \"divr\" in [dive]; the nearest is diver [card]"},
    {"[dive]\nstart = yesterday\n", "a.card:2"},
    {"[dive]\nsurface_bar = 3\n", "from 0.4 to 1.2"},
    {"[dive]\nwater = beer\n", "salt, fresh"},
    {"[mixes]\na = 60/60\n", "a.card:2"},
    {"[mixes]\na = 18/45 sometimes\n", "diluent, carried"},
    {"[mixes]\na = air\nA = 32\n", "stands before"},
    {"[at 0]\nmode = sideways\n", "semiclosed is needed"},
    {"[at 0]\nmix = nameless\n", "from [mixes]"},
    {"[at 0]\nsetpoint_bar = 13\n", "from 0.1 to 2"},
    {"[at noon]\nmix = air\n", "runtime"},
    {"[at 1:99]\nmix = air\n", "runtime"},
    {"diver = Tern\n", "in no section"},
    {"[dive]\nTern\n", "a.card:2"},
    {"[dive\ndiver = Tern\n", "a.card:1"},
    {"[dive]\ndiver = "
     "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
     "aaaaaaaaaaa"
     "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n",
     "too long"},
    {"[dive]\ngf = 80/50\n", "two gradient factors in percent"},
    {"[dive]\ngf = 0.5/80\n", "two gradient factors in percent"},
    {"[dive]\ngf = 50/101\n", "two gradient factors in percent"},
    {"[dive]\ngf = 50\n", "two gradient factors in percent"},
    {"[dive]\ngf = 50/80\ngf = 40/70\n", "a card tells them once"},
    {"[rules]\ngf_low_pct = 20\n[dive]\ngf = 50/80\n", "a card tells them once"},
    {"[dive]\ngf = 50/80\n[rules]\ngf_low_pct = 20\n", "this rule stands before"},
    {"[rules]\ngf_low_pct = 20\n", "one gradient factor without the other"},
    {"[rules]\ngf_low_pct = 20\ngf_high_pct = 10\n", "gf_low_pct is above gf_high_pct"},
    {"[rules]\nlast_stop = 6\n", "there is no rule \"last_stop\"; the nearest is last_stop_m"},
    {"[rules]\nlast_stop_m = deep\n", "no value that this rule can have"},
    {"[mixes]\nthis name is longer than any name that a mix has ever been given = air\n", "too long"},
};

START_TEST(bad_lines_are_named)
{
    ck_assert_ptr_null(read_card(BAD[_i].text, PLM_STATUS_INPUT));
    ck_assert_msg(strstr(told, BAD[_i].said) != NULL, "said: %s", told);
}
END_TEST

START_TEST(a_card_tells_gradient_factors)
{
    struct plm_dive *dive = laid(LOG, "[dive]\ngf = 50/80\n", 1);
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    ck_assert(info->gf_low_pct == 50 && info->gf_high_pct == 80 && info->gf_by_card);
    plm_dive_free(dive);
    dive = laid(LOG, "[rules]\ngf_high_pct = 85\ngf_low_pct = 40.5\n", 1);
    info = plm_dive_info_get(dive);
    ck_assert(info->gf_low_pct == 40.5 && info->gf_high_pct == 85 && info->gf_by_card);
    plm_dive_free(dive);
}
END_TEST

/* Each of the card's rules but gradient factors, and none that was told before. */
START_TEST(a_card_tells_rules)
{
    struct plm_card *card = read_card("[rules]\nlast_stop_m = 6\nmodel = B\npo2_max_bar = 1.5\ngf_low_pct = "
                                      "20\ngf_high_pct = 90\n",
                                      PLM_STATUS_OK);
    struct plm_rules laid_over = plm_rules_default();
    struct plm_rules_stated kept = {.po2_max_bar = true};
    plm_card_rules_lay(card, &laid_over, &kept);
    ck_assert(laid_over.last_stop_m == 6 && laid_over.model == 1 && laid_over.po2_max_bar == 1.6);
    ck_assert(laid_over.gf_low_pct == rules.gf_low_pct && laid_over.gf_high_pct == rules.gf_high_pct);
    plm_card_rules_lay(card, &laid_over, NULL);
    ck_assert(laid_over.po2_max_bar == 1.5);
    plm_card_free(card);
}
END_TEST

static enum plm_status take_bytes(void *context, const void *bytes, size_t count)
{
    (void)snprintf(context, 2048, "%.*s", (int)count, (const char *)bytes);
    return PLM_STATUS_OK;
}

/* What is written of a dive says the same of a log that says nothing. */
START_TEST(a_written_card_reads_back)
{
    static const char log[] = "time_s,depth_m\n0,0\n60,9\n120,0\n";
    char written[2048];
    const struct plm_sink sink = {take_bytes, written};
    struct plm_dive *dive = laid(
        log,
        "[dive]\ndiver = Sk\303\274a\nstart = 2031-05-06T09:30:07-03:30\nrecorder = wrist 3\nsite = Deep # terrace\n"
        "surface_bar = 0.9871\nwater = 1024.3\ngf = 45.25/80\n",
        1);
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plm_card *card = read_card("[rules]\ngap_s = 90\ngf_low_pct = 10\ngf_high_pct = 20\n", PLM_STATUS_OK);
    ck_assert_int_eq(plm_card_write(info, card, &sink), PLM_STATUS_OK);
    plm_card_free(card);
    ck_assert_msg(strstr(written, "gf = 45.25/80\n\n[rules]\ngap_s = 90\n") != NULL, "%s", written);
    ck_assert_ptr_null(strstr(written, "gf_low_pct"));
    struct plm_dive *again = laid(log, written, 1);
    const struct plm_dive_info *same = plm_dive_info_get(again);
    ck_assert_str_eq(info->diver, "Sk\303\274a");
    ck_assert_str_eq(same->diver, info->diver);
    ck_assert_str_eq(same->recorder, info->recorder);
    ck_assert_str_eq(same->site, info->site);
    ck_assert_mem_eq(&same->start, &info->start, sizeof info->start);
    ck_assert(same->gf_low_pct == 45.25 && same->gf_high_pct == 80);
    ck_assert(same->surface_bar == info->surface_bar && same->water_kg_m3 == info->water_kg_m3 &&
              isnan(same->altitude_m));
    plm_dive_free(again);
    plm_dive_free(dive);
}
END_TEST

START_TEST(an_empty_card_says_nothing)
{
    struct plm_dive *dive = laid(LOG, "; nothing yet\n", 1);
    ck_assert_ptr_null(plm_dive_info_get(dive)->diver);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("card");
    TCase *cases = tcase_create("cards");
    tcase_add_checked_fixture(cases, setup, NULL);
    tcase_add_test(cases, a_card_tells_who_when_where);
    tcase_add_test(cases, one_mix_is_breathed_from_the_start);
    tcase_add_test(cases, a_log_without_definitions_takes_the_mixes_of_the_card);
    tcase_add_test(cases, mixes_that_neither_log_nor_card_names);
    tcase_add_test(cases, a_card_is_decoded_like_a_table);
    tcase_add_test(cases, changes_are_timed_and_stay);
    tcase_add_test(cases, what_a_card_leaves_out_stays_the_logs);
    tcase_add_test(cases, a_change_between_samples_lies_on_the_line);
    tcase_add_loop_test(cases, bad_lines_are_named, 0, (int)(sizeof BAD / sizeof BAD[0]));
    tcase_add_test(cases, a_card_tells_gradient_factors);
    tcase_add_test(cases, a_card_tells_rules);
    tcase_add_test(cases, an_empty_card_says_nothing);
    tcase_add_test(cases, a_written_card_reads_back);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
