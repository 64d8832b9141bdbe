/*
 * One event, one finding: parts of a dive, what is joined within one, and the order of what is left. Depths and times
 * of the parts are those of the profiles, by hand; oxygen at sea level is (1 + depth / 10) bar.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "review/scene/list.h"
#include "review/scene/parts.h"
#include "support/reviewed.h"
#include "support/suite.h"

static const struct review_wish plain = {.hold = false}, held = {.hold = true};

/* Air: 20 min at 30 m, a minute of way, stops at 9, 6 and 3 m, a sample every 5 s. A rise to 6.5 m that is taken back
 * is a part of the stop at 9 m. */
static struct made_dive with_stops(void)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 5);
    leg(&made, &time_s, &depth_m, 30, 1080, 5); /* 1200 */
    leg(&made, &time_s, &depth_m, 9, 140, 5);   /* 1340 */
    leg(&made, &time_s, &depth_m, 9, 60, 5);    /* 1400 */
    leg(&made, &time_s, &depth_m, 6.5, 20, 5);
    leg(&made, &time_s, &depth_m, 9, 20, 5);
    leg(&made, &time_s, &depth_m, 9, 60, 5); /* 1500 */
    leg(&made, &time_s, &depth_m, 6, 20, 5); /* 1520, through 7.5 m at 1510 */
    leg(&made, &time_s, &depth_m, 6, 180, 5);
    leg(&made, &time_s, &depth_m, 3, 20, 5); /* 1720, through 4.5 m at 1710 */
    leg(&made, &time_s, &depth_m, 3, 180, 5);
    leg(&made, &time_s, &depth_m, 0, 30, 5); /* 1930, through 1.5 m at 1915 */
    leg(&made, &time_s, &depth_m, 0, 60, 5);
    return made;
}

START_TEST(a_dive_has_its_parts)
{
    /* The bottom is 85 % of 30 m, met at 102 s, and left at 1200 s; the band about 9 m begins at 10.5 m, met at 1330 s.
     */
    static const struct {
        enum plmi_review_part part;
        double end_s;
    } rows[] = {{PLMI_PART_DOWN, 105},  {PLMI_PART_BOTTOM, 1205}, {PLMI_PART_WAY, 1330}, {PLMI_PART_STOP, 1515},
                {PLMI_PART_STOP, 1715}, {PLMI_PART_STOP, 1920},   {PLMI_PART_WAY, 1930}, {PLMI_PART_SURFACE, 1990}};
    struct reviewed reviewed;
    struct made_dive made = with_stops();
    reviewed_make(&reviewed, &made, &plain);
    struct plm_review_scene scene = plmi_review_scene_of(&reviewed.input);
    struct plm_review_parts parts;
    ck_assert_int_eq(plmi_review_parts_find(&parts, &scene), PLM_STATUS_OK);
    ck_assert_uint_eq(parts.count, sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < parts.count; i++) {
        size_t end = parts.items[i].end < scene.count ? parts.items[i].end : scene.count - 1;
        ck_assert_msg(parts.items[i].part == rows[i].part, "part %zu", i);
        ck_assert_double_eq_tol(plmi_review_time_s(&scene, end), rows[i].end_s, 5.1);
    }
    scene.parts = &parts;
    ck_assert_int_eq(plmi_review_part_of(&scene, 0).part, PLMI_PART_DOWN);
    ck_assert(plmi_review_at_stop(&scene, parts.items[3].end - 1));
    ck_assert(!plmi_review_at_stop(&scene, parts.items[2].end - 1));
    plmi_review_parts_free(&parts);
    reviewed_free(&reviewed);
}
END_TEST

/* Air to 12 m, then an hour on oxygen at 6 m, drifting to deepest_m and back every five minutes. */
static struct made_dive oxygen_hour(double deepest_m)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 12, 60, 5);
    leg(&made, &time_s, &depth_m, 12, 600, 5);
    leg(&made, &time_s, &depth_m, 6, 60, 5);
    made_open(&made, 1.0, 0);
    for (int i = 0; i < 12; i++) {
        leg(&made, &time_s, &depth_m, 6, 180, 5);
        leg(&made, &time_s, &depth_m, deepest_m, 60, 5);
        leg(&made, &time_s, &depth_m, 6, 60, 5);
    }
    leg(&made, &time_s, &depth_m, 0, 90, 5);
    return made;
}

