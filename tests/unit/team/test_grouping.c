/*
 * Records of one dive, dives of one team, days, and clocks that cannot be right: each on both sides of its bound. What
 * is planted in rows and records is the truth.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "support/made_dive.h"
#include "support/planted.h"
#include "support/suite.h"
#include "team/grouping.h"

#define MOST 6

struct rows {
    struct plmi_audited_dive dives[MOST], *all[MOST];
    size_t count;
};

/* A row without a record: clock in seconds since UTC midnight, shown in its zone; 99: no zone. */
static struct plm_audit_row *row_add(struct rows *rows, const char *diver, double utc_s, int zone_h, double duration_s,
                                     double depth_m)
{
    struct plmi_audited_dive *audited = &rows->dives[rows->count];
    *audited = (struct plmi_audited_dive){.row = {.diver = diver,
                                                  .file = diver,
                                                  .duration_s = duration_s,
                                                  .max_depth_m = depth_m,
                                                  .other_record = -1,
                                                  .clock_offset_s = (double)NAN}};
    audited->row.start =
        (struct plm_stamp){.local_ms = llround(1000 * utc_s) + (zone_h == 99 ? 0 : INT64_C(3600000) * zone_h),
                           .offset_min = zone_h == 99 ? 0 : 60 * zone_h,
                           .known = true,
                           .has_clock = true,
                           .has_zone = zone_h != 99};
    rows->all[rows->count++] = audited;
    return &audited->row;
}

START_TEST(starts_apart)
{
    struct rows rows = {.count = 0};
    const struct plm_audit_row *east = row_add(&rows, "a", 1000, 11, 60, 10),
                               *zero = row_add(&rows, "b", 1000, 0, 60, 10);
    const struct plm_audit_row *west = row_add(&rows, "c", 1900, -4, 60, 10),
                               *bare = row_add(&rows, "d", 1000, 99, 60, 10);
    struct plm_audit_row *unknown = row_add(&rows, "e", 1000, 0, 60, 10);
    ck_assert_double_eq(plmi_start_apart_s(east, zero), 0);
    ck_assert_double_eq(plmi_start_apart_s(zero, east), 0);
    ck_assert_double_eq(plmi_start_apart_s(east, west), 900);
    ck_assert_double_eq(plmi_start_apart_s(west, east), -900);
    ck_assert_double_eq(plmi_start_apart_s(east, bare), -39600); /* as the clocks stand: 11 h */
    unknown->start.has_clock = false;
    ck_assert(isnan(plmi_start_apart_s(zero, unknown)));
}
END_TEST

/* Two divers at the same time, on clocks of two zones, are one team, whoever comes first. */
START_TEST(a_team_in_two_zones)
{
    for (int swapped = 0; swapped < 2; swapped++) {
        struct rows rows = {.count = 0};
        (void)row_add(&rows, "Skua", 36000, swapped ? 0 : 11, 3600, 40);
        (void)row_add(&rows, "Petrel", 36300, swapped ? 11 : 0, 3600, 42);
        (void)row_add(&rows, "Tern", 36000 + 39600, 11, 3600, 42); /* eleven hours later: on its own */
        ck_assert(plmi_team_rows(rows.all, rows.count));
        ck_assert(rows.dives[0].row.team == 1 && rows.dives[1].row.team == 1 && rows.dives[2].row.team == 2);
    }
}
END_TEST

/*
 * Half of the shorter dive at once is a team, a second less is none: two of an hour half an hour apart; one of 600 s
 * that begins 300 s before the other ends, or that ends 300 s after the other began.
 */
