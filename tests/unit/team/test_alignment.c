/*
 * Signs and bounds of laying one record over another. What is planted in the records is the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/planted.h"
#include "support/suite.h"
#include "team/align.h"

static struct plm_alignment align(const struct planted *a, const struct planted *b)
{
    struct plm_alignment found;
    struct plm_dive *dive_a = planted_record(a), *dive_b = planted_record(b);
    ck_assert_int_eq(plm_alignment_find(&found, dive_a, dive_b, NULL), PLM_STATUS_OK);
    plm_dive_free(dive_a);
    plm_dive_free(dive_b);
    return found;
}

/*
 * Two clocks that are right, at once in two zones: nothing is to be added to either. Where a zone is not known the
 * clocks are taken as they stand, so that b lacks what a's zone is ahead of it.
 */
START_TEST(zones_are_not_offsets)
{
    static const struct {
        int a_min, b_min;
        bool a_has, b_has;
        double add_s;
    } rows[] = {
        {660, 0, true, true, 0},      {0, 660, true, true, 0},       {-210, 345, true, true, 0},
        {660, 0, true, false, 39600}, {0, 660, false, true, -39600}, {0, 0, false, false, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct planted a = {.offset_min = rows[i].a_min, .has_zone = rows[i].a_has, .step_s = 5};
        const struct planted b = {.offset_min = rows[i].b_min, .has_zone = rows[i].b_has, .step_s = 5};
        struct plm_alignment found = align(&a, &b);
        ck_assert(found.clock_known && found.same_dive);
        ck_assert_double_eq_tol(found.clock_offset_s, rows[i].add_s, 0.1);
    }
}
END_TEST

/* b's clock is 90 s behind: 90 s are to be added to it. b's record begins 40 s after a's: a is at 40 s when b is at 0.
 * And the other way. */
START_TEST(offsets_have_their_signs)
{
    const struct planted right = {.offset_min = 660, .has_zone = true},
                         late = {.begin_s = 40, .behind_s = 90, .has_zone = true};
    struct plm_alignment found = align(&right, &late);
    ck_assert_double_eq_tol(found.record_offset_s, 40, 0.1);
    ck_assert_double_eq_tol(found.clock_offset_s, 90, 0.1);
    found = align(&late, &right);
    ck_assert_double_eq_tol(found.record_offset_s, -40, 0.1);
    ck_assert_double_eq_tol(found.clock_offset_s, -90, 0.1);
}
END_TEST

/* Of a million seconds of a fast clock the true one has fewer: 400 less for 400 ppm, to the first order. */
START_TEST(drift_has_its_sign)
{
    const struct planted right = {.step_s = 2}, fast = {.step_s = 2, .fast_ppm = 400},
                         slow = {.step_s = 2, .fast_ppm = -400};
    ck_assert_double_eq_tol(align(&right, &fast).clock_drift_ppm, -400, 10);
    ck_assert_double_eq_tol(align(&right, &slow).clock_drift_ppm, 400, 10);
    ck_assert_double_eq_tol(align(&fast, &right).clock_drift_ppm, 400, 10);
    ck_assert_double_eq_tol(align(&right, &right).clock_drift_ppm, 0, 1);
}
END_TEST

/* b shows 2 % and 0.3 m less: a = (b + 0.3) / 0.98 = 1.0204 b + 0.306. */
START_TEST(depth_has_its_signs)
{
    const struct planted right = {.step_s = 2}, less = {.step_s = 2, .less_m = 0.3, .less_frac = 0.02};
    struct plm_alignment found = align(&right, &less);
    ck_assert_double_eq_tol(found.depth_scale, 1 / 0.98, 1e-3);
    ck_assert_double_eq_tol(found.depth_offset_m, 0.3 / 0.98, 0.03);
    found = align(&less, &right);
    ck_assert_double_eq_tol(found.depth_scale, 0.98, 1e-3);
    ck_assert_double_eq_tol(found.depth_offset_m, -0.3, 0.03);
}
END_TEST

/* Beyond 3 % and 1.5 m it is no recorder of this diver; a little within it is. */
START_TEST(depth_has_its_bounds)
{
    static const struct {
        double less_m, less_frac;
        bool same;
    } rows[] = {{1.4, 0, true},   {1.6, 0, false},   {-1.4, 0, true},   {-1.6, 0, false},
                {0, 0.027, true}, {0, 0.033, false}, {0, -0.027, true}, {0, -0.033, false}};
    const struct planted right = {.step_s = 2};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct planted off = {.step_s = 2, .less_m = rows[i].less_m, .less_frac = rows[i].less_frac};
        struct plm_alignment found = align(&right, &off);
        ck_assert_msg(found.same_dive == rows[i].same, "%g m, %g: offset %g, scale %g", rows[i].less_m,
                      rows[i].less_frac, found.depth_offset_m, found.depth_scale);
    }
}
END_TEST