START_TEST(an_hour_on_oxygen_is_one_note)
{
    struct reviewed reviewed;
    struct made_dive made = oxygen_hour(6.5); /* 1.65 bar */
    reviewed_make(&reviewed, &made, &held);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_OXYGEN_HIGH);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_OXYGEN_HIGH), 1);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_MIX_TOO_DEEP), 0);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_int_eq(finding->hold, PLM_HOLD_FIRM);
    ck_assert_int_eq(finding->times, 12);
    ck_assert_double_eq_tol(finding->value, 1.65, 1e-6);
    /* Above 1.62 bar, that is 6.2 m, for 0.6 of two minutes each time; half an interval more on either side. */
    ck_assert_double_eq_tol(finding->held_s, 12 * 72, 12 * 10);
    ck_assert_ptr_nonnull(strstr(finding->text, "12 times"));
    reviewed_free(&reviewed);
}
END_TEST

/* The same drift is one finding on each of two stops. */
START_TEST(two_stops_are_two_findings)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 150, 5);
    for (int i = 0; i < 2; i++) {
        leg(&made, &time_s, &depth_m, i == 0 ? 27 : 24, 30, 5);
        for (int j = 0; j < 3; j++) {
            made_open(&made, 0.21, 0);
            leg(&made, &time_s, &depth_m, depth_m, 60, 5);
            made_open(&made, 0.70, 0);
            leg(&made, &time_s, &depth_m, depth_m, 30, 5);
        }
        made_open(&made, 0.21, 0);
        leg(&made, &time_s, &depth_m, depth_m, 60, 5);
    }
    leg(&made, &time_s, &depth_m, 0, 200, 5);
    struct reviewed reviewed;
    made.rules.bottom_frac = 0.99;
    reviewed_make(&reviewed, &made, &plain);
    size_t count = 0, on_stops = 0;
    const struct plm_finding *findings = plm_findings_get(reviewed.findings, &count);
    for (size_t i = 0; i < count; i++) {
        bool at_rest = findings[i].kind == PLM_FINDING_OXYGEN_HIGH && findings[i].times == 3;
        on_stops += at_rest;
        /* 0.7 (1 + 2.7) = 2.59 bar, and 2.38 bar at 24 m */
        ck_assert(!at_rest || fabs(findings[i].value - 2.59) < 1e-6 || fabs(findings[i].value - 2.38) < 1e-6);
    }
    ck_assert_uint_eq(on_stops, 2);
    reviewed_free(&reviewed);
}
END_TEST

/* 25 min at 40 m, then about a stop at 9 m with two rises to 4.5 m that are taken back; gradient factors of 85 %, by
 * which the first stop is at 9 m. */
static void waves(struct reviewed *reviewed)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made.rules.gf_low_pct = made.rules.gf_high_pct = 85;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 40, 120, 5);
    leg(&made, &time_s, &depth_m, 40, 1380, 5);
    leg(&made, &time_s, &depth_m, 9, 210, 5);
    for (int i = 0; i < 3; i++) {
        leg(&made, &time_s, &depth_m, 9, 40, 5);
        leg(&made, &time_s, &depth_m, 4.5, 60, 5);
        leg(&made, &time_s, &depth_m, 9, 20, 5);
    }
    leg(&made, &time_s, &depth_m, 9, 1200, 5);
    reviewed_make(reviewed, &made, &plain);
}

START_TEST(waves_on_one_stop_are_one_finding)
{
    struct reviewed reviewed;
    waves(&reviewed);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CEILING_EXCEEDED);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED), 1);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_STOP_CUT_SHORT), 0);
    ck_assert_int_eq(finding->times, 2);
    ck_assert_ptr_nonnull(strstr(finding->text, "2 times"));
    reviewed_free(&reviewed);
}
END_TEST

/* Minutes at 40 m, then ten at stop_m, in a recorder's steps of 0.1 m. Returns: [m] by how much the ceiling is broken.
 */