START_TEST(half_of_the_shorter_dive)
{
    static const struct {
        double apart_s, first_s, second_s;
        bool team;
    } rows_of[] = {{1800, 3600, 3600, true},   {1801, 3600, 3600, false}, {-1800, 3600, 3600, true},
                   {-1801, 3600, 3600, false}, {3300, 3600, 600, true},   {3301, 3600, 600, false},
                   {-300, 3600, 600, true},    {-301, 3600, 600, false},  {1000, 3600, 600, true},
                   {-100, 600, 3600, true},    {300, 600, 3600, true},    {301, 600, 3600, false},
                   {-3300, 600, 3600, true},   {-3301, 600, 3600, false}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        struct rows rows = {.count = 0};
        (void)row_add(&rows, "Skua", 40000, 0, rows_of[i].first_s, 40);
        (void)row_add(&rows, "Petrel", 40000 + rows_of[i].apart_s, 0, rows_of[i].second_s, 40);
        ck_assert(plmi_team_rows(rows.all, rows.count));
        ck_assert_msg((rows.dives[0].row.team == rows.dives[1].row.team) == rows_of[i].team, "row %zu", i);
    }
}
END_TEST

/* Within 10 m, or three tenths of the deeper dive; one diver is no team; teams are numbered by their earliest start, in
 * UTC. */
START_TEST(depths_and_numbers)
{
    static const struct {
        double depth_m;
        bool team;
    } deeper[] = {{30, true}, {30.1, false}, {10, true}, {9.9, false}};
    static const struct {
        double depth_m;
        bool team;
    } far_down[] = {{70, true}, {69, false}, {142, true}, {143, false}};
    for (int i = 0; i < 4; i++) {
        struct rows rows = {.count = 0};
        (void)row_add(&rows, "Skua", 40000, 0, 3600, 20);
        (void)row_add(&rows, "Petrel", 40000, 0, 3600, deeper[i].depth_m);
        (void)row_add(&rows, "Tern", 90000, 0, 3600, 100);
        (void)row_add(&rows, "Bracken", 90000, 0, 3600, far_down[i].depth_m);
        ck_assert(plmi_team_rows(rows.all, rows.count));
        ck_assert_msg((rows.dives[0].row.team == rows.dives[1].row.team) == deeper[i].team, "%g m", deeper[i].depth_m);
        ck_assert_msg((rows.dives[2].row.team == rows.dives[3].row.team) == far_down[i].team, "%g m",
                      far_down[i].depth_m);
    }
    struct rows rows = {.count = 0};
    (void)row_add(&rows, "Skua", 50000, 11, 3600, 20);
    (void)row_add(&rows, "SKUA", 50000, 11, 3600, 20);
    (void)row_add(&rows, "Petrel", 60000, -8, 3600, 20); /* later, though its clock shows less */
    ck_assert(plmi_team_rows(rows.all, rows.count));
    ck_assert(rows.dives[0].row.team == 1 && rows.dives[1].row.team == 2 && rows.dives[2].row.team == 3);
}
END_TEST

/* 100 and 50 OTU on one day; the second recorder of the first dive has 90 and counts for none. Another day and another
 * diver do not count. */
START_TEST(a_day_counts_each_dive_once)
{
    static const struct {
        const char *diver, *date;
        double otu;
        long twin;
        double of_day;
    } rows_of[] = {{"Skua", "2031-05-06", 100, -1, 150}, {"Skua", "2031-05-06", 90, 0, 150},
                   {"skua", "2031-05-06", 50, -1, 150},  {"Skua", "2031-05-07", 30, -1, 30},
                   {"Petrel", "2031-05-06", 70, -1, 70}, {"Skua", "", 20, -1, 20}};
    struct rows rows = {.count = 0};
    for (int i = 0; i < 6; i++) {
        struct plm_audit_row *row = row_add(&rows, rows_of[i].diver, 40000, 0, 3600, 40);
        memcpy(row->date, rows_of[i].date, strlen(rows_of[i].date) + 1);
        row->otu = rows_of[i].otu;
        row->other_record = rows_of[i].twin;
    }
    plmi_day_rows(rows.all, rows.count);
    for (int i = 0; i < 6; i++) {
        ck_assert_msg(fabs(rows.dives[i].row.otu_of_day - rows_of[i].of_day) < 1e-9, "row %d: %g", i,
                      rows.dives[i].row.otu_of_day);
    }
}
END_TEST

