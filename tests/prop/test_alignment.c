/*
 * Offsets planted in pairs of records are found again, and two divers of one team are told apart.
 * Bodies are made by the test itself, so that the planted values are the truth. Prints the seed that fails.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/alignment.h>
#include <plimsoll/dive_builder.h>

#define SEEDS      (PLMI_SANITIZED ? 11 : 101)
#define BODY_MAX_S 20000

struct random {
    uint64_t state;
};

static double uniform(struct random *r)
{
    r->state = r->state * 6364136223846793005u + 1442695040888963407u;
    uint64_t x = r->state ^ (r->state >> 29);
    x *= 0x9E3779B97F4A7C15u;
    return (double)(x >> 11) / 9007199254740992.0;
}

static double between(struct random *r, double low, double high)
{
    return low + (high - low) * uniform(r);
}

static double normal(struct random *r)
{
    double u = uniform(r) + 1e-12;
    return sqrt(-2.0 * log(u)) * cos(6.283185307179586 * uniform(r));
}

/* A body in the water, second by second. */
struct body {
    long seconds;
    double depth_m[BODY_MAX_S];
};

static void leg(struct body *body, double to_m, double seconds)
{
    double from_m = body->seconds ? body->depth_m[body->seconds - 1] : 0.0;
    for (long i = 1; i <= (long)seconds && body->seconds < BODY_MAX_S; i++) {
        body->depth_m[body->seconds++] = from_m + (to_m - from_m) * (double)i / seconds;
    }
}

/* One team's profile; each body has small delays, its own level on the bottom, and its own ups and downs. */
static void body_make(struct body *body, uint64_t team_seed, uint64_t own_seed)
{
    struct random team = {team_seed * 7919 + 1}, own = {own_seed * 104729 + 3};
    double bottom_m = between(&team, 30, 115), bottom_s = between(&team, 900, 2400);
    body->seconds = 0;
    leg(body, 0, 60 + between(&own, 0, 30));
    double own_m = bottom_m + between(&own, -1.5, 1.5);
    leg(body, own_m, bottom_m / 18.0 * 60.0);
    leg(body, own_m + between(&own, -2, 2), bottom_s / 2);
    leg(body, own_m, bottom_s / 2 + between(&own, -20, 20));
    double first_stop_m = 3.0 * floor(bottom_m * 0.5 / 3.0), share = between(&team, 0.6, 1.4);
    leg(body, first_stop_m, (own_m - first_stop_m) / 9.0 * 60.0);
    for (double stop_m = first_stop_m; stop_m > 0; stop_m -= 3.0) {
        leg(body, stop_m, share * (60.0 + 3600.0 / (stop_m + 3.0)) + between(&own, 0, 15));
        leg(body, stop_m - 3.0, 20);
    }
    leg(body, 0, 60);
    double slow = 0.0;
    for (long i = 0; i < body->seconds; i++) {
        slow += -slow / 40.0 + 0.25 * sqrt(2.0 / 40.0) * normal(&own);
        double depth_m = body->depth_m[i];
        double wave = 0.25 * exp(-depth_m / 12.0) * sin(6.283185307179586 * (double)i / 7.3);
        body->depth_m[i] = depth_m < 1.0 ? fmax(0.0, depth_m) : depth_m + slow + wave;
    }
}

/* What a recorder makes of it: a = scale * b + shift; time of a = time of b * (1 + drift) + offset. */
struct recorder {
    double start_s, drift, scale, shift_m, step_s, quantum_m, gap_from_s, gap_to_s;
    int64_t stamp_ms;
};

static double body_depth(const struct body *body, double t)
{
    long i = (long)floor(t);
    if (i < 0 || i + 1 >= body->seconds) {
        return 0.0;
    }
    return body->depth_m[i] + (body->depth_m[i + 1] - body->depth_m[i]) * (t - (double)i);
}

static struct plm_dive *record(const struct body *body, const struct recorder *recorder, struct random *r)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_dive_builder *builder = plm_dive_builder_new("test", &rules, NULL);
    struct plm_dive *dive = NULL;
    uint32_t mix;
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 0.21, 0.0, 0, &mix), PLM_STATUS_OK);
    plm_dive_builder_switch(builder, mix, 0);
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    info->start = (struct plm_stamp){.local_ms = recorder->stamp_ms, .known = true, .has_clock = true};
    for (double t = 0;; t += recorder->step_s) {
        double body_s = t * (1.0 + recorder->drift) + recorder->start_s;
        if (body_s > (double)body->seconds + 30.0) {
            break;
        }
        if (body_s > recorder->gap_from_s && body_s < recorder->gap_to_s) {
            continue;
        }
        double depth_m = (body_depth(body, body_s) + 0.02 * normal(r) - recorder->shift_m) / recorder->scale;
        struct plm_sample sample = {.time_ms = (int64_t)llround(t * 1000), .temp_c = NAN, .po2_bar = NAN};
        for (int i = 0; i < PLM_CELLS; i++) {
            sample.cell_bar[i] = NAN;
        }
        sample.depth_m = fmax(0.0, recorder->quantum_m * round(depth_m / recorder->quantum_m));
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_OK);
    return dive;
}

