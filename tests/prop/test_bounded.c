/*
 * Hostile dives that the builder lets in: nothing that is computed, stored or carried grows without bound, by the rules
 * as they come. Sources of the bounds: the rules depth_max_m (500 m) and dive_max_h (48 h, and as long at the surface
 * before), the limits of what can surround a dive (1.2 bar, 1100 kg/m3, plimsoll-log(5)), and the formulas of
 * plimsoll-model(7) at the pressure that follows.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <plimsoll/decompression.h>
#include <plimsoll/dive_builder.h>
#include <plimsoll/review.h>

#include "support/random.h"
#include "support/suite.h"

#define DIVES   400
#define SAMPLES 60

/* 1.2 bar + 500 m of 1100 kg/m3, g = 9.80665 m/s2. */
static const double most_bar = 1.2 + 500 * 1100 * 9.80665e-5;
/* 48 h in the water and 48 h before. */
static const double most_min = 2 * 48 * 60;

static size_t below(struct seeded *seeded, size_t count)
{
    return (size_t)seeded_between(seeded, 0, (double)count);
}

static double pick(struct seeded *seeded, const double *values, size_t count)
{
    return values[below(seeded, count)];
}

#define PICK(seeded, list) pick(seeded, list, sizeof list / sizeof list[0])

static const double depths_m[] = {0,     0,   0.4, 0.6,   3,      20,   60,          100,
                                  499.9, 500, 501, 1e300, -1e300, -0.5, (double)NAN, (double)INFINITY};
static const double steps_s[] = {0, 0.001, 1, 10, 10, 60, 600, 3599, 3601, 90000, 1e6, 1e9, 1e13, -10, -1e13};
static const double pressures_bar[] = {(double)NAN, (double)NAN, 0,  0.01, 0.21, 1.3,   1.6,
                                       3,           9.99,        10, 11,   -1,   1e300, (double)INFINITY};
static const double o2_fracs[] = {0, 0.001, 0.05, 0.21, 0.32, 0.5, 0.999, 1};
static const double surfaces_bar[] = {(double)NAN, 0, 0.4, 1.013, 1.2, 1.3, 1e300, -1};
static const double altitudes_m[] = {(double)NAN, (double)NAN, -500, 0, 8999, 9000, 1e5, -1e300};
static const double waters_kg_m3[] = {(double)NAN, 0, 900, 1025, 1100, 1300, 1e300};

static void settings_change(struct seeded *seeded, struct plm_dive_builder *builder, uint32_t line)
{
    uint32_t mix;
    double o2_frac = PICK(seeded, o2_fracs),
           he_frac = below(seeded, 2) ? 0 : (1 - o2_frac) * seeded_between(seeded, 0, 1);
    if (plm_dive_builder_mix_find(builder, o2_frac, he_frac, line, &mix) == PLM_STATUS_OK) {
        plm_dive_builder_switch(builder, mix, line);
    }
    plm_dive_builder_mode(builder, (enum plm_mode)below(seeded, 3), line);
    plm_dive_builder_setpoint(builder, PICK(seeded, pressures_bar), line);
}

/* NULL: the builder takes no dive from it. */
static struct plm_dive *hostile(struct seeded *seeded, const struct plm_rules *rules)
{
    struct plm_dive_builder *builder = plm_dive_builder_new("hostile", rules, NULL);
    struct plm_dive *dive = NULL;
    ck_assert_ptr_nonnull(builder);
    struct plm_dive_info *info = plm_dive_builder_info(builder);
    info->surface_bar = PICK(seeded, surfaces_bar);
    info->altitude_m = PICK(seeded, altitudes_m);
    info->water_kg_m3 = PICK(seeded, waters_kg_m3);
    info->depth_step_m = PICK(seeded, depths_m);
    double time_s = 0;
    size_t count = 3 + below(seeded, SAMPLES);
    for (uint32_t i = 0; i < count; i++) {
        bool calm = below(seeded, 4) > 0;
        if (below(seeded, 8) == 0) {
            settings_change(seeded, builder, i + 1);
        }
        time_s += calm ? seeded_between(seeded, 1, 300) : PICK(seeded, steps_s);
        struct plm_sample sample = {.time_ms = (int64_t)(time_s * 1000),
                                    .depth_m = calm ? seeded_between(seeded, 0, 120) : PICK(seeded, depths_m),
                                    .temp_c = PICK(seeded, depths_m),
                                    .po2_bar = PICK(seeded, pressures_bar),
                                    .line = i + 1};
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            sample.cell_bar[cell] = PICK(seeded, pressures_bar);
        }
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    if (below(seeded, 2)) {
        struct plm_sample last = {.time_ms = (int64_t)(time_s * 1000) + 60000};
        ck_assert_int_eq(plm_dive_builder_sample(builder, &last), PLM_STATUS_OK);
    }
    (void)plm_dive_builder_finish(builder, &dive);
    return dive;
}

