/*
 * Two recorders of one diver: what they tell differently is found, timed and weighed; gaps are filled from the other.
 * The dives are made here; what is planted is the truth that the test holds against.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/dive_builder.h>
#include <plimsoll/reconcile.h>

/* How one recorder saw the dive. */
struct recorder {
    const char *name, *diver;
    double step_s, offset_s, switch_s, gap_from_s, gap_to_s, surface_bar, bottom_m;
    bool cells;
};

static double profile_m(double t, double bottom_m)
{
    static const double times[] = {0, 240, 1800, 2160, 2400, 2460, 3300, 3360, 5400, 5460};
    const double depths[] = {0, bottom_m, bottom_m, 24, 24, 12, 12, 6, 6, 0};
    if (t <= 0 || t >= 5460) {
        return 0;
    }
    size_t i = 0;
    while (t > times[i + 1]) {
        i++;
    }
    double level = depths[i] + (depths[i + 1] - depths[i]) * (t - times[i]) / (times[i + 1] - times[i]);
    return level < 2 ? level : level + 0.4 * sin(t / 17.0) * sin(t / 41.0 + bottom_m);
}

static struct plm_debriefed record(const struct recorder *r, const struct plm_replay_options *options)
{
    struct plm_debriefed out = {0};
    struct plm_dive_builder *builder = plm_dive_builder_new(r->name, options->rules, NULL);
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    uint32_t mix;
    info->recorder = plm_dive_builder_text(builder, r->name);
    info->diver = plm_dive_builder_text(builder, r->diver);
    info->surface_bar = r->surface_bar;
    info->start =
        (struct plm_stamp){.local_ms = 1930000000000 + (int64_t)(r->offset_s * 1000), .known = true, .has_clock = true};
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 0.15, 0.50, 0, &mix), PLM_STATUS_OK);
    plm_dive_builder_mode(builder, PLM_MODE_CLOSED, 0);
    plm_dive_builder_switch(builder, mix, 0);
    for (double t = 0; t <= 5500; t += r->step_s) {
        struct plm_sample sample = {.time_ms = (int64_t)llround(t * 1000), .temp_c = NAN, .po2_bar = NAN};
        if (t > r->gap_from_s && t < r->gap_to_s) {
            continue;
        }
        plm_dive_builder_setpoint(builder, t < r->switch_s ? 0.7 : 1.3, 0);
        for (int i = 0; i < PLM_CELLS; i++) {
            sample.cell_bar[i] = r->cells && i < 3 && t > 60 ? (t < 600 ? 0.7 : 1.29) : (double)NAN;
        }
        sample.depth_m = round(10 * profile_m(t, r->bottom_m)) / 10;
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_dive_builder_finish(builder, &out.dive), PLM_STATUS_OK);
    ck_assert_int_eq(plm_replay(&out.trace, out.dive, options, NULL), PLM_STATUS_OK);
    return out;
}

static void forget(struct plm_debriefed *debriefed)
{
    plm_trace_free(debriefed->trace);
    plm_dive_free(debriefed->dive);
}

static const struct recorder UNIT = {"unit", "Skua", 5, 0, 600, 1e9, 1e9, 1.010, 60, true};
static const struct recorder WRIST = {"wrist", "Skua", 2, 90, 1500, 2900, 3200, 1.002, 60, false};

static const struct plm_difference *find(const struct plm_reconciled_pair *pair, enum plm_difference_kind kind)
{
    for (size_t i = 0; i < pair->count; i++) {
        if (pair->differences[i].kind == kind) {
            return &pair->differences[i];
        }
    }
    return NULL;
}

static struct plm_rules rules;
static struct plm_replay_options options;

static struct plm_reconciliation *reconcile(const struct plm_debriefed *a, const struct plm_debriefed *b)
{
    const struct plm_debriefed *records[2] = {a, b};
    struct plm_reconciliation *r;
    ck_assert_int_eq(plm_reconcile(&r, records, 2, &options, NULL), PLM_STATUS_OK);
    return r;
}

static void setup(void)
{
    rules = plm_rules_default();
    options = plm_replay_options_default(&rules);
}