static double stepped(struct reviewed *reviewed, double bottom_min, double stop_m)
{
    struct made_dive made = made_start(1.0);
    made_open(&made, 0.21, 0);
    double end_s = bottom_min * 60, up_s = (40 - stop_m) / 9 * 60;
    for (double time_s = 0; time_s < end_s + up_s + 600; time_s += 5) {
        double depth_m = time_s < 120 ? time_s / 3 : time_s < end_s ? 40 : fmax(stop_m, 40 - (time_s - end_s) * 0.15);
        made_sample(&made, time_s, round(depth_m * 10) / 10);
    }
    reviewed_make(reviewed, &made, &plain);
    return fmax(0, -plm_trace_summary_get(reviewed->trace)->min_clearance_m);
}

START_TEST(less_than_half_a_step_is_no_finding)
{
    size_t less = 0, more = 0;
    for (int minutes = 20; minutes < 30; minutes++) {
        for (int step = 80; step < 160; step += 2) {
            struct reviewed reviewed;
            double broken_m = stepped(&reviewed, minutes, step / 10.0);
            size_t findings = reviewed_count(&reviewed, PLM_FINDING_CEILING_EXCEEDED) +
                              reviewed_count(&reviewed, PLM_FINDING_STOP_CUT_SHORT);
            ck_assert_double_eq(plm_dive_info_get(reviewed.dive)->depth_step_m, 0.1);
            ck_assert_msg((findings > 0) == (broken_m > 0.05), "%d min, %d dm: %f m", minutes, step, broken_m);
            less += broken_m > 0 && broken_m < 0.05;
            more += broken_m > 0.05;
            reviewed_free(&reviewed);
        }
    }
    ck_assert_uint_gt(less, 0);
    ck_assert_uint_gt(more, 0);
}
END_TEST

START_TEST(worst_first_is_by_the_share_of_the_serious_bound)
{
    static const struct {
        enum plm_finding_kind kind;
        double reached, caution, serious;
        enum plm_severity severity;
    } rows[] = {
        {PLM_FINDING_CEILING_EXCEEDED, 10.5, 5, 10, PLM_SEVERITY_SERIOUS},
        {PLM_FINDING_CNS_SINGLE, 239, 100, 200, PLM_SEVERITY_SERIOUS},
        {PLM_FINDING_STOP_CUT_SHORT, 90, 60, 300, PLM_SEVERITY_CAUTION},
        {PLM_FINDING_GAS_DENSITY, 9, 6.2, (double)INFINITY, PLM_SEVERITY_CAUTION},
        {PLM_FINDING_CNS_DAY, 199, 100, 200, PLM_SEVERITY_CAUTION},
        {PLM_FINDING_SURFACED_OWING_STOPS, 0.5, 1, 5, PLM_SEVERITY_NOTE},
    };
    static const enum plm_finding_kind order[] = {PLM_FINDING_CNS_SINGLE,  PLM_FINDING_CEILING_EXCEEDED,
                                                  PLM_FINDING_CNS_DAY,     PLM_FINDING_STOP_CUT_SHORT,
                                                  PLM_FINDING_GAS_DENSITY, PLM_FINDING_SURFACED_OWING_STOPS};
    struct plm_finding_list list;
    plmi_finding_list_init(&list);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plm_finding *finding = plmi_finding_list_add(&list);
        finding->kind = rows[i].kind;
        plmi_finding_grade(finding, rows[i].reached, rows[i].caution, rows[i].serious);
        ck_assert_msg(finding->severity == rows[i].severity, "row %zu", i);
    }
    plmi_finding_list_sort(&list);
    for (size_t i = 0; i < list.count; i++) {
        ck_assert_msg(list.items[i].kind == order[i], "place %zu", i);
    }
    plmi_finding_list_free(&list);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_dive_has_its_parts,
                                  an_hour_on_oxygen_is_one_note,
                                  two_stops_are_two_findings,
                                  waves_on_one_stop_are_one_finding,
                                  less_than_half_a_step_is_no_finding,
                                  worst_first_is_by_the_share_of_the_serious_bound};
    return SUITE_RUN("events", tests);
}
