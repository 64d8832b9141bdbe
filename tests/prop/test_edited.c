/*
 * Property: a dive edited by the tool raises no finding of the kind that was put right. Seeded dives with trouble of
 * every kind that has a cost. Source: the contract of edited.h; nothing here stands on figures of ours.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/edited.h>
#include <stdio.h>

#include "support/climbed.h"
#include "support/random.h"
#include "support/reviewed.h"
#include "support/suite.h"

static const enum plm_finding_kind costed[] = {PLM_FINDING_ASCENT_RATE,    PLM_FINDING_CEILING_EXCEEDED,
                                               PLM_FINDING_STOP_CUT_SHORT, PLM_FINDING_PLAN_DEEPER,
                                               PLM_FINDING_PLAN_LONGER,    PLM_FINDING_SETPOINT_NOT_HELD};

static struct climb meant(struct seeded *seeded)
{
    struct climb climb = {.depth_m = 10 * floor(seeded_between(seeded, 3, 10)),
                          .bottom_min = floor(seeded_between(seeded, 12, 30)),
                          .o2_frac = 0.15,
                          .he_frac = 0.5,
                          .step_s = seeded_uniform(seeded) < 0.5 ? 5 : 10};
    climb.setpoint_bar = 1.2;
    return climb;
}

/* One or two troubles. */
static void trouble(struct climb *climb, struct seeded *seeded)
{
    if (seeded_uniform(seeded) < 0.4) {
        climb->longer_s = seeded_between(seeded, 80, 240);
    }
    if (seeded_uniform(seeded) < 0.4) {
        climb->deeper_m = seeded_between(seeded, 1.5, 4);
    }
    if (seeded_uniform(seeded) < 0.5) {
        climb->stop_m = 3 * floor(seeded_between(seeded, 1, 4));
        climb->stop_s = -seeded_between(seeded, 20, 900);
    }
    if (seeded_uniform(seeded) < 0.4) {
        climb->rate_m_min = seeded_between(seeded, 11, 25);
        climb->rate_to_m = climb->depth_m * 0.6;
    }
    if (seeded_uniform(seeded) < 0.3) {
        climb->last_rate_m_min = seeded_between(seeded, 8, 25);
    }
}

/* Reviews an edited dive anew. */
static void again(struct reviewed *out, const struct reviewed *first, const struct plm_dive *dive)
{
    struct plm_dive_builder *builder = plm_dive_builder_from(dive, &first->rules, NULL);
    struct plm_dive *copy = NULL;
    struct review_wish wish = {.plan = first->input.plan};
    ck_assert_int_eq(plm_dive_builder_finish(builder, &copy), PLM_STATUS_OK);
    reviewed_dive(out, copy, &first->rules, &wish);
}

/* No such finding where the recorded one was put right alone; none at all where it was the only one, or all were put
 * right. */
static void must_be_gone(const struct reviewed *edited, enum plm_finding_kind kind, uint64_t seed,
                         const char *put_right)
{
    if (reviewed_count(edited, kind) > 0) {
        fprintf(stderr, "seed %llu, put right: %s\n", (unsigned long long)seed, put_right);
        reviewed_print(edited);
    }
    ck_assert_uint_eq(reviewed_count(edited, kind), 0);
}

static size_t look_at_edits(const struct reviewed *first, uint64_t seed)
{
    size_t count = 0, all = 0, looked_at = 0;
    struct plm_edited *edited = NULL;
    ck_assert_int_eq(plm_edited_make(&edited, &first->input, first->findings, NULL), PLM_STATUS_OK);
    const struct plm_edited_dive *dives = plm_edited_get(edited, &count);
    const struct plm_finding *findings = plm_findings_get(first->findings, &all);
    for (size_t i = 0; i < count; i++) {
        struct reviewed second;
        again(&second, first, dives[i].dive);
        ck_assert_ptr_nonnull(dives[i].put_right);
        for (size_t k = 0; k < sizeof costed / sizeof costed[0]; k++) {
            bool alone = dives[i].finding != PLM_EDITED_ALL && findings[dives[i].finding].kind == costed[k] &&
                         reviewed_count(first, costed[k]) == 1;
            if (alone || dives[i].finding == PLM_EDITED_ALL) {
                must_be_gone(&second, costed[k], seed, dives[i].put_right);
                looked_at++;
            }
        }
        reviewed_free(&second);
    }
    plm_edited_free(edited);
    return looked_at;
}