/* A row with its record. wet_s is that of the body: under a metre for some seconds at either end. */
static struct plm_audit_row *record_add(struct rows *rows, const struct planted *planted, const char *file)
{
    struct plm_dive *dive = planted_record(planted);
    struct plmi_audited_dive *audited = &rows->dives[rows->count];
    *audited = (struct plmi_audited_dive){.row = {.diver = planted->diver,
                                                  .file = file,
                                                  .max_depth_m = 60.4,
                                                  .duration_s = PLANTED_END_S,
                                                  .other_record = -1}};
    audited->row.start = plm_dive_info_get(dive)->start;
    audited->row.clock_offset_s = (double)NAN;
    ck_assert(plmi_series_init(&audited->series, dive));
    audited->completeness = plmi_completeness_of(dive, &audited->series);
    audited->wet_s = PLANTED_END_S - 10;
    plm_dive_free(dive);
    rows->all[rows->count++] = audited;
    return &audited->row;
}

static void give_back(struct rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        plmi_series_free(&rows->dives[i].series);
    }
}

/* Of three recorders of one diver the two lesser ones point at the one with cells; a mate on the same profile is
 * nobody's. Nor is a stranger's name. */
START_TEST(records_of_one_dive)
{
    static const struct planted wrist = {.diver = "Skua", .step_s = 5, .begin_s = 30},
                                unit = {.diver = "SKUA", .step_s = 5, .cells = true};
    static const struct planted nameless = {.step_s = 10, .behind_s = 1800},
                                mate = {.diver = "Petrel", .body = 1, .step_s = 5, .cells = true};
    static const struct planted renamed = {.diver = "Tern", .step_s = 5};
    struct rows rows = {.count = 0};
    (void)record_add(&rows, &wrist, "a");
    (void)record_add(&rows, &unit, "b");
    (void)record_add(&rows, &nameless, "c");
    (void)record_add(&rows, &mate, "d");
    (void)record_add(&rows, &renamed, "e");
    plmi_pair_rows(rows.all, rows.count, 1);
    static const long twins[] = {1, -1, 1, -1, -1};
    for (int i = 0; i < 5; i++) {
        ck_assert_msg(rows.dives[i].row.other_record == twins[i], "row %d: %ld", i, rows.dives[i].row.other_record);
    }
    give_back(&rows);
}
END_TEST

/* One diver's clocks may be a day and two hours apart, and zones don't count; without a name it must be within the
 * dive. */
START_TEST(clocks_of_one_dive)
{
    static const struct {
        const char *diver;
        double behind_s;
        int offset_min;
        bool pair;
    } rows_of[] = {
        {"Skua", 26 * 3600.0 - 1, 0, true},   {"Skua", 26 * 3600.0 + 1, 0, false}, {"Skua", -26 * 3600.0 + 1, 0, true},
        {"Skua", -26 * 3600.0 - 1, 0, false}, {"Skua", 20 * 3600.0, 660, true},    {"Skua", 20 * 3600.0, -660, true},
        {NULL, PLANTED_END_S - 1, 0, true},   {NULL, PLANTED_END_S + 1, 0, false}, {NULL, 0, 660, true}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        const struct planted unit = {.diver = "Skua", .step_s = 5, .cells = true, .has_zone = true};
        const struct planted wrist = {.diver = rows_of[i].diver,
                                      .step_s = 5,
                                      .behind_s = rows_of[i].behind_s,
                                      .has_zone = true,
                                      .offset_min = rows_of[i].offset_min};
        struct rows rows = {.count = 0};
        (void)record_add(&rows, &unit, "a");
        (void)record_add(&rows, &wrist, "b");
        plmi_pair_rows(rows.all, rows.count, 1);
        ck_assert_msg(rows.dives[0].row.other_record == -1 && (rows.dives[1].row.other_record == 0) == rows_of[i].pair,
                      "row %zu", i);
        give_back(&rows);
    }
}
END_TEST

/*
 * A mate's clock that is an hour behind: an hour is to be added, as told where its dive would lie beside the team's. An
 * hour ahead, it is to be taken off. Both begin their record at the same moment; dives of 91 min that are an hour apart
 * lie together for less than half.
 */
