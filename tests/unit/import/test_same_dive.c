/*
 * The same dive as a table, as UDDF and through gzip: the same doubles, sample by sample. The samples are written by
 * samples/make from one description, each format by the units of its own standard.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdlib.h>

#include "unit/reading.h"

static struct reading table, other;

static void check_setting(const struct plm_dive *a, uint32_t a_setting, const struct plm_dive *b, uint32_t b_setting)
{
    size_t count;
    const struct plm_setting *one = &plm_dive_settings(a, &count)[a_setting];
    const struct plm_setting *two = &plm_dive_settings(b, &count)[b_setting];
    const struct plm_mix *one_mix = &plm_dive_mixes(a, &count)[one->mix].mix;
    const struct plm_mix *two_mix = &plm_dive_mixes(b, &count)[two->mix].mix;
    ck_assert(one->mode == two->mode && memcmp(&one->setpoint_bar, &two->setpoint_bar, sizeof(double)) == 0);
    ck_assert(one_mix->o2_frac == two_mix->o2_frac && one_mix->he_frac == two_mix->he_frac &&
              one_mix->n2_frac == two_mix->n2_frac);
}

static bool same(double a, double b)
{
    return (a != a && b != b) || a == b;
}

static void check_other(const char *path, const char *format)
{
    size_t count, other_count;
    reading_init(&other);
    reading_file(&other, path);
    ck_assert_str_eq(other.format, format);
    ck_assert_int_eq(other.count, 1);
    ck_assert(!other.partial);
    const struct plm_sample *a = plm_dive_samples(table.dives[0], &count);
    const struct plm_sample *b = plm_dive_samples(other.dives[0], &other_count);
    ck_assert_uint_eq(count, other_count);
    ck_assert_uint_gt(count, 2000);
    for (size_t i = 0; i < count; i++) {
        ck_assert(a[i].time_ms == b[i].time_ms && a[i].depth_m == b[i].depth_m);
        ck_assert_msg(same(a[i].temp_c, b[i].temp_c) && same(a[i].po2_bar, b[i].po2_bar), "%s: sample %zu", path, i);
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            ck_assert_msg(same(a[i].cell_bar[cell], b[i].cell_bar[cell]), "%s: cell %d of %zu", path, cell, i);
        }
        check_setting(table.dives[0], a[i].setting, other.dives[0], b[i].setting);
    }
    reading_free(&other);
}

START_TEST(one_dive_three_ways)
{
    reading_init(&table);
    reading_file(&table, PLMI_SAMPLES_DIR "/deep-terrace.csv");
    ck_assert_int_eq(table.count, 1);
    ck_assert_str_eq(table.format, "csv");
    check_other(PLMI_SAMPLES_DIR "/deep-terrace.uddf", "uddf");
    check_other(PLMI_SAMPLES_DIR "/deep-terrace-log.gz", "csv");
    reading_free(&table);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("same dive");
    tcase_add_test(tests, one_dive_three_ways);
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