static int round_now;

/* NaN is told apart by the caller. */
static void within(const char *what, double value, double least, double most)
{
    ck_assert_msg(value >= least && value <= most, "dive %d: %s is %g, not within %g to %g", round_now, what, value,
                  least, most);
}

static void within_or_unknown(const char *what, double value, double least, double most)
{
    if (!isnan(value)) {
        within(what, value, least, most);
    }
}

static void doses_hold(double cns_pct, double cns_day_pct, double otu, double esot, double times)
{
    within("CNS", cns_pct, 0, times * most_min * 100 / 45);
    within("CNS of a day", cns_day_pct, 0, times * most_min * 100 / 150);
    within("OTU", otu, 0, times * most_min * pow((most_bar - 0.5) / 0.5, 5.0 / 6));
    within("ESOT", esot, 0, times * most_min * pow(most_bar, 2.285));
}

static void tissue_holds(const struct plm_tissue *tissue)
{
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        within("nitrogen", tissue->n2_bar[i], 0, most_bar);
        within("helium", tissue->he_bar[i], 0, most_bar);
    }
}

/* Gradients: compartment 16 of nitrogen has the steepest, a = 0.2327 bar: 55.14 / 0.2327 is 237. */
static void gradient_holds(const char *what, double pct)
{
    within(what, pct, -10000, 100 * most_bar / 0.2327);
}

static void points_hold(const struct plm_trace *trace)
{
    size_t count;
    const struct plm_point *points = plm_trace_points(trace, &count);
    for (size_t i = 0; i < count; i++) {
        const struct plm_point *point = &points[i];
        within("depth", point->depth_m, 0, 500);
        within("ambient", point->ambient_bar, 0.3, most_bar);
        within("oxygen", point->po2_bar, 0, most_bar);
        within("ceiling", point->ceiling_m, 0, 500);
        within("bare ceiling", point->no_limit_ceiling_m, 0, 500);
        within("clearance", point->clearance_m, -500, 500);
        gradient_holds("gradient", point->gradient_pct);
        gradient_holds("surfacing gradient", point->surfacing_gradient_pct);
        doses_hold(point->cns_pct, point->cns_day_pct, point->otu, point->esot, 1);
        /* Oxygen is the heaviest: 1.429 g/L at 0 C and 1 atm. */
        within("density", point->density_g_l, 0, most_bar * 1.43);
        within("narcotic depth", point->end_m, 0, 700);
        within_or_unknown("rate", point->rate_m_min, -3.1e7, 3.1e7);
        within_or_unknown("relative rate", point->relative_rate_pct_min, -1e10, 1e10);
        within_or_unknown("anchor", point->anchor_bar, 0, most_bar);
        within("seconds", (double)point->time_ms / 1000, -4e10, 4e10);
        tissue_holds(&point->tissue);
    }
}

static void summary_holds(const struct plm_trace_summary *summary)
{
    within("duration", summary->duration_s, 0, most_min * 60);
    within("mean depth", summary->mean_depth_m, 0, 500);
    within("deepest ceiling", summary->deepest_ceiling_m, 0, 500);
    if (!summary->ends_in_water) {
        gradient_holds("surfacing gradient of the dive", summary->surfacing_gradient_pct);
    }
    gradient_holds("peak gradient", summary->peak_gradient_pct);
    within("least oxygen", summary->min_po2_bar, 0, most_bar);
    for (int i = 0; i < PLM_PO2_BANDS; i++) {
        within("minutes of oxygen", summary->po2_band_min[i], 0, most_min);
    }
}

static void findings_hold(const struct plm_dive *dive, const struct plm_trace *trace,
                          const struct plm_decompression *found, const struct plm_replay_options *options)
{
    struct plm_review_input input = {.dive = dive, .trace = trace, .decompression = found, .replay = options};
    struct plm_review_options all = {.hold = true, .cost = true};
    struct plm_findings *findings = NULL;
    ck_assert_int_eq(plm_review(&findings, &input, &all, NULL), PLM_STATUS_OK);
    size_t count;
    const struct plm_finding *list = plm_findings_get(findings, &count);
    for (size_t i = 0; i < count; i++) {
        const double numbers[] = {list[i].value,
                                  list[i].limit,
                                  list[i].value_low,
                                  list[i].value_high,
                                  list[i].cost.decompression_min,
                                  list[i].cost.surfacing_gradient_points,
                                  list[i].cost.peak_gradient_points,
                                  list[i].cost.cns_points};
        /* Stops that never clear are told as that, in words. */
        bool never = list[i].kind == PLM_FINDING_SURFACED_OWING_STOPS;
        for (size_t n = 0; n < sizeof numbers / sizeof numbers[0]; n++) {
            if (!(never && isinf(numbers[n]))) {
                within_or_unknown(plm_finding_kind_text(list[i].kind), numbers[n], -1e10, 1e10);
            }
        }
    }
    plm_findings_free(findings);
}

