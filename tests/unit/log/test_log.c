/*
 * A log opened with what belongs to it: where card and plan come from, what is laid over its dives, and every way in
 * which the opening fails.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <plimsoll/log.h>

#include "support/suite.h"
#include "unit/diag_list.h"

static const char LOG[] = "time_s,depth_m\n0,0\n60,20\n600,20\n700,0\n";

static char folder[] = "/tmp/plimsoll-log-XXXXXX";
static struct plm_rules rules;
static struct plm_log_options options;
static struct diag_list told;
static struct plm_diag_sink sink;

/* A folder of its own for each test. */
static void begin(void)
{
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    rules = plm_rules_default();
    options = plm_log_options_default(&rules);
    sink = diag_list_sink(&told);
}

static const char *path_of(const char *name)
{
    static char paths[4][256];
    static int n;
    n = (n + 1) % 4;
    (void)snprintf(paths[n], sizeof paths[n], "%s/%s", folder, name);
    return paths[n];
}

static void put(const char *name, const char *text)
{
    FILE *file = fopen(path_of(name), "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(text, 1, strlen(text), file), strlen(text));
    ck_assert_int_eq(fclose(file), 0);
}

static void end(void)
{
    static const char *const names[] = {"a.csv", "a.card", "b.card", "plan.csv", "c/a.csv", "c/a.card", "c"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        (void)remove(path_of(names[i]));
    }
    ck_assert_int_eq(rmdir(folder), 0);
}

static struct plm_log *opened(const char *name)
{
    struct plm_log *log = NULL;
    enum plm_status status = plm_log_open(&log, path_of(name), &options, &sink);
    ck_assert_msg(status == PLM_STATUS_OK, "status %d, said: %s", (int)status,
                  told.lines[told.count > 0 ? told.count - 1 : 0]);
    return log;
}

/* The opening fails like this, with words that hold said. */
static void refused(const char *name, enum plm_status expected, const char *said)
{
    struct plm_log *log = (struct plm_log *)&rules;
    enum plm_status status = plm_log_open(&log, path_of(name), &options, &sink);
    ck_assert_msg(status == expected, "status %d, said: %s", (int)status, told.lines[0]);
    ck_assert_ptr_null(log);
    ck_assert_msg(diag_list_has(&told, said), "said: %s", told.lines[told.count > 0 ? told.count - 1 : 0]);
    ck_assert_msg(diag_list_has(&told, "error"), "no error");
}

static struct plm_dive *next(struct plm_log *log)
{
    struct plm_dive *dive = NULL;
    ck_assert_int_eq(plm_log_next(log, &dive), PLM_STATUS_OK);
    return dive;
}

START_TEST(a_log_without_anything_beside)
{
    begin();
    put("a.csv", LOG);
    struct plm_log *log = opened("a.csv");
    struct plm_dive *dive = next(log);
    ck_assert_int_eq(plm_dive_info_get(dive)->index, 1);
    ck_assert(diag_list_has(&told, "no breathing gas is recorded"));
    ck_assert_ptr_null(plm_log_card(log));
    ck_assert_ptr_null(plm_log_card_path(log));
    ck_assert_ptr_null(plm_log_plan(log));
    ck_assert_ptr_null(plm_log_plan_path(log));
    ck_assert_str_eq(plm_log_sha256(log), "");
    ck_assert_str_eq(plm_log_name(log), path_of("a.csv"));
    ck_assert_str_eq(plm_log_verdict(log)->format, "csv");
    plm_dive_free(dive);
    ck_assert_int_eq(plm_log_next(log, &dive), PLM_STATUS_END);
    ck_assert_ptr_null(dive);
    ck_assert_int_eq(plm_log_next(log, &dive), PLM_STATUS_END);
    ck_assert(!plm_log_partial(log));
    plm_log_free(log);
    end();
}
END_TEST

/* Source of the digest: coreutils sha256sum over the same bytes. */
START_TEST(the_digest_is_that_of_the_bytes)
{
    begin();
    put("a.csv", LOG);
    options.digest = true;
    struct plm_log *log = opened("a.csv");
    ck_assert_str_eq(plm_log_sha256(log), "e1583b4c2a74fc9eefb496ec5c7a9856040ad528cf313a27383c86d114825a59");
    plm_dive_free(next(log));
    plm_log_free(log);
    end();
}
END_TEST

START_TEST(the_card_beside_and_the_plan_that_it_names)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndiver = Tern\nplan = plan.csv\n[at 0]\nmix = 32\n");
    put("plan.csv", "time_s,depth_m,o2_frac\n0,0,0.32\n120,21,\n900,21,\n1000,0,\n");
    struct plm_log *log = opened("a.csv");
    struct plm_dive *dive = next(log);
    size_t count;
    ck_assert(diag_list_has(&told, "lies beside the log; its word is taken"));
    ck_assert(!diag_list_has(&told, "no breathing gas"));
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Tern");
    ck_assert_str_eq(plm_card_diver(plm_log_card(log)), "Tern");
    ck_assert_str_eq(plm_log_card_path(log), path_of("a.card"));
    ck_assert_str_eq(plm_log_plan_path(log), path_of("plan.csv"));
    ck_assert_double_eq(plm_dive_samples(plm_log_plan(log), &count)[1].depth_m, 21);
    ck_assert(!plm_log_partial(log));
    plm_dive_free(dive);
    plm_log_free(log);
    end();
}
END_TEST

