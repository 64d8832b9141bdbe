/*
 * The ledger keeps what it is given, gives it back to the last bit, and refuses what is not a ledger.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <plimsoll/ledger_days.h>

/* SHA-256 of "abc": FIPS 180-2, appendix B.1. */
#define ABC "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

static char path[64];
static char told[4096];

static bool damaged;

static void take_diag(void *context, const struct plm_diag *diag)
{
    (void)context;
    (void)plm_diag_format(diag, told, (int)sizeof told);
    damaged = damaged || strstr(told, "the file is damaged") != NULL;
}

static const struct plm_diag_sink SINK = {take_diag, NULL};

static void setup(void)
{
    int file;
    (void)snprintf(path, sizeof path, "%s", "/tmp/plimsoll-ledger-XXXXXX");
    file = mkstemp(path);
    ck_assert_int_ge(file, 0);
    close(file);
    unlink(path);
    told[0] = '\0';
}

static void teardown(void)
{
    char beside[80];
    unlink(path);
    (void)snprintf(beside, sizeof beside, "%s-wal", path);
    unlink(beside);
    (void)snprintf(beside, sizeof beside, "%s-shm", path);
    unlink(beside);
}

static struct plm_ledger *open_ledger(void)
{
    struct plm_ledger *ledger;
    ck_assert_msg(plm_ledger_open(&ledger, path, PLM_LEDGER_MAKE, &SINK) == PLM_STATUS_OK, "%s", told);
    return ledger;
}

static struct plm_figures figures_of(int seed)
{
    struct plm_figures f = {.program = "0.1.0",
                            .rules = "gf_low_pct = 30",
                            .surface_bar = 1.0 / 3,
                            .surface_interval_s = (double)NAN,
                            .cns_pct = 0.1 * seed,
                            .end_anchor_bar = (double)NAN,
                            .otu_run_days = 2,
                            .serious = 1,
                            .caution = 2,
                            .note = 3,
                            .worst = "it was so"};
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        f.end.n2_bar[i] = 0.7 + seed / 7.0 + i / 3.0;
        f.end.he_bar[i] = 1e-17 * i;
    }
    return f;
}

/* A minute under water; several dives of one log. */
static int64_t put(struct plm_ledger *ledger, const char *diver, int64_t start_ms, int index)
{
    struct plm_ledger_log log = {ABC, "a.csv", "abc", 3};
    struct plm_exposure exposure = {.diver = diver, .span = {start_ms, 600, 60000, 1000, 59000}};
    struct plm_record record = {.log_sha256 = ABC,
                                .log_index = index,
                                .card = "[dive]\n",
                                .rules = "gf_low_pct = 30",
                                .span = exposure.span,
                                .covered_s = 60,
                                .step_s = 10,
                                .stated = {.zone = "+10:00", .surface_bar = (double)NAN, .altitude_m = 0.1}};
    struct plm_figures figures = figures_of(index);
    ck_assert_int_eq(plm_ledger_begin(ledger), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_log_put(ledger, &log), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposure_put(ledger, &exposure), PLM_STATUS_OK);
    record.exposure = exposure.id;
    ck_assert_msg(plm_ledger_record_put(ledger, &record) == PLM_STATUS_OK, "%s", told);
    ck_assert_int_eq(plm_ledger_record_choose(ledger, &record), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_figures_put(ledger, exposure.id, &figures), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_commit(ledger), PLM_STATUS_OK);
    return exposure.id;
}

static bool known(struct plm_ledger *ledger, int index)
{
    int64_t exposure;
    ck_assert_int_eq(plm_ledger_record_find(ledger, ABC, index, &exposure), PLM_STATUS_OK);
    return exposure != 0;
}