START_TEST(raises_clock_doubt)
{
    static const struct {
        double behind_s;
        bool doubted;
        double add_s; /* to within 10 s, or where that is a whole quarter of an hour exactly */
    } rows_of[] = {{3600, true, 3600},
                   {-3600, true, -3600},
                   {6 * 3600.0, true, 6 * 3600.0},
                   {-11 * 3600.0, true, -11 * 3600.0},
                   {3600 + 80, true, 3600},
                   {-2 * 3600.0 - 2700 + 80, true, -2 * 3600.0 - 2700},
                   {3600 + 200, true, 3600 + 200},
                   {-3600 - 450, true, -3600 - 450},
                   {13 * 3600.0 - 60, true, 13 * 3600.0},
                   {13 * 3600.0 + 60, false, 0},
                   {-13 * 3600.0 - 60, false, 0}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        const struct planted one = {.diver = "Skua", .step_s = 5, .has_zone = true, .offset_min = 660};
        const struct planted two = {.diver = "Petrel", .body = 1, .step_s = 5, .has_zone = true};
        const struct planted off = {.diver = "Tern",
                                    .body = 2,
                                    .step_s = 5,
                                    .behind_s = rows_of[i].behind_s,
                                    .has_zone = true,
                                    .offset_min = 660};
        struct rows rows = {.count = 0};
        (void)record_add(&rows, &one, "a");
        (void)record_add(&rows, &two, "b");
        (void)record_add(&rows, &off, "c");
        ck_assert(plmi_team_rows(rows.all, rows.count));
        plmi_doubt_rows(rows.all, rows.count, 1);
        ck_assert(isnan(rows.dives[0].row.clock_offset_s) && isnan(rows.dives[1].row.clock_offset_s));
        ck_assert(rows.dives[0].row.team == rows.dives[1].row.team && rows.dives[2].row.team != rows.dives[0].row.team);
        double offset_s = rows.dives[2].row.clock_offset_s;
        double least_s = fabs(fmod(rows_of[i].add_s, 900)) > 0 ? 10 : 1e-9;
        ck_assert_msg(rows_of[i].doubted ? fabs(offset_s - rows_of[i].add_s) < least_s : isnan(offset_s),
                      "%g s behind: %g s", rows_of[i].behind_s, offset_s);
        ck_assert_uint_eq(rows.dives[2].row.note, rows_of[i].doubted);
        ck_assert_uint_eq(rows.dives[2].row.caution, 0);
        give_back(&rows);
    }
}
END_TEST

/*
 * Twenty minutes and more are doubted, less is a slow clock. As dives of 91 min twenty minutes apart are a team by
 * their clocks, the others' times are made too short for that here: the durations in the rows, not the records.
 */
START_TEST(spares_clock_doubt)
{
    static const struct {
        double behind_s;
        bool doubted;
    } rows_of[] = {{1180, false}, {1220, true}, {-1180, false}, {-1220, true}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        const struct planted one = {.diver = "Skua", .step_s = 5},
                             off = {.diver = "Tern", .body = 2, .step_s = 5, .behind_s = rows_of[i].behind_s};
        struct rows rows = {.count = 0};
        record_add(&rows, &one, "a")->duration_s = 1200;
        record_add(&rows, &off, "b")->duration_s = 1200;
        ck_assert(plmi_team_rows(rows.all, rows.count));
        plmi_doubt_rows(rows.all, rows.count, 1);
        double offset_s = rows.dives[1].row.clock_offset_s;
        ck_assert_msg(rows_of[i].doubted ? fabs(offset_s - rows_of[i].behind_s) < 10 : isnan(offset_s),
                      "%g s behind: %g s", rows_of[i].behind_s, offset_s);
        give_back(&rows);
    }
}
END_TEST

/* The second recorder of a dive whose clock is more than five minutes off its better's: what is to be added, by the
 * sign of the alignment. */