/* A card and a plan that are named stand in place of those beside. */
START_TEST(what_is_named_goes_before)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndivr = Tern\n");
    put("b.card", "[dive]\ndiver = Quill\nplan = gone.csv\n");
    put("plan.csv", "time_s,depth_m,o2_frac\n0,0,0.32\n120,21,\n900,21,\n1000,0,\n");
    char card[256], plan[256];
    (void)snprintf(card, sizeof card, "%s", path_of("b.card"));
    (void)snprintf(plan, sizeof plan, "%s", path_of("plan.csv"));
    options.card_path = card;
    options.plan_path = plan;
    struct plm_log *log = opened("a.csv");
    struct plm_dive *dive = next(log);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Quill");
    ck_assert_str_eq(plm_log_plan_path(log), plan);
    plm_dive_free(dive);
    plm_log_free(log);
    end();
}
END_TEST

START_TEST(nothing_is_looked_for_where_the_log_is_alone)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndivr = Tern\n");
    options.alone = true;
    struct plm_log *log = opened("a.csv");
    ck_assert_ptr_null(plm_log_card(log));
    plm_log_free(log);
    end();
}
END_TEST

START_TEST(a_plan_is_left_where_none_is_wanted)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\nplan = gone.csv\n");
    options.without_plan = true;
    struct plm_log *log = opened("a.csv");
    ck_assert_ptr_null(plm_log_plan(log));
    ck_assert_ptr_null(plm_log_plan_path(log));
    plm_log_free(log);
    end();
}
END_TEST

/* What of a plan's file is not in the plan counts as of the log. */
START_TEST(a_plan_read_in_part)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\nplan = plan.csv\n");
    put("plan.csv", "time_s,depth_m,o2_frac\n0,0,0.32\n120,21,\n300,deep,\n900,21,\n1000,0,\n");
    struct plm_log *log = opened("a.csv");
    ck_assert(plm_log_partial(log));
    plm_log_free(log);
    end();
}
END_TEST

