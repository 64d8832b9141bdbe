/*
 * Oxygen cells one by one: which did not move, what the dive comes to by each alone, and what stands by all of them.
 * Minutes at a constant pressure are held against the NOAA table (180 min at 1.3 bar, 570 min at 0.7, 240 min at 1.1).
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "review/scene/cells.h"
#include "support/reviewed.h"
#include "support/suite.h"

/* What three cells read at a moment. */
typedef void reading(double time_s, double cell_bar[3]);

/* On the loop at 30 m for so many minutes, a sample every 10 s. */
static void dive(struct reviewed *reviewed, reading *read, double minutes)
{
    struct made_dive made = made_start(1.0);
    double cell_bar[3];
    made_loop(&made, 0.21, 0.35, 1.3);
    for (double time_s = 0; time_s <= minutes * 60 + 120; time_s += 10) {
        double down_s = fmin(time_s, minutes * 60 + 120 - time_s);
        read(time_s, cell_bar);
        made_sample_cells(&made, time_s, fmin(30, down_s / 2), cell_bar[0], cell_bar[1], cell_bar[2]);
    }
    reviewed_make(reviewed, &made, &(struct review_wish){.hold = true});
}

/* 0.7 bar for ten minutes, then up to 1.3 within two. */
static double loop_bar(double time_s)
{
    return 0.7 + fmin(0.6, fmax(0, (time_s - 600) / 200));
}

/* A wave of +-0.02 bar that no two cells share. */
static double noise_bar(double time_s, int cell)
{
    return 0.02 * sin(time_s * (0.11 + 0.07 * cell) + cell);
}

static void good(double time_s, double cell_bar[3])
{
    for (int i = 0; i < 3; i++) {
        cell_bar[i] = loop_bar(time_s) + noise_bar(time_s, i);
    }
}

/* A step; the second comes to 63 % of it within half a minute. */
static void lagging(double time_s, double cell_bar[3])
{
    double rise = time_s < 600 ? 0 : 1 - exp(-(time_s - 600) / 30);
    for (int i = 0; i < 3; i++) {
        cell_bar[i] = (time_s < 600 ? 0.7 : 1.3) + noise_bar(time_s, i);
    }
    cell_bar[1] = 0.7 + 0.6 * rise + noise_bar(time_s, 1);
}

static void stuck(double time_s, double cell_bar[3])
{
    good(time_s, cell_bar);
    cell_bar[1] = time_s < 300 ? cell_bar[1] : 0.71;
}

static void limited(double time_s, double cell_bar[3])
{
    good(time_s, cell_bar);
    cell_bar[2] = fmin(cell_bar[2], 1.05);
}

/* Between the others and never far from them. */
static void stuck_within(double time_s, double cell_bar[3])
{
    good(time_s, cell_bar);
    double bar = time_s < 600 ? 0.95 : 1.23;
    cell_bar[0] = bar + noise_bar(time_s, 0);
    cell_bar[2] = bar + noise_bar(time_s, 2);
    cell_bar[1] = 1.09;
}

/* The loop stays at 1.3 bar; one cell drops and comes back. */
static void wandering(double time_s, double cell_bar[3])
{
    for (int i = 0; i < 3; i++) {
        cell_bar[i] = 1.3;
    }
    cell_bar[0] = time_s > 900 && time_s < 1500 ? 0.9 : 1.3;
}

static const struct plm_finding *only(const struct reviewed *reviewed)
{
    if (reviewed_count(reviewed, PLM_FINDING_CELLS_DISAGREE) != 1) {
        reviewed_print(reviewed);
    }
    ck_assert_uint_eq(reviewed_count(reviewed, PLM_FINDING_CELLS_DISAGREE), 1);
    return reviewed_first(reviewed, PLM_FINDING_CELLS_DISAGREE);
}

START_TEST(spares_good_and_slow_cells)
{
    reading *const reads[] = {good, lagging};
    for (size_t i = 0; i < 2; i++) {
        struct reviewed reviewed;
        size_t count = 1;
        dive(&reviewed, reads[i], 40);
        ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CELLS_DISAGREE), 0);
        (void)plm_findings_cells(reviewed.findings, &count);
        ck_assert_uint_eq(count, 0);
        reviewed_free(&reviewed);
    }
}
END_TEST