START_TEST(a_twin_s_clock)
{
    static const struct {
        double behind_s;
        bool doubted;
        double add_s;
    } rows_of[] = {
        {295, false, 0},       {305, true, 305},          {-295, false, 0},        {-305, true, -305},
        {900, true, 900},      {-2700 - 45, true, -2700}, {3600 + 45, true, 3600}, {3600 + 130, true, 3600 + 130},
        {7200 - 1, true, 7200}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        const struct planted unit = {.diver = "Skua", .step_s = 5, .cells = true, .has_zone = true, .offset_min = 660};
        const struct planted wrist = {
            .diver = "Skua", .step_s = 5, .begin_s = 70, .behind_s = rows_of[i].behind_s, .has_zone = true};
        struct rows rows = {.count = 0};
        (void)record_add(&rows, &unit, "a");
        record_add(&rows, &wrist, "b")->other_record = 0;
        plmi_doubt_rows(rows.all, rows.count, 1);
        double offset_s = rows.dives[1].row.clock_offset_s;
        ck_assert_msg(rows_of[i].doubted ? fabs(offset_s - rows_of[i].add_s) < 1 : isnan(offset_s), "%g s behind: %g s",
                      rows_of[i].behind_s, offset_s);
        ck_assert_uint_eq(rows.dives[1].row.note, rows_of[i].doubted);
        ck_assert_uint_eq(rows.dives[1].row.caution, 0);
        give_back(&rows);
    }
}
END_TEST

/* A dive up and down by 30 m every four minutes, deeper each time; its clock behind by so much. */
static void saw_add(struct rows *rows, const char *file, double behind_s)
{
    struct plmi_audited_dive *audited = &rows->dives[rows->count];
    struct made_dive made = made_start((double)NAN);
    const double half_s = 120, end_s = 30 * half_s;
    plm_dive_builder_info(made.builder)->start =
        (struct plm_stamp){.local_ms = INT64_C(1930000000000) - llround(1000 * behind_s),
                           .known = true,
                           .has_clock = true,
                           .has_zone = true};
    made_open(&made, 0.21, 0);
    for (double t = 0; t <= end_s; t += 5) {
        double part = fmod(t, 2 * half_s) / half_s;
        made_sample(&made, t, t <= 0 || t >= end_s ? 0 : 5 + t / 400 + 30 * (part < 1 ? part : 2 - part));
    }
    struct plm_dive *dive = made_finish(&made);
    *audited = (struct plmi_audited_dive){
        .row = {.diver = "Skua", .file = file, .max_depth_m = 44, .duration_s = end_s, .other_record = -1}};
    audited->row.start = plm_dive_info_get(dive)->start;
    audited->row.clock_offset_s = (double)NAN;
    ck_assert(plmi_series_init(&audited->series, dive));
    audited->completeness = plmi_completeness_of(dive, &audited->series);
    audited->wet_s = end_s;
    plm_dive_free(dive);
    rows->all[rows->count++] = audited;
}

/* Within two minutes of a quarter of an hour: it is proposed where the profiles fit by it as well, and here, half a
 * period off, they lie upon each other upside down. A few seconds off they fit. */
START_TEST(a_quarter_that_does_not_fit_is_not_proposed)
{
    static const struct {
        double behind_s, add_s;
    } rows_of[] = {{900 + 110, 900 + 110}, {900 - 110, 900 - 110}, {900 + 5, 900}};
    for (size_t i = 0; i < sizeof rows_of / sizeof rows_of[0]; i++) {
        struct rows rows = {.count = 0};
        saw_add(&rows, "a", 0);
        saw_add(&rows, "b", rows_of[i].behind_s);
        rows.dives[1].row.other_record = 0;
        plmi_doubt_rows(rows.all, rows.count, 1);
        ck_assert_double_eq_tol(rows.dives[1].row.clock_offset_s, rows_of[i].add_s, 1e-3);
        give_back(&rows);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {starts_apart,
                                  a_team_in_two_zones,
                                  half_of_the_shorter_dive,
                                  depths_and_numbers,
                                  a_day_counts_each_dive_once,
                                  records_of_one_dive,
                                  clocks_of_one_dive,
                                  raises_clock_doubt,
                                  spares_clock_doubt,
                                  a_quarter_that_does_not_fit_is_not_proposed,
                                  a_twin_s_clock};
    return SUITE_RUN("grouping", tests);
}