START_TEST(a_card_read_already)
{
    static const char text[] = "[dive]\ndiver = Tern\nplan = gone.csv\n";
    struct plm_source *source = NULL;
    struct plm_card *card = NULL;
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndivr = Tern\n");
    ck_assert_int_eq(plm_source_open_memory(&source, text, sizeof text - 1, "told", &rules, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_card_read(&card, source, &rules, &sink), PLM_STATUS_OK);
    options.card = card;
    struct plm_log *log = opened("a.csv");
    struct plm_dive *dive = next(log);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Tern");
    ck_assert_ptr_eq(plm_log_card(log), card);
    ck_assert_ptr_null(plm_log_card_path(log));
    plm_dive_free(dive);
    plm_log_free(log);
    plm_card_free(card);
    plm_source_free(source);
    end();
}
END_TEST

/* The card's start, then the caller's, then the zone: each where those before it say nothing. */
START_TEST(card_start_and_zone_in_their_order)
{
    static const struct {
        const char *card, *start, *zone;
        bool known;
        int64_t local_h; /* of the day */
        bool has_zone;
        int offset_min;
    } rows[] = {{"[dive]\nstart = 2031-05-06T09:00\n", "2031-05-06T13:00Z", "+11:00", true, 9, true, 660},
                {"[dive]\nstart = 2031-05-06T09:00+10:00\n", NULL, "+11:00", true, 9, true, 600},
                {"[dive]\nstart = 2031-05-06T09:00\nzone = +09:00\n", NULL, "+11:00", true, 9, true, 540},
                {"[dive]\nzone = +09:00\n", "2031-05-06T13:00", "+11:00", true, 13, true, 660},
                {"[dive]\nsite = wall\n", "2031-05-06T13:00Z", "+11:00", true, 13, true, 0},
                {NULL, "2031-05-06T13:00", NULL, true, 13, false, 0},
                {NULL, NULL, "+11:00", false, 0, false, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        begin();
        put("a.csv", LOG);
        if (rows[i].card != NULL) {
            put("a.card", rows[i].card);
        }
        options.start_clock = rows[i].start;
        options.zone = rows[i].zone;
        struct plm_log *log = opened("a.csv");
        struct plm_dive *dive = next(log);
        const struct plm_stamp *start = &plm_dive_info_get(dive)->start;
        ck_assert_msg(start->known == rows[i].known && start->has_zone == rows[i].has_zone, "row %zu", i);
        ck_assert_msg(!start->known || start->local_ms / 3600000 % 24 == rows[i].local_h, "row %zu", i);
        ck_assert_msg(!start->has_zone || start->offset_min == rows[i].offset_min, "row %zu", i);
        plm_dive_free(dive);
        plm_log_free(log);
        end();
    }
}
END_TEST

START_TEST(bytes_and_card_are_kept)
{
    size_t count = 1;
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndiver = Tern\n");
    struct plm_log *log = opened("a.csv");
    ck_assert_ptr_null(plm_log_bytes(log, &count));
    ck_assert_uint_eq(count, 0);
    ck_assert_ptr_null(plm_log_card_text(log));
    plm_log_free(log);
    options.keep = true;
    log = opened("a.csv");
    plm_dive_free(next(log));
    ck_assert_mem_eq(plm_log_bytes(log, &count), LOG, sizeof LOG - 1);
    ck_assert_uint_eq(count, sizeof LOG - 1);
    ck_assert_str_eq(plm_log_card_text(log), "[dive]\ndiver = Tern\n");
    ck_assert_str_eq(plm_log_name(log), path_of("a.csv"));
    plm_log_free(log);
    end();
}
END_TEST

/* A dive is told of as it was read: what is laid over it does not tell it again. */
START_TEST(a_doubt_is_told_once)
{
    int times = 0;
    begin();
    put("a.csv", "time_s,depth_m,o2_frac\n0,0,0.21\n300,200,\n600,380,\n1200,200,\n1800,0,\n");
    put("a.card", "[dive]\nstart = 2031-05-06T09:00\n");
    options.zone = "Z";
    struct plm_log *log = opened("a.csv");
    plm_dive_free(next(log));
    for (int i = 0; i < told.count; i++) {
        times += strstr(told.lines[i], "are its depths feet") != NULL;
    }
    ck_assert_int_eq(times, 1);
    plm_log_free(log);
    end();
}
END_TEST

/* A mode that neither log nor card tells is told to be missing, and counts, whether there is a card or not. */
START_TEST(what_nobody_says_is_told_after_the_card)
{
    static const struct {
        const char *card;
        bool gas, mode;
    } rows[] = {{NULL, true, true},
                {"[dive]\ndiver = Tern\n", true, true},
                {"[at 0]\nmix = air\n", false, true},
                {"[at 0]\nmix = air\nmode = closed\n", false, false}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        begin();
        put("a.csv", "time_s,depth_m,setpoint_bar\n0,0,0.7\n60,9,\n180,0,\n");
        if (rows[i].card != NULL) {
            put("a.card", rows[i].card);
        }
        struct plm_log *log = opened("a.csv");
        plm_dive_free(next(log));
        ck_assert_msg(diag_list_has(&told, "no breathing gas is recorded") == rows[i].gas, "row %zu", i);
        ck_assert_msg(diag_list_has(&told, "and no breathing mode") == rows[i].mode, "row %zu", i);
        ck_assert_msg(plm_log_partial(log) == rows[i].mode, "row %zu", i);
        plm_log_free(log);
        end();
    }
}
END_TEST

START_TEST(logs_that_cannot_be_opened)
{
    begin();
    refused("a.csv", PLM_STATUS_IO, "no such file");
    put("a.csv", "");
    refused("a.csv", PLM_STATUS_INPUT, "the input is empty");
    put("a.csv", "a day of wind, no diving\n");
    refused("a.csv", PLM_STATUS_INPUT, "a.csv");
    end();
}
END_TEST

START_TEST(cards_that_cannot_be_used)
{
    static const char gone[] = "/nowhere/b.card";
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndivr = Tern\n");
    refused("a.csv", PLM_STATUS_INPUT, "a.card:2: error: no key \"divr\"");
    options.card_path = gone;
    refused("a.csv", PLM_STATUS_IO, "/nowhere/b.card: error: cannot be opened");
    options.card_path = "-";
    refused("a.csv", PLM_STATUS_INPUT, "is standard input and no regular file");
    options.card_path = NULL;
    ck_assert_int_eq(mkdir(path_of("c"), 0700), 0);
    put("c/a.csv", LOG);
    ck_assert_int_eq(symlink("../a.card", path_of("c/a.card")), 0);
    refused("c/a.csv", PLM_STATUS_INPUT, "leads outside the folder of the log");
    end();
}
END_TEST

START_TEST(plans_that_cannot_be_used)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\nplan = plan.csv\n");
    refused("a.csv", PLM_STATUS_IO, "plan.csv: error: cannot be opened");
    put("plan.csv", "");
    refused("a.csv", PLM_STATUS_INPUT, "plan.csv: error: the input is empty");
    put("plan.csv", "time_s,depth_m\n");
    refused("a.csv", PLM_STATUS_INPUT, "plan.csv");
    put("a.card", "[dive]\nplan = /etc/passwd\n");
    refused("a.csv", PLM_STATUS_INPUT, "lies outside the folder of the card that names it");
    options.plan_path = "/nowhere/plan.csv";
    refused("a.csv", PLM_STATUS_IO, "/nowhere/plan.csv: error: cannot be opened");
    end();
}
END_TEST

/* UDDF is known by its root; a file without a dive in it is a log of none. */
START_TEST(a_plan_without_a_dive)
{
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\nplan = plan.csv\n");
    put("plan.csv", "<?xml version=\"1.0\"?>\n<uddf version=\"3.2.1\"><generator><name>t</name></generator></uddf>\n");
    refused("a.csv", PLM_STATUS_INPUT, "holds no dive");
    end();
}
END_TEST

START_TEST(starts_and_zones_that_cannot_be_read)
{
    begin();
    put("a.csv", LOG);
    options.start_clock = "2031-05-06";
    refused("a.csv", PLM_STATUS_ARGUMENT, "\"2031-05-06\" is no date and time");
    options.start_clock = NULL;
    options.zone = "eastern";
    refused("a.csv", PLM_STATUS_ARGUMENT, "\"eastern\" is no time zone");
    end();
}
END_TEST

START_TEST(a_dive_that_is_not_there)
{
    struct plm_dive *dive;
    begin();
    put("a.csv", LOG);
    struct plm_log *log = opened("a.csv");
    plm_dive_free(next(log));
    ck_assert_int_eq(plm_log_next(log, &dive), PLM_STATUS_END);
    plm_log_missing(log, 3);
    ck_assert(diag_list_has(&told, "there is no dive 3; it holds 1"));
    plm_log_missing(log, 1);
    ck_assert(diag_list_has(&told, "dive 1 cannot be read and was skipped"));
    ck_assert(plm_log_partial(log));
    plm_log_free(log);
    end();
}
END_TEST

/* Beside a source that is no file nothing lies; what options name is taken. */
START_TEST(a_source_of_the_callers_own)
{
    struct plm_source *source = NULL;
    struct plm_log *log = NULL;
    begin();
    put("a.csv", LOG);
    put("a.card", "[dive]\ndivr = Tern\n");
    put("b.card", "[dive]\ndiver = Quill\n");
    ck_assert_int_eq(plm_source_open_memory(&source, LOG, sizeof LOG - 1, path_of("a.csv"), &rules, &sink),
                     PLM_STATUS_OK);
    options.card_path = path_of("b.card");
    ck_assert_int_eq(plm_log_open_source(&log, source, &options, NULL), PLM_STATUS_OK);
    struct plm_dive *dive = next(log);
    ck_assert_str_eq(plm_dive_info_get(dive)->diver, "Quill");
    plm_dive_free(dive);
    plm_log_free(log);
    plm_source_free(source);
    end();
}
END_TEST

/* The paths that an opening would read. */
START_TEST(paths_are_found_without_reading_the_log)
{
    struct plm_log_beside beside;
    begin();
    put("a.card", "[dive]\nplan = plan.csv\n");
    put("plan.csv", "");
    ck_assert_int_eq(plm_log_beside_find(&beside, path_of("a.csv"), &options), PLM_STATUS_OK);
    ck_assert_str_eq(beside.card_path, path_of("a.card"));
    ck_assert_str_eq(beside.plan_path, path_of("plan.csv"));
    plm_log_beside_free(&beside);
    ck_assert_ptr_null(beside.card_path);
    options.plan_path = "other.csv";
    ck_assert_int_eq(plm_log_beside_find(&beside, path_of("a.csv"), &options), PLM_STATUS_OK);
    ck_assert_str_eq(beside.plan_path, "other.csv");
    plm_log_beside_free(&beside);
    options.without_plan = true;
    ck_assert_int_eq(plm_log_beside_find(&beside, path_of("a.csv"), &options), PLM_STATUS_OK);
    ck_assert_ptr_null(beside.plan_path);
    plm_log_beside_free(&beside);
    options.alone = true;
    ck_assert_int_eq(plm_log_beside_find(&beside, path_of("a.csv"), &options), PLM_STATUS_OK);
    ck_assert_ptr_null(beside.card_path);
    options.alone = false;
    ck_assert_int_eq(plm_log_beside_find(&beside, "-", &options), PLM_STATUS_OK);
    ck_assert_ptr_null(beside.card_path);
    options.card_path = "b.card";
    ck_assert_int_eq(plm_log_beside_find(&beside, "-", &options), PLM_STATUS_OK);
    ck_assert_str_eq(beside.card_path, "b.card");
    plm_log_beside_free(&beside);
    end();
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_log_without_anything_beside,
                                  the_digest_is_that_of_the_bytes,
                                  the_card_beside_and_the_plan_that_it_names,
                                  what_is_named_goes_before,
                                  nothing_is_looked_for_where_the_log_is_alone,
                                  a_plan_is_left_where_none_is_wanted,
                                  a_plan_read_in_part,
                                  a_card_read_already,
                                  card_start_and_zone_in_their_order,
                                  bytes_and_card_are_kept,
                                  a_doubt_is_told_once,
                                  what_nobody_says_is_told_after_the_card,
                                  logs_that_cannot_be_opened,
                                  cards_that_cannot_be_used,
                                  plans_that_cannot_be_used,
                                  a_plan_without_a_dive,
                                  starts_and_zones_that_cannot_be_read,
                                  a_dive_that_is_not_there,
                                  a_source_of_the_callers_own,
                                  paths_are_found_without_reading_the_log};
    plm_log_free(NULL);
    return SUITE_RUN("log", tests);
}
