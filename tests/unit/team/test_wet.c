/*
 * Records that begin before their dive and run on after it: teams and dives of nobody's name go by the times in the
 * water. What is planted in rows is the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/suite.h"
#include "team/grouping.h"

#define MOST       2
#define MORNING_MS INT64_C(36000000) /* 10:00 UTC */

struct rows {
    struct plmi_audited_dive dives[MOST], *all[MOST];
    size_t count;
};

/* A dive of wet_min at 30 m that goes under water down_min after ten, in a record that holds before_min and after_min
 * more. */
static void row_add(struct rows *rows, const char *diver, double down_min, double wet_min, double before_min,
                    double after_min)
{
    struct plmi_audited_dive *audited = &rows->dives[rows->count];
    *audited = (struct plmi_audited_dive){
        .row = {.diver = diver, .file = diver, .max_depth_m = 30, .other_record = -1, .clock_offset_s = (double)NAN},
        .before_s = 60 * before_min,
        .after_s = 60 * after_min};
    audited->row.duration_s = 60 * (before_min + wet_min + after_min);
    audited->row.start = (struct plm_stamp){.local_ms = MORNING_MS + llround(60000 * (down_min - before_min)),
                                            .known = true,
                                            .has_clock = true,
                                            .has_zone = true};
    rows->all[rows->count++] = audited;
}

/* Of Skua's 40 min of water the other's dive takes part or not, as counted by hand; the records alone would say
 * otherwise. */
START_TEST(a_team_is_together_in_the_water)
{
    static const struct {
        double before_min, after_min, down_min, other_before_min, other_after_min;
        bool team;
    } rows_of[] = {{100, 0, -90, 0, 0, false}, /* up at -50: the dive is over before Skua's begins, within the record */
                   {0, 100, 60, 0, 0, false},  /* down at 60: Skua left the water at 40 */
                   {100, 100, -40, 10, 10, false},
                   {160, 0, 0, 0, 160, true},  /* at one time; of the records' 200 min only 40 are common */
                   {160, 0, 20, 0, 160, true}, /* 20 of 40 min */
                   {160, 0, 21, 0, 160, false},
                   {0, 0, 19, 100, 0, true}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        struct rows rows = {.count = 0};
        row_add(&rows, "Skua", 0, 40, rows_of[i].before_min, rows_of[i].after_min);
        row_add(&rows, "Petrel", rows_of[i].down_min, 40, rows_of[i].other_before_min, rows_of[i].other_after_min);
        ck_assert(plmi_team_rows(rows.all, rows.count));
        ck_assert_msg((rows.dives[0].row.team == rows.dives[1].row.team) == rows_of[i].team, "row %zu", i);
    }
}
END_TEST

/* Who is in the water first is team 1, though the other's record begins first. */
START_TEST(numbers_go_by_the_water)
{
    struct rows rows = {.count = 0};
    row_add(&rows, "Skua", 300, 40, 290, 0);
    row_add(&rows, "Petrel", 100, 40, 0, 0);
    ck_assert(plmi_team_rows(rows.all, rows.count));
    ck_assert_int_eq(rows.dives[0].row.team, 2);
    ck_assert_int_eq(rows.dives[1].row.team, 1);
}
END_TEST

START_TEST(between_two_in_the_water)
{
    struct rows rows = {.count = 0};
    row_add(&rows, "Skua", 0, 40, 100, 7);
    row_add(&rows, "Petrel", 25, 50, 5, 3);
    ck_assert_double_eq(plmi_wet_apart_s(rows.all[0], rows.all[1]), 25 * 60);
    ck_assert_double_eq(plmi_wet_apart_s(rows.all[1], rows.all[0]), -25 * 60);
    ck_assert_double_eq(plmi_wet_length_s(rows.all[0]), 40 * 60);
    rows.dives[1].row.start.known = false;
    ck_assert(isnan(plmi_wet_apart_s(rows.all[0], rows.all[1])));
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_team_is_together_in_the_water, numbers_go_by_the_water, between_two_in_the_water};
    return SUITE_RUN("wet", tests);
}
