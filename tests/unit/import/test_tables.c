/*
 * One dive written as a table in many dialects: all give the same samples and the same trace within the rounding of
 * their units. The tensions of a trace differ by no more than what is inspired differs: depth by 0.1 bar a metre,
 * oxygen by itself.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <plimsoll/replay.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/number.h"
#include "unit/reading.h"

/* A line of variants.tsv. */
struct variant {
    char file[64];
    double time_ms, depth_m, temp_c, po2_bar;
    char options[200];
};

static struct variant variants[200];
static int variant_count;
static struct reading canon;
static struct plm_trace *canon_trace;

static void read_manifest(void)
{
    FILE *file = fopen(PLMI_TESTS_DIR "/tables/variants.tsv", "r");
    char line[512];
    ck_assert_ptr_nonnull(file);
    while (fgets(line, (int)sizeof line, file) != NULL && variant_count < 200) {
        struct variant *one = &variants[variant_count++];
        char *at = line;
        double *numbers[] = {&one->time_ms, &one->depth_m, &one->temp_c, &one->po2_bar};
        size_t n = strcspn(at, "\t");
        memcpy(one->file, at, n);
        at += n + 1;
        for (int i = 0; i < 4; i++) {
            n = strcspn(at, "\t");
            ck_assert(plmi_number_parse(at, n, '.', numbers[i]));
            at += n + 1;
        }
        memcpy(one->options, at, strcspn(at, "\n"));
    }
    (void)fclose(file);
}

static void set_options(struct reading *reading, char *options)
{
    char *value = strchr(options, ' ');
    if (value == NULL) {
        return;
    }
    *value++ = '\0';
    if (strcmp(options, "--columns") == 0) {
        reading->options.columns = value;
    } else if (strcmp(options, "--interval") == 0) {
        ck_assert(plmi_number_parse(value, strlen(value), '.', &reading->options.interval_s));
    } else if (strcmp(options, "--zero") == 0) {
        reading->options.zero_auto = strcmp(value, "auto") == 0;
    }
}

static struct plm_trace *replayed(const struct reading *reading)
{
    struct plm_replay_options options = plm_replay_options_default(&reading->rules);
    struct plm_trace *trace = NULL;
    options.surface_bar = 1.0125;
    ck_assert_int_eq(plm_replay(&trace, reading->dives[0], &options, NULL), PLM_STATUS_OK);
    return trace;
}

static void read_one(struct reading *reading, const struct variant *variant, char *options)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/tables/%s", PLMI_TESTS_DIR, variant->file);
    reading_init(reading);
    set_options(reading, options);
    reading_file(reading, path);
    ck_assert_msg(reading->status == PLM_STATUS_END && reading->count == 1, "%s: %s, %d dives; %s", variant->file,
                  plm_status_text(reading->status), reading->count, reading->told.lines[0]);
    ck_assert_msg(!reading->partial, "%s: %s", variant->file, reading->told.lines[0]);
}

static void setup(void)
{
    char none[] = "-";
    read_manifest();
    ck_assert_int_ge(variant_count, 40);
    ck_assert_str_eq(variants[0].file, "canonical.csv");
    read_one(&canon, &variants[0], none);
    ck_assert_int_eq(canon.told.count, 0);
    canon_trace = replayed(&canon);
}

static void teardown(void)
{
    reading_free(&canon);
    plm_trace_free(canon_trace);
    canon_trace = NULL;
}

static bool near(double a, double b, double tolerance)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= tolerance + 1e-12;
}

