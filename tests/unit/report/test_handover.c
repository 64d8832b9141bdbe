/*
 * Which dives a handover tells beside the last: by clock and zone, once each, within 48 hours. Expectations are worked
 * out by hand.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <math.h>
#include <string.h>

#include "report/handover/handover.h"
#include "support/made_dive.h"
#include "support/memory_sink.h"
#include "support/suite.h"

#define HOUR_MS INT64_C(3600000)

/* A dive of an hour; zone in hours, 99: none. */
static struct plmi_handover_dive dive_at(double hours, int zone_h)
{
    return (struct plmi_handover_dive){.start = {.local_ms = (int64_t)(hours * (double)HOUR_MS),
                                                 .offset_min = zone_h == 99 ? 0 : zone_h * 60,
                                                 .known = true,
                                                 .has_zone = zone_h != 99,
                                                 .has_clock = true},
                                       .surfaced_s = 3600,
                                       .max_depth_m = 10 + hours};
}

static size_t rows_of(struct plmi_handover_dive *dives, size_t count, size_t last, struct plmi_handover_row *rows,
                      size_t *more)
{
    const struct plmi_handover handover = {.dives = dives, .count = count, .last = last};
    return plmi_handover_earlier(&handover, rows, more);
}

/* The last begins at hour 100. One ended 2 h before it, one 47 h, one 49 h: two are told, the nearest first. */
START_TEST(two_days_back)
{
    struct plmi_handover_dive dives[] = {dive_at(52, 99), dive_at(100, 99), dive_at(97, 99), dive_at(50, 99)};
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more;
    ck_assert_uint_eq(rows_of(dives, 4, 1, rows, &more), 2);
    ck_assert_uint_eq(more, 0);
    ck_assert_double_eq_tol(rows[0].hours_before, 2, 1e-9);
    ck_assert_double_eq_tol(rows[1].hours_before, 47, 1e-9);
}
END_TEST

/* 12:00 at +10:00 is 02:00 UTC; 06:00 at +02:00 is 04:00 UTC: the second is the later one by two hours, less the hour
 * that the first lasted. */
START_TEST(zones_count)
{
    struct plmi_handover_dive dives[] = {dive_at(12, 10), dive_at(6, 2)};
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more;
    ck_assert_uint_eq(rows_of(dives, 2, 1, rows, &more), 1);
    ck_assert_double_eq_tol(rows[0].hours_before, 1, 1e-9);
}
END_TEST

/* A second record of the last dive, ten minutes off, is no other dive; nor is a second record of an earlier one told
 * twice. */
START_TEST(records_of_one_dive)
{
    struct plmi_handover_dive dives[] = {dive_at(100, 99), dive_at(100.1, 99), dive_at(90, 99), dive_at(90.2, 99)};
    const struct plmi_handover handover = {.dives = dives, .count = 4, .last = 0};
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more;
    ck_assert_uint_eq(rows_of(dives, 4, 0, rows, &more), 1);
    ck_assert_ptr_eq(rows[0].dive, &dives[2]);
    ck_assert_uint_eq(plmi_handover_same_dive(&handover), 1);
    ck_assert_uint_eq(plmi_handover_untimed(&handover), 0);
}
END_TEST

/* More dives than there is room for: the nearest are told, the others counted, in whatever order they come. */
START_TEST(no_more_than_there_is_room_for)
{
    struct plmi_handover_dive dives[PLMI_HANDOVER_DIVES_MAX + 4];
    struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX];
    size_t more, count = sizeof dives / sizeof dives[0];
    for (size_t i = 0; i + 1 < count; i++) {
        dives[i] = dive_at(100 - 2 * (double)((i * 5) % (count - 1) + 1), 99);
    }
    dives[count - 1] = dive_at(100, 99);
    ck_assert_uint_eq(rows_of(dives, count, count - 1, rows, &more), PLMI_HANDOVER_DIVES_MAX);
    ck_assert_uint_eq(more, 3);
    for (size_t i = 0; i < PLMI_HANDOVER_DIVES_MAX; i++) {
        ck_assert_double_eq_tol(rows[i].hours_before, 2 * (double)i + 1, 1e-9);
    }
}
END_TEST

/* A ledger's dive beside the logs: told where no log tells it. */
START_TEST(dives_of_a_ledger)
{
    struct plm_rules rules = plm_rules_default();
    struct made_dive made = made_start(1.0);
    struct plm_stamp start = {.local_ms = 100 * HOUR_MS, .known = true, .has_clock = true};
    plm_dive_builder_info(made.builder)->start = start;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 20);
    made_sample(&made, 1500, 20);
    made_sample(&made, 1800, 0);
    struct plm_debriefed one = {.dive = made_finish(&made), .replay = {.rules = &rules}};
    one.trace = made_replay(one.dive, &rules);
    struct plm_stamp other = start;
    other.local_ms -= 5 * HOUR_MS;
    const struct plm_report_exposure earlier[] = {{other, 1800, 33, 55, 12, false}, {start, 1800, 20, 40, 5, false}};
    struct plm_report_options options = plm_report_options_default(&rules);
    options.ascii = true;
    struct plmi_text text;
    plmi_text_init(&text);
    struct plm_sink sink = memory_sink(&text);
    struct plm_report *report = NULL;
    ck_assert_int_eq(plm_report_open(&report, PLM_REPORT_HANDOVER, "text", &options, &sink, NULL), PLM_STATUS_OK);
    ck_assert_int_eq(plm_report_add(report, &one), PLM_STATUS_OK);
    ck_assert_int_eq(plm_report_earlier(report, earlier, 2), PLM_STATUS_OK);
    ck_assert_int_eq(plm_report_finish(report), PLM_STATUS_OK);
    ck_assert_msg(strstr(text.bytes, "1970-01-04 23:00     30:00    33.0       4.5       55.0    12.0\n") != NULL, "%s",
                  text.bytes);
    ck_assert_msg(strstr(text.bytes, "1 more record of this same dive") != NULL, "%s", text.bytes);
    plm_report_free(report);
    plmi_text_free(&text);
    plm_trace_free(one.trace);
    plm_dive_free(one.dive);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {two_days_back, zones_count, records_of_one_dive, no_more_than_there_is_room_for,
                                  dives_of_a_ledger};
    return SUITE_RUN("handover", tests);
}
