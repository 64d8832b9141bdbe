/*
 * Real records read in place from ../shared/datasets, which are not part of the project: a time-depth record of a
 * diving fur seal, CRAN package diveMove, file data/dives.csv (Luque, Guinet, Arnould, 2002). What is expected was
 * counted in the files by eye and with awk. Says so and passes where the folder is not there.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>

#include "unit/reading.h"

#define DATASETS PLMI_TESTS_DIR "/../../shared/datasets/"

/* Samples as recorded: rows with a depth. */
static const struct {
    const char *file;
    size_t rows;
    double deepest_m;
    double seconds;
    const char *zero;
    const char *gap;
} WANT[] = {
    {DATASETS "furseal_tdr_deep_dives.csv", 277, 91, 1400, "the surface reads about 1.0 m",
     "t:13: note: a row without a depth; passed over"},
    {DATASETS "furseal_tdr_mixed_bout.csv", 451, 70, 2250, "the surface reads about 1.0 m", NULL},
    {DATASETS "furseal_tdr_startup_gaps.csv", 324, 6, 1630, "the surface reads about -3.3 m",
     "t:2: note: 14 rows without a depth, up to line 15; passed over"},
};

static int missing;

START_TEST(read_without_options)
{
    static struct reading got;
    size_t count;
    double deepest_m = 0;
    reading_init(&got);
    reading_file(&got, WANT[_i].file);
    ck_assert_int_eq(got.status, PLM_STATUS_END);
    ck_assert_int_eq(got.count, 1); /* no stay at the surface is longer than 10 min */
    ck_assert(!got.partial);
    const struct plm_sample *samples = plm_dive_samples(got.dives[0], &count);
    size_t recorded = 0;
    for (size_t i = 0; i < count; i++) {
        recorded += samples[i].line > 0;
        deepest_m = samples[i].depth_m > deepest_m ? samples[i].depth_m : deepest_m;
    }
    ck_assert_uint_eq(recorded, WANT[_i].rows);
    ck_assert(deepest_m == WANT[_i].deepest_m);
    ck_assert((double)(samples[count - 1].time_ms - samples[0].time_ms) == 1000 * WANT[_i].seconds);
    ck_assert(plm_dive_info_get(got.dives[0])->depth_step_m == 1);
    ck_assert(plm_dive_info_get(got.dives[0])->start.known);
    ck_assert_msg(diag_list_has(&got.told, WANT[_i].zero), "%s", got.told.lines[0]);
    ck_assert(WANT[_i].gap == NULL || diag_list_has(&got.told, WANT[_i].gap));
    ck_assert(diag_list_has(&got.told, "no breathing gas is recorded"));
    reading_free(&got);
}
END_TEST

int main(void)
{
    const int files = (int)(sizeof WANT / sizeof WANT[0]);
    for (int i = 0; i < files; i++) {
        FILE *file = fopen(WANT[i].file, "r");
        missing += file == NULL;
        if (file != NULL) {
            (void)fclose(file);
        }
    }
    if (missing > 0) {
        (void)printf("skipped: ../shared/datasets is not there\n");
        return EXIT_SUCCESS;
    }
    TCase *tests = tcase_create("datasets");
    tcase_add_loop_test(tests, read_without_options, 0, files);
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
