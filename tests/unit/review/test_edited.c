/*
 * Edited dives as logs: what was changed is told in their notes, and events follow the samples.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/edited.h>
#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

/* 30 m, then up at 20 m/min to 10 m, with an event in the middle of the ascent and one after it. */
static void fast(struct reviewed *reviewed)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    struct review_wish wish = {.cost = true};
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 5);
    leg(&made, &time_s, &depth_m, 30, 300, 5);
    leg(&made, &time_s, &depth_m, 10, 60, 5);
    leg(&made, &time_s, &depth_m, 10, 120, 5);
    leg(&made, &time_s, &depth_m, 0, 200, 5);
    struct plm_event middle = {.time_ms = 450000, .kind = PLM_EVENT_ALARM, .text = "ascent"},
                     after = {.time_ms = 540000, .kind = PLM_EVENT_MARKER, .text = "1"};
    ck_assert_int_eq(plm_dive_builder_event(made.builder, &middle), PLM_STATUS_OK);
    ck_assert_int_eq(plm_dive_builder_event(made.builder, &after), PLM_STATUS_OK);
    reviewed_make(reviewed, &made, &wish);
}

static double depth_at(const struct plm_dive *dive, int64_t time_ms)
{
    size_t count = 0, i = 0;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    while (i + 1 < count && samples[i].time_ms < time_ms) {
        i++;
    }
    return samples[i].depth_m;
}

START_TEST(an_edited_log_says_so_and_keeps_its_events_in_place)
{
    struct reviewed reviewed;
    struct plm_edited *edited = NULL;
    size_t count = 0, events = 0;
    fast(&reviewed);
    ck_assert_int_eq(plm_edited_make(&edited, &reviewed.input, reviewed.findings, NULL), PLM_STATUS_OK);
    const struct plm_edited_dive *dives = plm_edited_get(edited, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_str_eq(dives[0].put_right, reviewed_first(&reviewed, PLM_FINDING_ASCENT_RATE)->cost.put_right);
    const char *notes = plm_dive_info_get(dives[0].dive)->notes;
    ck_assert_ptr_nonnull(strstr(notes, "Not as recorded"));
    ck_assert_ptr_nonnull(strstr(notes, dives[0].put_right));
    const struct plm_event *event = plm_dive_events(dives[0].dive, &events);
    ck_assert_uint_eq(events, 2);
    /* At 20 m/min the middle was at 20 m; slowed to 10 m/min the ascent takes a minute more, less what its rounded ends
     * take up. */
    ck_assert_double_eq_tol(depth_at(dives[0].dive, event[0].time_ms), 20, 2);
    ck_assert_double_eq_tol((double)event[1].time_ms / 1000, 600, 12);
    plm_edited_free(edited);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {an_edited_log_says_so_and_keeps_its_events_in_place};
    return SUITE_RUN("edited", tests);
}