START_TEST(what_was_put_right_is_gone)
{
    size_t looked_at = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct seeded seeded = {seed};
        struct climb climb = meant(&seeded);
        struct made_dive made = climb_make(&climb);
        struct plm_dive *plan = made_finish(&made);
        trouble(&climb, &seeded);
        made = climb_make(&climb);
        struct reviewed reviewed;
        struct review_wish wish = {.plan = plan, .cost = true};
        reviewed_make(&reviewed, &made, &wish);
        looked_at += look_at_edits(&reviewed, seed);
        reviewed_free(&reviewed);
        plm_dive_free(plan);
    }
    ck_assert_uint_gt(looked_at, 100);
}
END_TEST

/* A loop that held off_bar for a while. */
START_TEST(a_set_point_put_right_is_held)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_loop(&made, 0.15, 0.5, 1.3);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 50, 150, 10);
    for (int i = 0; i < 120; i++) {
        double bar = i > 30 && i < 80 ? 0.8 : 1.3;
        time_s += 10;
        made_sample_cells(&made, time_s, 50, bar, bar + 0.02, bar - 0.02);
    }
    struct reviewed reviewed;
    struct review_wish wish = {.cost = true};
    reviewed_make(&reviewed, &made, &wish);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_SETPOINT_NOT_HELD);
    ck_assert(finding->cost.known);
    ck_assert_double_gt(finding->cost.decompression_min, 0.5);
    ck_assert_uint_ge(look_at_edits(&reviewed, 0), 1);
    reviewed_free(&reviewed);
}
END_TEST

/* Two extra minutes at the bottom cost what one more minute there is known to cost, twice; and a fast ascent off it
 * nothing. */
START_TEST(costs_have_the_sign_and_size_of_practice)
{
    struct climb climb = {.depth_m = 110, .bottom_min = 20, .o2_frac = 0.08, .he_frac = 0.72, .setpoint_bar = 1.2};
    struct made_dive made = climb_make(&climb);
    struct plm_dive *plan = made_finish(&made);
    climb.longer_s = 120;
    climb.rate_m_min = 18;
    climb.rate_to_m = 80;
    made = climb_make(&climb);
    struct reviewed reviewed;
    struct review_wish wish = {.plan = plan, .cost = true};
    reviewed_make(&reviewed, &made, &wish);
    const struct plm_finding *longer = reviewed_first(&reviewed, PLM_FINDING_PLAN_LONGER);
    /* Common practice, no source: one or two extra minutes cost another 10 to 15 min; the model may ask for more. */
    ck_assert_double_gt(longer->cost.decompression_min, 8);
    ck_assert_double_lt(longer->cost.decompression_min, 40);
    size_t count = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed.findings, &count);
    for (size_t i = 0; i < count; i++) {
        if (findings[i].kind == PLM_FINDING_ASCENT_RATE && findings[i].from_depth_m > 60) {
            ck_assert_double_lt(findings[i].cost.decompression_min, 1);
            ck_assert_int_eq(findings[i].severity, PLM_SEVERITY_NOTE);
        }
    }
    reviewed_free(&reviewed);
    plm_dive_free(plan);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {what_was_put_right_is_gone, a_set_point_put_right_is_held,
                                  costs_have_the_sign_and_size_of_practice};
    return SUITE_RUN("edited dives", tests);
}