START_TEST(what_is_put_in_comes_out)
{
    struct plm_ledger *ledger = open_ledger();
    struct plm_entries *entries;
    struct plm_figures expected = figures_of(1);
    size_t count;
    put(ledger, "Skua", 300000, 3);
    put(ledger, "skua", 100000, 1);
    put(ledger, "Petrel", 200000, 2);
    ck_assert_int_eq(plm_ledger_entries(&entries, ledger, "SKUA", INT64_MIN, INT64_MAX), PLM_STATUS_OK);
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(list[0].exposure.diver, "Skua");
    ck_assert_int_eq(list[0].exposure.span.start_utc_ms, 100000);
    ck_assert_int_eq(list[1].exposure.log_index, 3);
    plm_entries_free(entries);
    plm_ledger_close(ledger);

    ck_assert_int_eq(plm_ledger_open(&ledger, path, PLM_LEDGER_READ, &SINK), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_entries(&entries, ledger, "Skua", 0, 200000), PLM_STATUS_OK);
    list = plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert(list[0].has_figures);
    ck_assert_mem_eq(&list[0].figures.end, &expected.end, sizeof expected.end);
    ck_assert(isnan(list[0].figures.surface_interval_s) && isnan(list[0].figures.end_anchor_bar));
    ck_assert_mem_eq(&list[0].figures.surface_bar, &expected.surface_bar, sizeof(double));
    ck_assert_str_eq(list[0].figures.rules, "gf_low_pct = 30");
    ck_assert_int_eq(list[0].exposure.span.offset_min, 600);
    ck_assert_uint_eq(list[0].exposure.record_count, 1);
    plm_entries_free(entries);
    ck_assert_msg(plm_ledger_check(ledger) == PLM_STATUS_OK, "%s", told);
    plm_ledger_close(ledger);
}
END_TEST

START_TEST(a_record_comes_back_whole)
{
    struct plm_ledger *ledger = open_ledger();
    struct plm_records *records;
    size_t count;
    int64_t id = put(ledger, "Skua", 1000, 1);
    ck_assert_int_eq(plm_ledger_records(&records, ledger, id), PLM_STATUS_OK);
    const struct plm_record *record = plm_records_get(records, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert(record->best && record->recorder == NULL && record->stated.start == NULL &&
              isnan(record->stated.surface_bar));
    ck_assert_str_eq(record->card, "[dive]\n");
    ck_assert_str_eq(record->stated.zone, "+10:00");
    ck_assert(record->stated.altitude_m == 0.1 && record->covered_s == 60 && record->span.wet_to_ms == 59000);
    ck_assert_str_eq(record->log_name, "a.csv");
    plm_records_free(records);
    plm_ledger_close(ledger);
}
END_TEST

/* Ten days and more: what is further back than three days without a dive does not count. */
START_TEST(what_counts_before_a_dive_is_found)
{
    static const int64_t hours[] = {0, 100, 171, 190, 191};
    struct plm_ledger *ledger = open_ledger();
    struct plm_entries *entries;
    size_t count;
    for (int i = 0; i < 5; i++) {
        put(ledger, "Skua", hours[i] * 3600000, i + 1);
    }
    ck_assert_int_eq(plm_ledger_entries_before(&entries, ledger, "Skua", 191 * 3600000), PLM_STATUS_OK);
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 4); /* 71 h apart still count; the dive 100 h before them is the last that is read */
    ck_assert_int_eq(list[count - 1].exposure.span.start_utc_ms, 190 * 3600000);
    ck_assert_int_eq(list[count - 3].exposure.span.start_utc_ms, 100 * 3600000);
    plm_entries_free(entries);
    ck_assert_int_eq(plm_ledger_entries_before(&entries, ledger, "Skua", 0), PLM_STATUS_OK);
    (void)plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 0);
    plm_entries_free(entries);
    ck_assert_int_eq(plm_ledger_entries_wet(&entries, ledger, "Skua", 100 * 3600000 + 58999, 100 * 3600000 + 70000),
                     PLM_STATUS_OK);
    (void)plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 1);
    plm_entries_free(entries);
    ck_assert_int_eq(plm_ledger_entries_wet(&entries, ledger, "Skua", 100 * 3600000 + 59000, 100 * 3600000 + 70000),
                     PLM_STATUS_OK);
    (void)plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 0);
    plm_entries_free(entries);
    plm_ledger_close(ledger);
}
END_TEST

START_TEST(three_days_apart_is_not_far)
{
    for (int longer = 0; longer <= 1; longer++) {
        struct plm_ledger *ledger = open_ledger();
        struct plm_entries *entries;
        size_t count;
        const char *diver = longer ? "Skua" : "Tern";
        put(ledger, diver, 0, 10 * longer + 1);
        put(ledger, diver, 50 * 3600000, 10 * longer + 2);
        put(ledger, diver, INT64_C(122) * 3600000 + longer, 10 * longer + 3);
        ck_assert_int_eq(plm_ledger_entries_before(&entries, ledger, diver, INT64_C(130) * 3600000), PLM_STATUS_OK);
        (void)plm_entries_get(entries, &count);
        ck_assert_uint_eq(count, longer ? 2 : 3);
        plm_entries_free(entries);
        plm_ledger_close(ledger);
    }
}
END_TEST

