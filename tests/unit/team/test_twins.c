/*
 * What two recorders of one dive tell differently is counted with the better record's findings: for each severity what
 * the record has alone, and what reconciling the two finds.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <plimsoll/audit.h>
#include <plimsoll/export.h>

#include "support/made_dive.h"
#include "support/planted.h"
#include "support/suite.h"

/* The wrist's set point is entered a quarter of an hour late, which costs it decompression: a caution. Its clock is
 * three minutes off: a note. */
static const struct planted unit = {
    .recorder = "unit", .diver = "Skua", .step_s = 5, .cells = true, .low_until_s = 300};
static const struct planted wrist = {
    .recorder = "wrist", .diver = "Skua", .step_s = 5, .behind_s = 180, .low_until_s = 1200};

static char folder[64];
static struct plm_rules rules;

static void set_up(void)
{
    (void)snprintf(folder, sizeof folder, "/tmp/plimsoll-test-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
    rules = plm_rules_default();
}

static void tear_down(void)
{
    (void)unlink("unit.uddf");
    (void)unlink("wrist.uddf");
    (void)chdir("/");
    (void)rmdir(folder);
}

static void log_write(const struct planted *planted, const char *name)
{
    struct plm_dive *dive = planted_record(planted);
    struct plm_file_sink *file;
    struct plm_export *export;
    ck_assert_int_eq(plm_file_sink_open(&file, name, NULL), PLM_STATUS_OK);
    struct plm_sink sink = plm_file_sink_get(file);
    ck_assert_int_eq(plm_export_open(&export, "uddf", &sink, NULL), PLM_STATUS_OK);
    ck_assert_int_eq(plm_export_add(export, dive), PLM_STATUS_OK);
    ck_assert_int_eq(plm_export_finish(export), PLM_STATUS_OK);
    ck_assert_int_eq(plm_file_sink_finish(file), PLM_STATUS_OK);
    plm_export_free(export);
    plm_dive_free(dive);
}

static struct plm_audit *audit(const struct plm_debrief_options *debrief, size_t count)
{
    static const char *const paths[] = {"unit.uddf", "wrist.uddf"};
    const struct plm_audit_options options = plm_audit_options_default(debrief);
    struct plm_audit *audit;
    size_t rows;
    ck_assert_int_eq(plm_audit(&audit, paths, count, &options, NULL), PLM_STATUS_OK);
    (void)plm_audit_rows(audit, &rows);
    ck_assert_uint_eq(rows, count);
    return audit;
}

/* [out] how many differences of each severity reconciling finds. */
static void differences_count(int counts[3])
{
    struct plm_replay_options replay = plm_replay_options_default(&rules);
    struct plm_debriefed records[2] = {{.dive = planted_record(&unit)}, {.dive = planted_record(&wrist)}};
    const struct plm_debriefed *both[2] = {&records[0], &records[1]};
    struct plm_reconciliation *reconciliation;
    size_t pairs;
    for (int i = 0; i < 2; i++) {
        records[i].trace = made_replay(records[i].dive, &rules);
    }
    ck_assert_int_eq(plm_reconcile(&reconciliation, both, 2, &replay, NULL), PLM_STATUS_OK);
    const struct plm_reconciled_pair *pair = plm_reconciliation_pairs(reconciliation, &pairs);
    for (size_t i = 0; i < pair->count; i++) {
        counts[pair->differences[i].severity]++;
    }
    plm_reconciliation_free(reconciliation);
    for (int i = 0; i < 2; i++) {
        plm_trace_free(records[i].trace);
        plm_dive_free(records[i].dive);
    }
}

START_TEST(an_audit_of_nothing_has_no_rows)
{
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    struct plm_audit *none = audit(&options, 0);
    ck_assert_uint_eq(plm_audit_files(none), 0);
    plm_audit_free(none);
}
END_TEST

START_TEST(disagreements_count_with_the_better_record)
{
    int differ[3] = {0, 0, 0};
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.review.hold = options.review.cost = options.schedules = false;
    log_write(&unit, "unit.uddf");
    log_write(&wrist, "wrist.uddf");
    struct plm_audit *alone = audit(&options, 1), *both = audit(&options, 2);
    size_t count;
    const struct plm_audit_row *own = plm_audit_rows(alone, &count), *rows = plm_audit_rows(both, &count);
    const struct plm_audit_row *best = rows[0].other_record < 0 ? &rows[0] : &rows[1];
    differences_count(differ);
    ck_assert_int_ge(differ[PLM_SEVERITY_CAUTION], 1);
    ck_assert_int_ge(differ[PLM_SEVERITY_NOTE], 1);
    ck_assert_str_eq(best->file, "unit.uddf");
    ck_assert_uint_eq(best->serious, own->serious);
    ck_assert_uint_eq(best->caution, own->caution + (size_t)differ[PLM_SEVERITY_CAUTION]);
    ck_assert_uint_eq(best->note, own->note + (size_t)differ[PLM_SEVERITY_NOTE]);
    ck_assert_uint_eq(best->disagreements, (size_t)(differ[PLM_SEVERITY_CAUTION] + differ[PLM_SEVERITY_NOTE]));
    /* the weightiest is told: the set point */
    ck_assert(best->disagreement.kind == PLM_DIFFERENCE_SETPOINT &&
              best->disagreement.severity == PLM_SEVERITY_CAUTION);
    ck_assert_ptr_nonnull(strstr(best->disagreement.text, "wrist"));
    plm_audit_free(alone);
    plm_audit_free(both);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("twins");
    TCase *tests = tcase_create("twins");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, an_audit_of_nothing_has_no_rows);
    tcase_add_test(tests, disagreements_count_with_the_better_record);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
