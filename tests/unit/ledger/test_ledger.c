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

#include <plimsoll/ledger.h>

/* SHA-256 of "abc": FIPS 180-2, appendix B.1. */
#define ABC "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

static char path[64];
static char told[4096];

static void take_diag(void *context, const struct plm_diag *diag)
{
    (void)context;
    (void)plm_diag_format(diag, told, (int)sizeof told);
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
    ck_assert_msg(plm_ledger_open(&ledger, path, PLM_LEDGER_WRITE, &SINK) == PLM_STATUS_OK, "%s", told);
    return ledger;
}

static struct plm_figures figures_of(int seed)
{
    struct plm_figures f = {.program = "0.1.0", .rules = "gf_low_pct = 30", .surface_bar = 1.0 / 3, .surface_interval_s = (double)NAN, .cns_pct = 0.1 * seed,
                            .serious = 1, .caution = 2, .note = 3, .worst = "it was so"};
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        f.end.n2_bar[i] = 0.7 + seed / 7.0 + i / 3.0;
        f.end.he_bar[i] = 1e-17 * i;
    }
    return f;
}

static void put(struct plm_ledger *ledger, const char *diver, int64_t start_ms, int index)
{
    struct plm_ledger_log log = {ABC, "a.csv", "abc", 3};
    struct plm_exposure exposure = {.diver = diver, .start_utc_ms = start_ms, .offset_min = 600, .duration_ms = 60000, .log_sha256 = ABC, .log_index = index};
    struct plm_record record = {.log_sha256 = ABC, .log_index = index, .card = "[dive]\n", .best = true};
    struct plm_figures figures = figures_of(index);
    ck_assert_int_eq(plm_ledger_begin(ledger), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_log_put(ledger, &log), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposure_put(ledger, &exposure), PLM_STATUS_OK);
    record.exposure = exposure.id;
    ck_assert_int_eq(plm_ledger_record_put(ledger, &record), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_figures_put(ledger, exposure.id, &figures), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_commit(ledger), PLM_STATUS_OK);
}

struct seen { int count; int64_t last_ms, id; struct plm_figures figures; char diver[32]; };

static bool see(void *context, const struct plm_exposure *exposure, const struct plm_figures *figures)
{
    struct seen *seen = context;
    seen->count++;
    ck_assert_int_le(seen->last_ms, exposure->start_utc_ms);
    seen->last_ms = exposure->start_utc_ms;
    seen->id = exposure->id;
    seen->figures = *figures;
    (void)snprintf(seen->diver, sizeof seen->diver, "%s", exposure->diver);
    return true;
}

START_TEST(what_is_put_in_comes_out)
{
    struct plm_ledger *ledger = open_ledger();
    struct seen seen = {0};
    struct plm_figures expected = figures_of(1);
    put(ledger, "Skua", 3000, 3);
    put(ledger, "skua", 1000, 1);
    put(ledger, "Petrel", 2000, 2);
    ck_assert_int_eq(plm_ledger_exposures(ledger, "SKUA", INT64_MIN, INT64_MAX, see, &seen), PLM_STATUS_OK);
    ck_assert_int_eq(seen.count, 2);
    ck_assert_str_eq(seen.diver, "Skua");
    plm_ledger_close(ledger);

    ck_assert_int_eq(plm_ledger_open(&ledger, path, PLM_LEDGER_READ, &SINK), PLM_STATUS_OK);
    seen = (struct seen){0};
    ck_assert_int_eq(plm_ledger_exposures(ledger, "Skua", 0, 2000, see, &seen), PLM_STATUS_OK);
    ck_assert_int_eq(seen.count, 1);
    ck_assert_mem_eq(&seen.figures.end, &expected.end, sizeof expected.end);
    ck_assert(isnan(seen.figures.surface_interval_s));
    ck_assert_mem_eq(&seen.figures.surface_bar, &expected.surface_bar, sizeof(double));
    ck_assert_int_eq(plm_ledger_check(ledger), PLM_STATUS_OK);
    plm_ledger_close(ledger);
}
END_TEST

START_TEST(logs_are_kept_by_their_hash)
{
    struct plm_ledger *ledger = open_ledger();
    void *bytes;
    size_t count;
    put(ledger, "Skua", 1000, 1);
    ck_assert(plm_ledger_has(ledger, ABC, 1));
    ck_assert(!plm_ledger_has(ledger, ABC, 2));
    ck_assert_int_eq(plm_ledger_log_get(ledger, ABC, &bytes, &count), PLM_STATUS_OK);
    ck_assert_uint_eq(count, 3);
    ck_assert_mem_eq(bytes, "abc", 3);
    free(bytes);
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
    struct plm_ledger_log log = {ABC, "a.csv", "abc", 3};
    struct seen seen = {0};
    put(ledger, "Skua", 1000, 1);
    ck_assert_int_eq(plm_ledger_begin(ledger), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_log_put(ledger, &log), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposures(ledger, NULL, 0, 9999, see, &seen), PLM_STATUS_OK);
    ck_assert_int_eq(plm_ledger_exposure_remove(ledger, seen.id), PLM_STATUS_OK);
    ck_assert(!plm_ledger_has(ledger, ABC, 1));
    plm_ledger_undo(ledger);
    ck_assert(plm_ledger_has(ledger, ABC, 1));
    ck_assert_int_eq(plm_ledger_exposure_remove(ledger, seen.id), PLM_STATUS_OK);
    ck_assert_int_ne(plm_ledger_log_get(ledger, ABC, &(void *){NULL}, &(size_t){0}), PLM_STATUS_OK);
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

static void refused(const char *why)
{
    struct plm_ledger *ledger;
    ck_assert_int_eq(plm_ledger_open(&ledger, path, PLM_LEDGER_WRITE, &SINK), PLM_STATUS_INPUT);
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
    for (int i = 0; i < 4096; i++)
        (void)fputs("time_s,depth_m\n", file);
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

int main(void)
{
    Suite *suite = suite_create("ledger");
    TCase *cases = tcase_create("file");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, what_is_put_in_comes_out);
    tcase_add_test(cases, logs_are_kept_by_their_hash);
    tcase_add_test(cases, a_changed_log_is_found);
    tcase_add_test(cases, undone_is_as_if_never_done);
    tcase_add_test(cases, a_newer_ledger_is_left_alone);
    tcase_add_test(cases, another_database_is_left_alone);
    tcase_add_test(cases, another_file_is_left_alone);
    tcase_add_test(cases, a_missing_ledger_is_not_made_for_reading);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