struct logs_seen {
    int count;
    char sha256[80], name[80];
};

static bool take_log(void *context, const char *sha256, const char *name)
{
    struct logs_seen *seen = context;
    seen->count++;
    (void)snprintf(seen->sha256, sizeof seen->sha256, "%s", sha256);
    (void)snprintf(seen->name, sizeof seen->name, "%s", name);
    return true;
}

START_TEST(logs_are_kept_by_their_hash)
{
    struct plm_ledger *ledger = open_ledger();
    void *bytes;
    size_t count;
    put(ledger, "Skua", 1000, 1);
    ck_assert(known(ledger, 1));
    ck_assert(!known(ledger, 2));
    ck_assert_int_eq(plm_ledger_log_get(ledger, ABC, &bytes, &count), PLM_STATUS_OK);
    ck_assert_uint_eq(count, 3);
    ck_assert_mem_eq(bytes, "abc", 3);
    free(bytes);
    struct logs_seen seen = {0};
    ck_assert_int_eq(plm_ledger_logs(ledger, take_log, &seen), PLM_STATUS_OK);
    ck_assert_int_eq(seen.count, 1);
    ck_assert_str_eq(seen.sha256, ABC);
    ck_assert_str_eq(seen.name, "a.csv");
    plm_ledger_close(ledger);
}
END_TEST

START_TEST(a_changed_log_is_found)
{
    struct plm_ledger *ledger = open_ledger();
    struct plm_ledger_log log = {ABC, "a.csv", "abd", 3};
    void *bytes;
    size_t count;
    ck_assert_int_eq(plm_ledger_log_put(ledger, &log), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_log_get(ledger, ABC, &bytes, &count), PLM_STATUS_INPUT);
    ck_assert_ptr_null(bytes);
    ck_assert_int_eq(plm_ledger_check(ledger), PLM_STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(told, "[ledger]"));
    plm_ledger_close(ledger);
}
END_TEST

START_TEST(undone_is_as_if_never_done)
{
    struct plm_ledger *ledger = open_ledger();
    int64_t id = put(ledger, "Skua", 1000, 1);
    ck_assert_int_eq(plm_ledger_begin(ledger), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposure_remove(ledger, id), PLM_STATUS_OK);
    ck_assert(!known(ledger, 1));
    plm_ledger_undo(ledger);
    ck_assert(known(ledger, 1));
    ck_assert_int_eq(plm_ledger_exposure_remove(ledger, id), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposure_remove(ledger, id), PLM_STATUS_INPUT);
    ck_assert_int_ne(plm_ledger_log_get(ledger, ABC, &(void *){NULL}, &(size_t){0}), PLM_STATUS_OK);
    ck_assert_int_gt(put(ledger, "Skua", 1000, 1), id);
    plm_ledger_close(ledger);
}
END_TEST

static void run_sql(const char *sql)
{
    sqlite3 *db;
    ck_assert_int_eq(sqlite3_open(path, &db), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
}

/* What SQLite itself finds: a check that a row does not keep. */
START_TEST(what_the_file_says_against_itself_is_found)
{
    struct plm_ledger *ledger = open_ledger();
    put(ledger, "Skua", 1000, 1);
    plm_ledger_close(ledger);
    run_sql("PRAGMA ignore_check_constraints = ON; UPDATE exposure SET duration_ms = -5");
    ledger = open_ledger();
    damaged = false;
    ck_assert_int_ne(plm_ledger_check(ledger), PLM_STATUS_OK);
    ck_assert_msg(damaged, "%s", told);
    plm_ledger_close(ledger);
}
END_TEST

/* Each is a fault that a sound file cannot have. */
START_TEST(what_does_not_fit_together_is_found)
{
    static const char *const faults[] = {
        "UPDATE exposure SET start_utc_ms = start_utc_ms + 1",
        "UPDATE record SET best = 0",
        "DELETE FROM figures",
        "UPDATE figures SET rules = 77",
        ("INSERT INTO exposure (diver, start_utc_ms, offset_min, duration_ms, wet_from_ms, wet_to_ms) SELECT diver, "
         "start_utc_ms + 5, 0, 9, 0, 9 FROM exposure"),
        "UPDATE log SET bytes = zeroblob(3)",
        "UPDATE record SET log = 99",
    };
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        struct plm_ledger *ledger = open_ledger();
        put(ledger, "Skua", 1000, 1);
        ck_assert_msg(plm_ledger_check(ledger) == PLM_STATUS_OK, "%s", told);
        plm_ledger_close(ledger);
        run_sql(faults[i]);
        ledger = open_ledger();
        told[0] = '\0';
        ck_assert_msg(plm_ledger_check(ledger) == PLM_STATUS_INPUT, "%s", faults[i]);
        ck_assert_ptr_nonnull(strstr(told, "[ledger]"));
        plm_ledger_close(ledger);
        teardown();
    }
}
END_TEST

