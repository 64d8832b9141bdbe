/*
 * Leaving the loop under water: one note a time, with what followed.
 * Expected: what the profiles below say; stops required are those of the schedule, held elsewhere (tests/ref/ascent).
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "review/scene/owed.h"
#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish plain = {.plan = NULL}, held = {.hold = true};

/* 40 m on the loop until 10:00, a sample every 10 s; 18/45 and 50 are carried. */
static struct made_dive on_loop(double *time_s, double *depth_m)
{
    struct made_dive made = made_start(1.0);
    made_carried(&made, 0.18, 0.45);
    made_carried(&made, 0.5, 0);
    made_loop(&made, 0.18, 0.45, 1.2);
    *time_s = *depth_m = 0;
    made_sample(&made, 0, 0);
    leg(&made, time_s, depth_m, 40, 120, 10);
    leg(&made, time_s, depth_m, 40, 480, 10);
    return made;
}

static void up(struct made_dive *made, double *time_s, double *depth_m)
{
    leg(made, time_s, depth_m, 0, 600, 10);
}

/* Left at 10:10 for good: the way up, ten minutes, is on open circuit. */
START_TEST(raises_left_loop)
{
    struct reviewed reviewed;
    double time_s, depth_m;
    struct made_dive made = on_loop(&time_s, &depth_m);
    made_open(&made, 0.18, 0.45);
    up(&made, &time_s, &depth_m);
    reviewed_make(&reviewed, &made, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), 1);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_LEFT_LOOP);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_double_eq_tol(finding->from_s, 610, 1e-9);
    ck_assert_double_eq_tol(finding->to_s, 1200, 1e-9);
    ck_assert_double_eq_tol(finding->value, 40 - 40.0 / 60, 1e-9);
    ck_assert_str_eq(finding->unit, "m");
    ck_assert_ptr_nonnull(strstr(finding->text, "on 18/45 at 10:10 and 39.3 m"));
    ck_assert_ptr_nonnull(strstr(finding->text, "not back on the loop: open circuit to the surface, 9:50 min later"));
    reviewed_free(&reviewed);
}
END_TEST

/* Two minutes off the loop at the bottom, then back; twice. Each is a finding with its own end, hold tried or not. */
START_TEST(each_time_is_a_finding)
{
    struct reviewed reviewed;
    double time_s, depth_m;
    struct made_dive made = on_loop(&time_s, &depth_m);
    for (int i = 0; i < 2; i++) {
        made_open(&made, 0.18, 0.45);
        leg(&made, &time_s, &depth_m, 40, 120, 10);
        made_loop(&made, 0.18, 0.45, 1.2);
        leg(&made, &time_s, &depth_m, 40, 30, 10);
    }
    up(&made, &time_s, &depth_m);
    reviewed_make(&reviewed, &made, &held);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), 2);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_LEFT_LOOP);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_int_eq(finding->hold, PLM_HOLD_FIRM);
    ck_assert_ptr_nonnull(strstr(finding->text, "on 18/45 at 10:10 and 40.0 m"));
    ck_assert_ptr_nonnull(strstr(finding->text, "back on the loop at 12:10 and 40.0 m, after 2:00 min"));
    ck_assert_ptr_nonnull(strstr(finding[1].text, "at 12:40 and 40.0 m"));
    reviewed_free(&reviewed);
}
END_TEST