START_TEST(raises_recorders_disagree)
{
    struct plm_debriefed a = record(&UNIT, &options), b = record(&WRIST, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    size_t count;
    const struct plm_reconciled_pair *pair = plm_reconciliation_pairs(r, &count);
    const struct plm_difference *d = find(pair, PLM_DIFFERENCE_SETPOINT);
    ck_assert_uint_eq(count, 1);
    ck_assert(plm_reconciliation_same_dive(r));
    ck_assert_ptr_nonnull(d);
    ck_assert_double_eq_tol(d->from_s, 600, 5);
    ck_assert_double_eq_tol(d->to_s, 1500, 5);
    /* Less oxygen on the bottom means more inert gas: a deeper ceiling and more decompression. */
    ck_assert_double_gt(d->ceiling_m, 0.5);
    ck_assert_double_gt(d->decompression_min, 2.0);
    ck_assert_ptr_nonnull(strstr(d->text, "0.70"));
    ck_assert_ptr_nonnull(strstr(d->text, "wrist"));
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

START_TEST(swapped_records_weigh_the_other_way)
{
    struct plm_debriefed a = record(&WRIST, &options), b = record(&UNIT, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    size_t count;
    const struct plm_difference *d = find(plm_reconciliation_pairs(r, &count), PLM_DIFFERENCE_SETPOINT);
    ck_assert_ptr_nonnull(d);
    ck_assert_double_lt(d->ceiling_m, -0.5);
    ck_assert_double_lt(d->decompression_min, -2.0);
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

START_TEST(clock_surface_gap_and_cells_are_told)
{
    struct plm_debriefed a = record(&UNIT, &options), b = record(&WRIST, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    size_t count;
    const struct plm_reconciled_pair *pair = plm_reconciliation_pairs(r, &count);
    ck_assert_double_eq_tol(pair->alignment.clock_offset_s, -90, 1);
    ck_assert_ptr_nonnull(find(pair, PLM_DIFFERENCE_CLOCK));
    ck_assert_ptr_nonnull(find(pair, PLM_DIFFERENCE_SURFACE));
    ck_assert_ptr_nonnull(find(pair, PLM_DIFFERENCE_MEASURED));
    const struct plm_difference *gap = find(pair, PLM_DIFFERENCE_GAP);
    ck_assert_ptr_nonnull(gap);
    ck_assert_double_eq_tol(gap->from_s, 2900, 6);
    ck_assert_ptr_nonnull(strstr(gap->text, "unit has them"));
    ck_assert_ptr_null(find(pair, PLM_DIFFERENCE_DIVER));
    ck_assert_ptr_null(find(pair, PLM_DIFFERENCE_MIX));
    ck_assert_ptr_null(find(pair, PLM_DIFFERENCE_DEPTH));
    ck_assert_uint_eq(plm_reconciliation_best(r), 0);
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

START_TEST(spares_recorders_disagree)
{
    struct plm_debriefed a = record(&UNIT, &options);
    struct plm_reconciliation *r = reconcile(&a, &a);
    size_t count;
    const struct plm_reconciled_pair *pair = plm_reconciliation_pairs(r, &count);
    ck_assert(pair->alignment.same_dive);
    ck_assert_uint_eq(pair->count, 0);
    ck_assert_double_eq_tol(pair->alignment.clock_offset_s, 0, 1e-3);
    ck_assert_ptr_nonnull(strstr(plm_reconciliation_verdict(r), "equally complete"));
    plm_reconciliation_free(r);
    forget(&a);
}
END_TEST

START_TEST(gaps_are_filled_and_their_source_is_kept)
{
    struct recorder holed = UNIT;
    holed.gap_from_s = 3400;
    holed.gap_to_s = 3600;
    struct plm_debriefed a = record(&holed, &options), b = record(&WRIST, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    struct plm_dive *merged;
    unsigned char *from;
    size_t count, before, filled = 0;
    ck_assert_int_eq(plm_reconciliation_merge(&merged, &from, r, &rules, NULL), PLM_STATUS_OK);
    const struct plm_sample *samples = plm_dive_samples(merged, &count);
    const struct plm_debriefed *best = plm_reconciliation_best(r) ? &b : &a;
    (void)plm_dive_samples(best->dive, &before);
    ck_assert_uint_gt(count, before);
    for (size_t i = 0; i < count; i++) {
        filled += from[i] != plm_reconciliation_best(r);
    }
    ck_assert_uint_eq(filled, count - before);
    for (size_t i = 1; i < count; i++) {
        ck_assert_int_le(samples[i].time_ms - samples[i - 1].time_ms, 60000);
    }
    ck_assert(!isnan(samples[count / 2].cell_bar[0]));
    free(from);
    plm_dive_free(merged);
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

START_TEST(another_dive_is_told_with_the_evidence)
{
    struct recorder elsewhere = WRIST;
    elsewhere.bottom_m = 41;
    elsewhere.diver = "Petrel";
    struct plm_debriefed a = record(&UNIT, &options), b = record(&elsewhere, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    struct plm_dive *merged;
    ck_assert(!plm_reconciliation_same_dive(r));
    ck_assert_ptr_nonnull(strstr(plm_reconciliation_verdict(r), "is not the dive"));
    ck_assert_int_eq(plm_reconciliation_merge(&merged, NULL, r, &rules, NULL), PLM_STATUS_ARGUMENT);
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

START_TEST(two_names_on_one_dive_are_told)
{
    struct recorder renamed = WRIST;
    renamed.diver = "Petrel";
    struct plm_debriefed a = record(&UNIT, &options), b = record(&renamed, &options);
    struct plm_reconciliation *r = reconcile(&a, &b);
    size_t count;
    ck_assert_ptr_nonnull(find(plm_reconciliation_pairs(r, &count), PLM_DIFFERENCE_DIVER));
    plm_reconciliation_free(r);
    forget(&a);
    forget(&b);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("reconcile");
    TCase *cases = tcase_create("pairs");
    tcase_add_checked_fixture(cases, setup, NULL);
    tcase_add_test(cases, raises_recorders_disagree);
    tcase_add_test(cases, swapped_records_weigh_the_other_way);
    tcase_add_test(cases, clock_surface_gap_and_cells_are_told);
    tcase_add_test(cases, spares_recorders_disagree);
    tcase_add_test(cases, gaps_are_filled_and_their_source_is_kept);
    tcase_add_test(cases, another_dive_is_told_with_the_evidence);
    tcase_add_test(cases, two_names_on_one_dive_are_told);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