static struct recorder plain(struct random *r)
{
    static const double steps_s[] = {1, 2, 5, 10};
    struct recorder recorder = {
        .scale = 1.0, .quantum_m = 0.1, .stamp_ms = 1930000000000, .gap_from_s = 1e9, .gap_to_s = 1e9};
    recorder.step_s = steps_s[(int)(uniform(r) * 4)];
    return recorder;
}

static struct recorder skewed(struct random *r)
{
    struct recorder recorder = plain(r);
    recorder.start_s = between(r, -40, 50);
    recorder.drift = between(r, -60e-6, 60e-6);
    recorder.scale = between(r, 0.99, 1.01);
    recorder.shift_m = between(r, -0.4, 0.4);
    recorder.quantum_m = uniform(r) < 0.3 ? 0.3 : 0.1;
    recorder.gap_from_s = between(r, 300, 6000);
    recorder.gap_to_s = recorder.gap_from_s + between(r, 60, 400);
    recorder.stamp_ms += (int64_t)llround(between(r, -10800, 10800)) * 1000;
    return recorder;
}

START_TEST(planted_offsets_are_found)
{
    struct random r = {(uint64_t)_i * 2654435761u + 17};
    struct body body;
    body_make(&body, (uint64_t)_i, (uint64_t)_i + 1000);
    struct recorder ra = plain(&r), rb = skewed(&r);
    struct plm_dive *a = record(&body, &ra, &r), *b = record(&body, &rb, &r);
    struct plm_alignment found;
    ck_assert_int_eq(plm_alignment_find(&found, a, b, NULL), PLM_STATUS_OK);

    double half_s = 0.5 * fmin(ra.step_s, rb.step_s), end_s = (double)body.seconds;
    double clock_s = rb.start_s + (double)(ra.stamp_ms - rb.stamp_ms) / 1000.0;
    double time_error_s = found.clock_offset_s - clock_s;
    double late_error_s = time_error_s + (found.clock_drift_ppm * 1e-6 - rb.drift) * end_s;
    double deepest_m = 0.0;
    for (long i = 0; i < body.seconds; i++) {
        deepest_m = fmax(deepest_m, body.depth_m[i]);
    }
    double shallow_error_m = found.depth_offset_m - rb.shift_m + (found.depth_scale - rb.scale) * 3.0;
    double deep_error_m = found.depth_offset_m - rb.shift_m + (found.depth_scale - rb.scale) * deepest_m;
    ck_assert_msg(found.same_dive, "seed %d: taken for two dives, apart %g / %g m, likeness %g of %g", _i,
                  found.apart_median_m, found.apart_p90_m, found.likeness, found.likeness_expected);
    ck_assert_msg(fabs(time_error_s) <= half_s && fabs(late_error_s) <= half_s,
                  "seed %d: clock off by %g s, %g s at the end, of %g", _i, time_error_s, late_error_s, half_s);
    ck_assert_msg(fabs(shallow_error_m) <= 0.05 && fabs(deep_error_m) <= 0.05,
                  "seed %d: depth off by %g m, %g m deep (steps %g and %g s)", _i, shallow_error_m, deep_error_m,
                  ra.step_s, rb.step_s);
    plm_dive_free(a);
    plm_dive_free(b);
}
END_TEST

START_TEST(two_of_a_team_are_two)
{
    struct random r = {(uint64_t)_i * 40503u + 29};
    struct body one, other;
    body_make(&one, (uint64_t)_i, (uint64_t)_i + 2000);
    body_make(&other, (uint64_t)_i, (uint64_t)_i + 3000);
    struct recorder ra = plain(&r), rb = plain(&r);
    struct plm_dive *a = record(&one, &ra, &r), *b = record(&other, &rb, &r);
    struct plm_alignment found;
    ck_assert_int_eq(plm_alignment_find(&found, a, b, NULL), PLM_STATUS_OK);
    ck_assert_msg(!found.same_dive, "seed %d: taken for one dive, apart %g / %g m, likeness %g of %g", _i,
                  found.apart_median_m, found.apart_p90_m, found.likeness, found.likeness_expected);
    plm_dive_free(a);
    plm_dive_free(b);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("alignment");
    TCase *cases = tcase_create("seeds");
    tcase_set_timeout(cases, 120);
    tcase_add_loop_test(cases, planted_offsets_are_found, 1, SEEDS);
    tcase_add_loop_test(cases, two_of_a_team_are_two, 1, SEEDS);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