/* Twenty seconds on the loop in between are no return; half a minute is. merge_s is 30 s. */
START_TEST(a_moment_on_the_loop_is_no_return)
{
    static const struct {
        double between_s;
        size_t times;
    } rows[] = {{20, 1}, {30, 2}};
    for (int i = 0; i < 2; i++) {
        struct reviewed reviewed;
        double time_s, depth_m;
        struct made_dive made = on_loop(&time_s, &depth_m);
        made_open(&made, 0.18, 0.45);
        leg(&made, &time_s, &depth_m, 40, 60, 10);
        made_loop(&made, 0.18, 0.45, 1.2);
        leg(&made, &time_s, &depth_m, 40, rows[i].between_s, 10);
        made_open(&made, 0.18, 0.45);
        leg(&made, &time_s, &depth_m, 40, 60, 10);
        made_loop(&made, 0.18, 0.45, 1.2);
        up(&made, &time_s, &depth_m);
        reviewed_make(&reviewed, &made, &plain);
        ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), rows[i].times);
        if (rows[i].times == 1) {
            ck_assert_double_eq_tol(reviewed_first(&reviewed, PLM_FINDING_LEFT_LOOP)->to_s, 750, 1e-9);
        }
        reviewed_free(&reviewed);
    }
}
END_TEST

/* After twenty minutes more at 40 m stops are required: as many as the schedule has from there on the mixes carried. */
START_TEST(stops_required_then_are_told)
{
    struct reviewed reviewed;
    double time_s, depth_m;
    struct made_dive made = on_loop(&time_s, &depth_m);
    leg(&made, &time_s, &depth_m, 40, 1200, 10);
    made_open(&made, 0.18, 0.45);
    up(&made, &time_s, &depth_m);
    reviewed_make(&reviewed, &made, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_LEFT_LOOP);
    struct plm_review_scene scene = plmi_review_scene_of(&reviewed.input);
    double owed_min = plmi_review_owed_min(&scene, finding->first_point);
    ck_assert_double_gt(owed_min, 3);
    char told[64];
    snprintf(told, sizeof told, "with %.1f min of stops required then;", owed_min);
    ck_assert_ptr_nonnull(strstr(finding->text, told));
    reviewed_free(&reviewed);
}
END_TEST

/* A record that ends in the water tells no more than its end. Five minutes at 12 m ask for no stop. */
START_TEST(a_record_that_ends_in_the_water)
{
    struct reviewed reviewed;
    double time_s = 0, depth_m = 0;
    struct made_dive made = made_start(1.0);
    made_loop(&made, 0.21, 0, 1.2);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 12, 300, 10);
    made_open(&made, 0.21, 0);
    leg(&made, &time_s, &depth_m, 10, 60, 10);
    reviewed_make(&reviewed, &made, &plain);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_LEFT_LOOP);
    ck_assert_ptr_nonnull(strstr(finding->text, "open circuit to the end of the record"));
    ck_assert_ptr_nonnull(strstr(finding->text, "no stops required then"));
    reviewed_free(&reviewed);
}
END_TEST

/* A loop to the surface and left there; open circuit before the loop under water; open circuit alone. */
START_TEST(spares_left_loop)
{
    struct reviewed reviewed;
    double time_s, depth_m;
    struct made_dive made = on_loop(&time_s, &depth_m);
    up(&made, &time_s, &depth_m);
    made_open(&made, 0.21, 0);
    leg(&made, &time_s, &depth_m, 0, 60, 10);
    reviewed_make(&reviewed, &made, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), 0);
    reviewed_free(&reviewed);

    made = made_start(1.0);
    time_s = depth_m = 0;
    made_open(&made, 0.32, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 6, 60, 10);
    made_loop(&made, 0.21, 0, 1.2);
    leg(&made, &time_s, &depth_m, 20, 300, 10);
    up(&made, &time_s, &depth_m);
    reviewed_make(&reviewed, &made, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), 0);
    reviewed_free(&reviewed);

    made = made_start(1.0);
    time_s = depth_m = 0;
    made_open(&made, 0.32, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 20, 300, 10);
    up(&made, &time_s, &depth_m);
    reviewed_make(&reviewed, &made, &plain);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_LEFT_LOOP), 0);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {raises_left_loop,
                                  each_time_is_a_finding,
                                  a_moment_on_the_loop_is_no_return,
                                  stops_required_then_are_told,
                                  a_record_that_ends_in_the_water,
                                  spares_left_loop};
    return SUITE_RUN("left-loop", tests);
}
