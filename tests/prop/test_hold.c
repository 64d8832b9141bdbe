/*
 * Properties of hold: a dive shifted by less than its recorder's tolerance keeps every firm finding (seeds 1..50), and
 * the noise of a recorder's steps raises no rate of ascent (seeds 1..100). Source: the contracts of review.h; nothing
 * here stands on figures of ours.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "review/events.h"
#include "support/climbed.h"
#include "support/random.h"
#include "support/reviewed.h"
#include "support/suite.h"

static struct climb troubled(struct seeded *seeded)
{
    struct climb climb = {.depth_m = 5 * floor(seeded_between(seeded, 6, 20)),
                          .bottom_min = floor(seeded_between(seeded, 12, 30)),
                          .o2_frac = 0.15,
                          .he_frac = 0.5,
                          .step_s = 5};
    climb.setpoint_bar = seeded_uniform(seeded) < 0.7 ? seeded_between(seeded, 1.0, 1.4) : 0;
    climb.longer_s = seeded_uniform(seeded) < 0.5 ? seeded_between(seeded, 20, 240) : 0;
    climb.stop_m = 3 * floor(seeded_between(seeded, 1, 4));
    climb.stop_s = -seeded_between(seeded, 0, 400);
    climb.rate_m_min = seeded_between(seeded, 8, 16);
    climb.rate_to_m = climb.depth_m * 0.7;
    climb.last_rate_m_min = seeded_between(seeded, 5, 15);
    return climb;
}

/* The dive with every depth but the surface moved. */
static struct plm_dive *shifted(const struct plm_dive *dive, const struct plm_rules *rules, double scale,
                                double shift_m)
{
    size_t count = 0;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    struct plm_dive_builder *builder = plm_dive_builder_from(dive, rules, NULL);
    struct plm_dive *out = NULL;
    plm_dive_builder_restart(builder);
    size_t settings = 0;
    const struct plm_setting *setting = plm_dive_settings(dive, &settings);
    plm_dive_builder_mode(builder, setting[0].mode, 0);
    plm_dive_builder_switch(builder, setting[0].mix, 0);
    plm_dive_builder_setpoint(builder, setting[0].setpoint_bar, 0);
    for (size_t i = 0; i < count; i++) {
        struct plm_sample sample = samples[i];
        sample.depth_m = sample.depth_m <= 0 ? 0 : fmax(0, sample.depth_m * scale + shift_m);
        ck_assert_int_eq(plm_dive_builder_sample(builder, &sample), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_dive_builder_finish(builder, &out), PLM_STATUS_OK);
    return out;
}

/* The same kind, or one into which it may go: whether a leaving is one of a stop may hang on the tolerance alone. */
static bool is_about(const struct reviewed *reviewed, const struct plm_finding *finding,
                     const struct plm_finding *wanted)
{
    struct plm_review_scene scene = plmi_review_scene_of(&reviewed->input);
    return finding->kind == wanted->kind || plmi_review_events_same(&scene, finding, wanted);
}

static bool is_there(const struct reviewed *reviewed, const struct plm_finding *wanted)
{
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed->findings, &count);
    for (size_t i = 0; i < count; i++) {
        if (is_about(reviewed, &findings[i], wanted) && findings[i].from_s <= wanted->to_s + 30 &&
            findings[i].to_s >= wanted->from_s - 30) {
            return true;
        }
    }
    return false;
}