static void compare_samples(const struct variant *variant, const struct plm_dive *dive)
{
    size_t count, want_count, settings_count;
    const struct plm_sample *want = plm_dive_samples(canon.dives[0], &want_count);
    const struct plm_sample *got = plm_dive_samples(dive, &count);
    const struct plm_setting *want_settings = plm_dive_settings(canon.dives[0], &settings_count);
    const struct plm_setting *settings = plm_dive_settings(dive, &settings_count);
    const struct plm_dive_mix *want_mixes = plm_dive_mixes(canon.dives[0], &settings_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &settings_count);
    ck_assert_msg(count == want_count, "%s: %zu samples, not %zu", variant->file, count, want_count);
    for (size_t i = 0; i < count; i++) {
        const struct plm_setting *a = &settings[got[i].setting];
        const struct plm_setting *b = &want_settings[want[i].setting];
        ck_assert_msg(fabs((double)(got[i].time_ms - want[i].time_ms)) <= variant->time_ms, "%s: time %zu",
                      variant->file, i);
        ck_assert_msg(near(got[i].depth_m, want[i].depth_m, variant->depth_m), "%s: depth %zu: %.17g, not %.17g",
                      variant->file, i, got[i].depth_m, want[i].depth_m);
        ck_assert_msg(near(got[i].temp_c, want[i].temp_c, variant->temp_c), "%s: temperature %zu", variant->file, i);
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            ck_assert_msg(near(got[i].cell_bar[cell], want[i].cell_bar[cell], variant->po2_bar), "%s: cell %d of %zu",
                          variant->file, cell, i);
        }
        ck_assert_msg(a->mode == b->mode && near(a->setpoint_bar, b->setpoint_bar, variant->po2_bar),
                      "%s: mode or set point %zu", variant->file, i);
        ck_assert_msg(near(mixes[a->mix].mix.o2_frac, want_mixes[b->mix].mix.o2_frac, 0) &&
                          near(mixes[a->mix].mix.he_frac, want_mixes[b->mix].mix.he_frac, 0),
                      "%s: mix %zu", variant->file, i);
    }
}

static void compare_traces(const struct variant *variant, const struct reading *reading)
{
    struct plm_trace *trace = replayed(reading);
    size_t count, want_count;
    const struct plm_point *got = plm_trace_points(trace, &count);
    const struct plm_point *want = plm_trace_points(canon_trace, &want_count);
    /* A late sample shifts a leg: at most 0.6 m a second here. */
    double tolerance_bar = 0.1 * variant->depth_m + variant->po2_bar + variant->time_ms / 1000.0 * 0.06;
    ck_assert_uint_eq(count, want_count);
    for (size_t i = 0; i < count; i++) {
        for (int c = 0; c < PLM_COMPARTMENTS; c++) {
            ck_assert_msg(near(got[i].tissue.n2_bar[c], want[i].tissue.n2_bar[c], tolerance_bar), "%s: N2 %d at %zu",
                          variant->file, c + 1, i);
            ck_assert_msg(near(got[i].tissue.he_bar[c], want[i].tissue.he_bar[c], tolerance_bar), "%s: He %d at %zu",
                          variant->file, c + 1, i);
        }
    }
    plm_trace_free(trace);
}

START_TEST(each_variant_is_the_same_dive)
{
    static struct reading reading;
    for (int i = 1; i < variant_count; i++) {
        char options[200];
        memcpy(options, variants[i].options, sizeof options);
        read_one(&reading, &variants[i], options);
        compare_samples(&variants[i], reading.dives[0]);
        compare_traces(&variants[i], &reading);
        reading_free(&reading);
    }
}
END_TEST

START_TEST(starts_are_told)
{
    static const char *const STARTED[] = {"preamble.csv",       "preamble-cells.csv",   "iso-stamps.csv",
                                          "date-clock-dmy.csv", "date-clock-mdy.csv",   "date-clock-points.csv",
                                          "clock-am-pm.csv",    "one-stamp-column.csv", "iso-zone.csv"};
    static struct reading reading;
    char none[] = "-";
    for (size_t i = 0; i < sizeof STARTED / sizeof STARTED[0]; i++) {
        struct variant variant = {0};
        memcpy(variant.file, STARTED[i], strlen(STARTED[i]));
        read_one(&reading, &variant, none);
        const struct plm_stamp *start = &plm_dive_info_get(reading.dives[0])->start;
        ck_assert_msg(start->known && start->has_clock && start->local_ms == INT64_C(1936741700000), "%s",
                      STARTED[i]); /* date -d '2031-05-16T23:48:20Z' +%s */
        ck_assert(start->has_zone == (strcmp(STARTED[i], "iso-zone.csv") == 0) &&
                  (!start->has_zone || start->offset_min == 660));
        reading_free(&reading);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("tables");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, each_variant_is_the_same_dive);
    tcase_add_test(tests, starts_are_told);
    Suite *suite = suite_create("import");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