static void refused(const char *why)
{
    struct plm_ledger *ledger;
    ck_assert_int_eq(plm_ledger_open(&ledger, path, PLM_LEDGER_MAKE, &SINK), PLM_STATUS_INPUT);
    ck_assert_ptr_null(ledger);
    ck_assert_msg(strstr(told, why) != NULL, "said: %s", told);
}

START_TEST(a_newer_ledger_is_left_alone)
{
    plm_ledger_close(open_ledger());
    run_sql("PRAGMA user_version = 99");
    refused("newer version");
}
END_TEST

START_TEST(another_database_is_left_alone)
{
    run_sql("CREATE TABLE other (x)");
    refused("not a ledger");
}
END_TEST

START_TEST(another_file_is_left_alone)
{
    FILE *file = fopen(path, "w");
    for (int i = 0; i < 4096; i++) {
        (void)fputs("time_s,depth_m\n", file);
    }
    fclose(file);
    refused("not a ledger");
}
END_TEST

START_TEST(a_missing_ledger_is_not_made_for_reading)
{
    struct plm_ledger *ledger;
    ck_assert_int_eq(plm_ledger_open(&ledger, path, PLM_LEDGER_READ, &SINK), PLM_STATUS_IO);
    ck_assert_int_ne(access(path, F_OK), 0);
}
END_TEST

START_TEST(days_are_narrowed_at_both_ends)
{
    const struct plm_day days[] = {{.day = 10}, {.day = 11}, {.day = 13}, {.day = 14}};
    struct plm_entry entries[4];
    memset(entries, 0, sizeof entries);
    for (int i = 0; i < 4; i++) { /* goes under water at local midnight, and an hour before that the record begins */
        entries[i].exposure.span =
            (struct plm_dive_span){(10 + i) * INT64_C(86400000) - 14 * 3600000, 660, 7200000, 3 * 3600000, 7200000};
    }
    static const struct {
        int64_t first, last;
        size_t at, days, entries;
    } rows[] = {{INT64_MIN, INT64_MAX, 0, 4, 4},
                {11, 13, 1, 2, 3},
                {11, 11, 1, 1, 1},
                {10, 12, 0, 2, 3},
                {14, 20, 3, 1, 0},
                {15, 20, 4, 0, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t day_count = 4, entry_count = 4;
        const struct plm_day *day = plm_days_within(days, &day_count, rows[i].first, rows[i].last);
        (void)plm_entries_within(entries, &entry_count, rows[i].first, rows[i].last);
        ck_assert_uint_eq(day_count, rows[i].days);
        ck_assert_uint_eq(entry_count, rows[i].entries);
        ck_assert(day_count == 0 || day == &days[rows[i].at]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ledger");
    TCase *cases = tcase_create("file");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, what_is_put_in_comes_out);
    tcase_add_test(cases, a_record_comes_back_whole);
    tcase_add_test(cases, what_counts_before_a_dive_is_found);
    tcase_add_test(cases, three_days_apart_is_not_far);
    tcase_add_test(cases, what_the_file_says_against_itself_is_found);
    tcase_add_test(cases, what_does_not_fit_together_is_found);
    tcase_add_test(cases, logs_are_kept_by_their_hash);
    tcase_add_test(cases, a_changed_log_is_found);
    tcase_add_test(cases, undone_is_as_if_never_done);
    tcase_add_test(cases, a_newer_ledger_is_left_alone);
    tcase_add_test(cases, another_database_is_left_alone);
    tcase_add_test(cases, another_file_is_left_alone);
    tcase_add_test(cases, a_missing_ledger_is_not_made_for_reading);
    tcase_add_test(cases, days_are_narrowed_at_both_ends);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