START_TEST(a_shift_within_the_tolerance_keeps_what_is_firm)
{
    size_t firm = 0, marginal = 0;
    for (uint64_t seed = 1; seed <= 50; seed++) {
        struct seeded seeded = {seed};
        struct climb climb = troubled(&seeded);
        struct made_dive made = climb_make(&climb);
        struct reviewed first, second;
        struct review_wish held = {.hold = true}, plain = {.hold = false};
        reviewed_make(&first, &made, &held);
        double shift_m = seeded_between(&seeded, -0.099, 0.099), scale = 1 + seeded_between(&seeded, -0.0049, 0.0049);
        reviewed_dive(&second, shifted(first.dive, &first.rules, scale, shift_m), &first.rules, &plain);
        size_t count = 0;
        const struct plm_finding *findings = plm_findings_get(first.findings, &count);
        for (size_t i = 0; i < count; i++) {
            firm += findings[i].hold == PLM_HOLD_FIRM;
            marginal += findings[i].hold == PLM_HOLD_MARGINAL;
            ck_assert_int_ne(findings[i].hold, PLM_HOLD_UNTRIED);
            ck_assert_double_le(findings[i].value_low, findings[i].value_high);
            if (findings[i].hold == PLM_HOLD_FIRM && !is_there(&second, &findings[i])) {
                ck_abort_msg("seed %llu, shift %.3f m, scale %.4f: lost %s", (unsigned long long)seed, shift_m, scale,
                             findings[i].text);
            }
        }
        reviewed_free(&first);
        reviewed_free(&second);
    }
    ck_assert_uint_gt(firm, 100);
    ck_assert_uint_gt(marginal, 20);
}
END_TEST

/* 9 m/min from 40 m to 9 m, a sample a second, depths in steps of 0.1 m with half a step of noise. */
static struct made_dive noisy(uint64_t seed)
{
    struct seeded seeded = {seed};
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0.2);
    made_sample(&made, 0, 0);
    for (int i = 1; i <= 420; i++) {
        double depth_m = i < 130 ? 40 * i / 130.0 : i < 190 ? 40 : fmax(9, 40 - 0.15 * (i - 190));
        depth_m += seeded_between(&seeded, -0.05, 0.05);
        made_sample(&made, i, round(depth_m * 10) / 10);
    }
    return made;
}

START_TEST(noise_of_steps_raises_no_rate)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        struct made_dive made = noisy(seed);
        struct reviewed reviewed;
        struct review_wish held = {.hold = true};
        reviewed_make(&reviewed, &made, &held);
        if (reviewed_count(&reviewed, PLM_FINDING_ASCENT_RATE) > 0) {
            ck_abort_msg("seed %llu: %s", (unsigned long long)seed,
                         reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->text);
        }
        reviewed_free(&reviewed);
    }
}
END_TEST

/* Five minutes on 6 % of oxygen at a depth, on air before and after. */
static void lean_dive(struct reviewed *reviewed, double lean_m)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    struct review_wish held = {.hold = true};
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, lean_m, 120, 5);
    made_open(&made, 0.06, 0.6);
    leg(&made, &time_s, &depth_m, lean_m, 300, 5);
    made_open(&made, 0.21, 0);
    leg(&made, &time_s, &depth_m, 0, 300, 5);
    reviewed_make(reviewed, &made, &held);
}

/* What only a corner of the tolerance shows is a marginal note: low oxygen is reported from 0.005 bar below 0.18 bar
 * on; of 6 % these are 19.17 m, and 0.1 m and half a percent lead there from 19.25 m. */
START_TEST(what_only_the_tolerance_shows_is_a_note)
{
    struct reviewed reviewed;
    lean_dive(&reviewed, 19.25);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_LOW);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_LOW), 1);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_int_eq(finding->hold, PLM_HOLD_MARGINAL);
    ck_assert_double_eq(finding->value_high, 0.18);
    ck_assert_ptr_nonnull(strstr(finding->text, "May have happened"));
    reviewed_free(&reviewed);
    lean_dive(&reviewed, 19.5);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_LOW), 0);
    reviewed_free(&reviewed);
}
END_TEST

/* A diver on the ceiling is shallower than it at a corner, by less than ceiling_note_m: nothing to tell. */
START_TEST(a_note_that_only_the_tolerance_shows_is_none)
{
    struct climb climb = {.depth_m = 50, .bottom_min = 25, .o2_frac = 0.21, .he_frac = 0.35, .setpoint_bar = 1.2};
    struct made_dive made = climb_make(&climb);
    struct reviewed reviewed;
    struct review_wish held = {.hold = true};
    reviewed_make(&reviewed, &made, &held);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 0);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_shift_within_the_tolerance_keeps_what_is_firm, noise_of_steps_raises_no_rate,
                                  what_only_the_tolerance_shows_is_a_note,
                                  a_note_that_only_the_tolerance_shows_is_none};
    return SUITE_RUN("hold", tests);
}