static void carried_holds(const struct plm_trace *trace, const struct plm_rules *rules)
{
    static const double intervals_s[] = {0, 1, 3600, 1e9, 1e300, (double)INFINITY};
    for (size_t i = 0; i < sizeof intervals_s / sizeof intervals_s[0]; i++) {
        struct plm_start start = plm_start_after(trace, intervals_s[i], plm_trace_assumed(trace)->surface_bar, rules);
        doses_hold(start.cns_pct, start.cns_day_pct, start.otu_day, start.esot_day, 1);
        tissue_holds(&start.tissue);
        within_or_unknown("anchor carried", start.anchor_bar, 0, most_bar);
        for (int again = 0; again < 40; again++) {
            start = plm_start_rest(&start, intervals_s[i], 1.0, rules);
        }
        doses_hold(start.cns_pct, start.cns_day_pct, start.otu_day, start.esot_day, 1);
        tissue_holds(&start.tissue);
    }
}

START_TEST(nothing_grows_without_bound)
{
    struct plm_rules rules = plm_rules_default();
    int taken = 0, wet_ends = 0;
    for (round_now = 1; round_now <= DIVES; round_now++) {
        struct seeded seeded = {(uint64_t)round_now};
        struct plm_dive *dive = hostile(&seeded, &rules);
        struct plm_replay_options options = plm_replay_options_default(&rules);
        struct plm_trace *trace = NULL;
        if (dive == NULL) {
            continue;
        }
        ck_assert_int_eq(plm_replay(&trace, dive, &options, NULL), PLM_STATUS_OK);
        taken++;
        wet_ends += plm_dive_info_get(dive)->ends_in_water;
        points_hold(trace);
        summary_holds(plm_trace_summary_get(trace));
        static struct plm_decompression found;
        ck_assert_int_eq(plm_decompression_find(&found, dive, trace, &options, NULL), PLM_STATUS_OK);
        findings_hold(dive, trace, &found, &options);
        carried_holds(trace, &rules);
        plm_trace_free(trace);
        plm_dive_free(dive);
    }
    printf("%d hostile dives, %d taken, %d of them end in the water\n", DIVES, taken, wet_ends);
    ck_assert_int_gt(taken, DIVES / 2);
    ck_assert(wet_ends > 20 && wet_ends < taken - 20);
}
END_TEST

/*
 * Nitrox 32 at 20 m for ten minutes with one sample at 100 m. By hand: 0.96 bar at 20 m is some 3 % in ten minutes (324
 * min allowed), and 20 s between the samples around, at 45 min as the last row allows, 0.7 %.
 */
START_TEST(one_wrong_sample)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_dive_builder *builder = plm_dive_builder_new("spike", &rules, NULL);
    uint32_t mix;
    ck_assert_int_eq(plm_dive_builder_mix_find(builder, 0.32, 0, 1, &mix), PLM_STATUS_OK);
    plm_dive_builder_switch(builder, mix, 1);
    for (uint32_t i = 0; i <= 62; i++) {
        struct plm_sample sample = {.time_ms = 10000 * (int64_t)i,
                                    .depth_m = i == 0 || i == 62 ? 0
                                               : i == 30         ? 100
                                                                 : 20,
                                    .po2_bar = (double)NAN,
                                    .line = i + 1};
        for (int cell = 0; cell < PLM_CELLS; cell++) {
            sample.cell_bar[cell] = (double)NAN;
        }
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    struct plm_dive *dive = NULL;
    struct plm_trace *trace = NULL;
    ck_assert_int_eq(plm_dive_builder_finish(builder, &dive), PLM_STATUS_OK);
    struct plm_replay_options options = plm_replay_options_default(&rules);
    ck_assert_int_eq(plm_replay(&trace, dive, &options, NULL), PLM_STATUS_OK);
    within("CNS", plm_trace_summary_get(trace)->cns_pct, 3, 4);
    plm_trace_free(trace);
    plm_dive_free(dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {nothing_grows_without_bound, one_wrong_sample};
    return SUITE_RUN("bounded", tests);
}