/* Every 5 s from one true time to another, dry for some time before; nothing between gap_from_s and gap_to_s. */
static void series_make(struct plmi_series *series, double time_s[2000], double depth_m[2000], double from_s,
                        double to_s, double gap_from_s, double gap_to_s)
{
    *series = (struct plmi_series){.time_s = time_s, .depth_m = depth_m, .step_s = 5, .gap_s = 60, .quantum_m = 0.1};
    for (double t = from_s; t <= to_s; t += 5) {
        if (t > gap_from_s && t < gap_to_s) {
            continue;
        }
        time_s[series->count] = t - from_s;
        depth_m[series->count++] = planted_depth_m(1, t);
    }
    series->dry_start = depth_m[0] < 1;
    series->dry_end = depth_m[series->count - 1] < 1;
}

/*
 * Both records begin 3000 s before the dive. a ends under water, after 3000 s there; b sees nothing from the surface on
 * until its first, and then until 5100 s. Of a's 3000 s, the shorter time under water, both saw 3000 s less b's first;
 * the least share is 0.4: 1200 s from 1800 s on.
 */
START_TEST(both_must_cover_enough)
{
    static const struct {
        double first_s;
        bool same;
    } rows[] = {{0, true}, {600, true}, {1795, true}, {1800, true}, {1805, false}, {2050, false}};
    static double times[2][2000], depths[2][2000];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_series a, b;
        struct plm_alignment found;
        series_make(&a, times[0], depths[0], -3000, 3000, 1e9, 1e9);
        series_make(&b, times[1], depths[1], -3000, 5100, -5, rows[i].first_s);
        ck_assert(plmi_align_series(&found, &a, &b));
        ck_assert_msg(found.same_dive == rows[i].same, "from %g s: %g s of both, apart %g m and %g m", rows[i].first_s,
                      found.overlap_s, found.apart_median_m, found.apart_p90_m);
    }
}
END_TEST

/* Candidates are a minute apart and more, the best first; of a record of one sample there are none. */
START_TEST(candidates_are_apart)
{
    static double times[2][2000], depths[2][2000];
    struct plmi_series a, b, short_one;
    double lags_s[PLMI_LAGS];
    for (int late_s = -600; late_s <= 600; late_s += 300) {
        series_make(&a, times[0], depths[0], -300, PLANTED_END_S + 300, 1e9, 1e9);
        series_make(&b, times[1], depths[1], -300 + late_s, PLANTED_END_S + 300, 1e9, 1e9);
        int count = plmi_align_lags(lags_s, &a, &b);
        ck_assert_int_ge(count, 2);
        ck_assert_double_eq_tol(lags_s[0], late_s, 5);
        for (int i = 0; i < count; i++) {
            for (int k = 0; k < i; k++) {
                ck_assert_msg(fabs(lags_s[i] - lags_s[k]) >= 60, "%g s and %g s", lags_s[i], lags_s[k]);
            }
        }
    }
    short_one = a;
    short_one.count = 1;
    ck_assert_int_eq(plmi_align_lags(lags_s, &a, &short_one), 0);
    ck_assert_int_eq(plmi_align_lags(lags_s, &short_one, &a), 0);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {candidates_are_apart,  zones_are_not_offsets, offsets_have_their_signs,
                                  drift_has_its_sign,    depth_has_its_signs,   depth_has_its_bounds,
                                  both_must_cover_enough};
    return SUITE_RUN("alignment", tests);
}