START_TEST(names_a_cell_that_is_stuck)
{
    struct reviewed reviewed;
    dive(&reviewed, stuck, 40);
    const struct plm_finding *finding = only(&reviewed);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_ptr_nonnull(strstr(finding->text, "Cell 2 did not move"));
    ck_assert_double_eq_tol(finding->value, 0.61, 0.03);
    ck_assert_double_le(finding->from_s, 300);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(names_a_cell_that_wanders_and_not_those_that_do_not)
{
    struct reviewed reviewed;
    dive(&reviewed, wandering, 40);
    ck_assert_ptr_nonnull(strstr(only(&reviewed)->text, "Cell 1 was apart"));
    reviewed_free(&reviewed);
}
END_TEST

/* One after the other: a cell that stood still at first, and another that is low later on. */
static void two_faults(double time_s, double cell_bar[3])
{
    good(time_s, cell_bar);
    cell_bar[1] = time_s < 900 ? 0.71 : cell_bar[1];
    cell_bar[2] = time_s < 900 ? cell_bar[2] : 0.7 * cell_bar[2];
}

START_TEST(names_each_cell_for_what_it_did)
{
    struct reviewed reviewed;
    size_t count = 0;
    dive(&reviewed, two_faults, 40);
    ck_assert_uint_eq(reviewed_count(&reviewed, PLM_FINDING_CELLS_DISAGREE), 2);
    const struct plm_finding *findings = plm_findings_get(reviewed.findings, &count);
    bool second = false, third = false;
    for (size_t i = 0; i < count; i++) {
        second = second || strstr(findings[i].text, "Cell 2 did not move") != NULL;
        third = third || strstr(findings[i].text, "Cell 3 was apart") != NULL;
    }
    if (!(second && third)) {
        reviewed_print(&reviewed);
    }
    ck_assert(second && third);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(names_a_cell_at_its_limit)
{
    struct reviewed reviewed;
    dive(&reviewed, limited, 40);
    const struct plm_finding *finding = only(&reviewed);
    ck_assert_ptr_nonnull(strstr(finding->text, "Cell 3 gave no more than 1.05 bar"));
    ck_assert_double_eq_tol(finding->value, 0.27, 0.03);
    ck_assert_double_eq_tol(finding->from_s, 660, 15); /* 1.0 bar at 660 s, 1.05 at 670 s */
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(notes_a_cell_that_only_did_not_move)
{
    struct reviewed reviewed;
    dive(&reviewed, stuck_within, 40);
    const struct plm_finding *finding = only(&reviewed);
    ck_assert_int_eq(finding->severity, PLM_SEVERITY_NOTE);
    ck_assert_ptr_nonnull(strstr(finding->text, "Cell 2 did not move"));
    ck_assert(isnan(finding->limit));
    reviewed_free(&reviewed);
}
END_TEST

/* Two cells at 1.3, the third elsewhere, all the time. */
static void third_at(double cell_bar[3], double third_bar)
{
    cell_bar[0] = cell_bar[1] = 1.3;
    cell_bar[2] = third_bar;
}

static void third_low(double time_s, double cell_bar[3])
{
    (void)time_s;
    third_at(cell_bar, 0.7);
}

static void third_high(double time_s, double cell_bar[3])
{
    (void)time_s;
    third_at(cell_bar, 1.55);
}

/* 92 min, of which ambient pressure holds less than 1.3 bar for 12 s: 51.0 % at 1.3 bar, 16.1 % at 0.7. */
START_TEST(tells_what_each_cell_comes_to)
{
    struct reviewed reviewed;
    size_t count = 0;
    dive(&reviewed, third_low, 90);
    const struct plm_cell_figures *cells = plm_findings_cells(reviewed.findings, &count);
    ck_assert_uint_eq(count, 3);
    const double want_pct[] = {51.0, 51.0, 16.1};
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(cells[i].cell, i + 1);
        ck_assert(!cells[i].still);
        ck_assert_double_eq_tol(cells[i].cns_pct, want_pct[i], 0.2);
    }
    const struct plm_trace_summary *summary = plm_trace_summary_get(reviewed.trace);
    ck_assert_double_eq_tol(summary->cns_pct, cells[0].cns_pct, 1e-9);
    ck_assert_double_eq_tol(summary->surfacing_gradient_pct, cells[0].surfacing_gradient_pct, 1e-9);
    /* less oxygen is more inert gas */
    ck_assert_double_gt(cells[2].surfacing_gradient_pct, cells[0].surfacing_gradient_pct + 5);
    ck_assert_double_gt(cells[2].owed_min, cells[0].owed_min + 1);
    reviewed_free(&reviewed);
}
END_TEST

/* 190 min at 1.3 bar are 106 % of the clock: a caution, or more. By 0.7 bar they are a third of that; by 1.55 more. */
START_TEST(is_firm_only_where_it_stands_by_each_cell)
{
    struct reviewed reviewed;
    dive(&reviewed, third_low, 190);
    const struct plm_finding *finding = reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE);
    ck_assert_int_ge(finding->severity, PLM_SEVERITY_CAUTION);
    ck_assert_int_eq(finding->hold, PLM_HOLD_MARGINAL);
    ck_assert(finding->cells_differ);
    reviewed_free(&reviewed);
    dive(&reviewed, third_high, 190);
    finding = reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE);
    ck_assert_int_eq(finding->hold, PLM_HOLD_FIRM);
    ck_assert(!finding->cells_differ);
    reviewed_free(&reviewed);
}
END_TEST

/* A cell that did not move takes no part in that; its figures are told all the same. */
START_TEST(a_cell_that_did_not_move_decides_no_hold)
{
    struct reviewed reviewed;
    size_t count = 0;
    dive(&reviewed, stuck, 205);
    ck_assert_int_eq(reviewed_first(&reviewed, PLM_FINDING_CNS_SINGLE)->hold, PLM_HOLD_FIRM);
    const struct plm_cell_figures *cells = plm_findings_cells(reviewed.findings, &count);
    ck_assert_uint_eq(count, 3);
    ck_assert(cells[1].still && !cells[0].still && !cells[2].still);
    ck_assert_double_lt(cells[1].cns_pct, 45);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {spares_good_and_slow_cells,
                                  names_a_cell_that_is_stuck,
                                  names_a_cell_that_wanders_and_not_those_that_do_not,
                                  names_each_cell_for_what_it_did,
                                  names_a_cell_at_its_limit,
                                  notes_a_cell_that_only_did_not_move,
                                  tells_what_each_cell_comes_to,
                                  is_firm_only_where_it_stands_by_each_cell,
                                  a_cell_that_did_not_move_decides_no_hold};
    return SUITE_RUN("cells", tests);
}
