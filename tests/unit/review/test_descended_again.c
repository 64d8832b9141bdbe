/*
 * Going down again after the bottom: what is reported, and what only looks like it.
 * Expected: what the profiles below say; the bounds are the rules of this program.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish costed = {.cost = true};

/* A dive on air: bottom_s at bottom_m, up at 9 m/min to rest_m for 3 min, down to again_m for stay_s, back and up. */
struct shape {
    double bottom_m, bottom_s, rest_m, again_m, stay_s;
};

static void dived(struct reviewed *reviewed, const struct shape *shape)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, shape->bottom_m, 180, 5);
    leg(&made, &time_s, &depth_m, shape->bottom_m, shape->bottom_s, 5);
    leg(&made, &time_s, &depth_m, shape->rest_m, (shape->bottom_m - shape->rest_m) / 9 * 60, 5);
    leg(&made, &time_s, &depth_m, shape->rest_m, 180, 5);
    leg(&made, &time_s, &depth_m, shape->again_m, fabs(shape->again_m - shape->rest_m) / 15 * 60 + 5, 5);
    leg(&made, &time_s, &depth_m, shape->again_m, shape->stay_s, 5);
    leg(&made, &time_s, &depth_m, shape->rest_m, fabs(shape->again_m - shape->rest_m) / 9 * 60 + 5, 5);
    leg(&made, &time_s, &depth_m, shape->rest_m, 600, 5);
    leg(&made, &time_s, &depth_m, 0, shape->rest_m / 6 * 60, 5);
    reviewed_make(reviewed, &made, &costed);
}

static size_t count_of(const struct shape *shape)
{
    struct reviewed reviewed;
    dived(&reviewed, shape);
    size_t count = reviewed_count(&reviewed, PLM_FINDING_DESCENDED_AGAIN);
    reviewed_free(&reviewed);
    return count;
}

/* 25 min at 40 m, to 9 m, once more to 20 m for 4 min: stops were required. */
START_TEST(raises_descended_again)
{
    const struct shape shape = {40, 1500, 9, 20, 240};
    struct reviewed reviewed;
    dived(&reviewed, &shape);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_DESCENDED_AGAIN), 1);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_DESCENDED_AGAIN);
    double down_s = 180 + 1500 + 31 / 9.0 * 60 + 180;
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_double_eq_tol(finding->value, 11, 1.0);
    ck_assert_double_eq_tol(finding->from_s, down_s, 10);
    ck_assert_double_eq_tol(finding->to_s, down_s + 44 + 5 + 240 + 73 + 5, 15);
    ck_assert(strstr(finding->text, "Went down again") == finding->text);
    reviewed_free(&reviewed);
}
END_TEST

/* The same dive kept at 9 m in those minutes has given off gas instead: it owes less. */
START_TEST(its_effect_is_that_of_having_stayed)
{
    const struct shape shape = {40, 1500, 9, 20, 600};
    struct reviewed reviewed;
    dived(&reviewed, &shape);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_DESCENDED_AGAIN);
    ck_assert(finding->cost.known);
    ck_assert_double_gt(finding->cost.decompression_min, 1);
    ck_assert_ptr_nonnull(strstr(finding->cost.put_right, "stayed at 9."));
    reviewed_free(&reviewed);
}
END_TEST

/* Two levels without stops: a note, and nothing to put right. */
START_TEST(two_levels_are_a_note)
{
    const struct shape shape = {18, 600, 8, 15, 300};
    struct reviewed reviewed;
    dived(&reviewed, &shape);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_DESCENDED_AGAIN);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert(!finding->cost.known);
    reviewed_free(&reviewed);
}
END_TEST

/* From 9 m to 14.9 m is not more than 6 m; without stops that is all that counts. */
START_TEST(spares_descended_again)
{
    const struct shape less = {20, 600, 9, 14.9, 120}, sagging = {40, 1500, 9, 10.4, 240},
                       same_bottom = {40, 900, 32, 40, 600};
    ck_assert_uint_eq(count_of(&less), 0);
    ck_assert_uint_eq(count_of(&sagging), 0);
    ck_assert_uint_eq(count_of(&same_bottom), 0); /* above 85 % of 40 m, and back: one bottom */
}
END_TEST

/* 20 min at 30 m want a first stop at 9 m: down from 6.6 m to 12.4 m is less than 6 m, and more than a step below it.
 */
START_TEST(below_the_first_stop_counts_from_a_step_on)
{
    const struct shape below = {30, 1200, 6.6, 12.4, 120}, less = {30, 1200, 6.6, 11.8, 120};
    ck_assert_uint_eq(count_of(&below), 1);
    ck_assert_uint_eq(count_of(&less), 0);
}
END_TEST

/* Back to the bottom from less than half of its depth: the bottom is left the second time, and going down counts. */
START_TEST(back_to_the_bottom_from_far_above)
{
    const struct shape far = {40, 900, 18, 39, 300}, near = {40, 900, 22, 39, 300};
    ck_assert_uint_eq(count_of(&far), 1);
    ck_assert_uint_eq(count_of(&near), 0);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {
        raises_descended_again, its_effect_is_that_of_having_stayed,        two_levels_are_a_note,
        spares_descended_again, below_the_first_stop_counts_from_a_step_on, back_to_the_bottom_from_far_above};
    return SUITE_RUN("descended again", tests);
}
