/*
 * Pictures of a made dive: every curve that is known is drawn, nothing is drawn that is not, and a gap or an odd record
 * stops nothing. The dive is a loop with cells and a bail-out; expectations follow from how it was made.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/html/debrief.h"
#include "support/made_dive.h"
#include "support/suite.h"

static struct plm_rules rules;
static struct plm_debriefed one;
static struct plmi_view *view;
static struct plmi_text text;

static void open_view(struct made_dive *made)
{
    one = (struct plm_debriefed){.dive = made_finish(made), .replay = {.rules = &rules}};
    one.trace = made_replay(one.dive, &rules);
    ck_assert_int_eq(plmi_view_new(&view, &one), PLM_STATUS_OK);
    plmi_text_init(&text);
}

static void close_view(void)
{
    plmi_text_free(&text);
    plmi_view_free(view);
    plm_trace_free(one.trace);
    plm_dive_free(one.dive);
}

/* A loop to 60 m for 40 min with three cells, then open circuit on 50 % from 21 m. */
static void loop_open(void)
{
    rules = plm_rules_default();
    struct made_dive made = made_start((double)NAN);
    made_loop(&made, 0.1, 0.7, 1.3);
    made_sample_cells(&made, 0, 0, 0.7, 0.7, 0.7);
    made_sample_cells(&made, 180, 60, 1.25, 1.3, 1.35);
    made_sample_cells(&made, 2400, 60, 1.25, 1.3, 1.35);
    made_open(&made, 0.5, 0);
    made_sample(&made, 2700, 21);
    made_sample(&made, 6000, 3);
    made_sample(&made, 7200, 0);
    open_view(&made);
}

static size_t counted(const char *words)
{
    size_t count = 0;
    for (const char *at = text.bytes; (at = strstr(at, words)) != NULL; at += strlen(words)) {
        count++;
    }
    return count;
}

START_TEST(curves_follow_the_dive)
{
    loop_open();
    struct plmi_curves *curves = plmi_curves_new(view);
    ck_assert_ptr_nonnull(curves);
    ck_assert(curves->known[PLMI_CURVES_CELL + 2] && !curves->known[PLMI_CURVES_CELL + 3]);
    ck_assert(curves->known[PLMI_CURVES_SETPOINT] && curves->known[PLMI_CURVES_CEILING]);
    ck_assert_uint_eq(curves->breathed_count, 2);
    ck_assert_str_eq(curves->breathed[0], "closed 10/70");
    ck_assert_str_eq(curves->breathed[1], "open nitrox 50");
    ck_assert_double_eq_tol(plmi_curves_most(curves, PLMI_CURVES_DEPTH), 60, 1e-9);
    /* Loading of the leading compartment is the gradient itself. */
    for (size_t i = 0; i < curves->count; i++) {
        long leading = lround(curves->column[PLMI_CURVES_LEADING][i]);
        ck_assert_double_eq_tol(curves->column[PLMI_CURVES_LOADING + leading - 1][i],
                                curves->column[PLMI_CURVES_GRADIENT][i], 0.051);
    }
    /* Twice the surface pressure is ln 2, whatever the water. */
    ck_assert_double_eq_tol(plmi_curves_level(curves, curves->surface_bar / curves->bar_per_m), log(2), 1e-12);
    ck_assert_uint_eq(plmi_curves_at(curves, -1), 0);
    ck_assert_double_le(curves->column[PLMI_CURVES_TIME][plmi_curves_at(curves, 2500)], 2500);
    ck_assert_uint_eq(plmi_curves_at(curves, 1e9), curves->count - 1);
    plmi_curves_free(curves);
    close_view();
}
END_TEST

START_TEST(every_picture_is_there)
{
    loop_open();
    plmi_html_timeline(&text, view, "dive-1");
    ck_assert(!text.failed);
    ck_assert_uint_eq(counted("role=\"img\""), 6);
    ck_assert_uint_eq(counted("<title>"), 6);
    ck_assert_uint_eq(counted("class=\"cell\" d"), 3);
    ck_assert_uint_eq(counted("class=\"setpoint\" d"), 1);
    ck_assert_uint_eq(counted("class=\"ridge c"), 16);
    ck_assert_uint_eq(counted("class=\"plan\" d"), 0);
    ck_assert_uint_eq(counted("class=\"mix m"), 2);
    ck_assert_uint_eq(counted("class=\"mix m1\""), 1);
    ck_assert_uint_eq(counted("class=\"mix m2\""), 1);
    ck_assert_uint_eq(counted("nan"), 0);
    ck_assert_uint_eq(counted("inf"), 0);
    ck_assert_uint_eq(counted("style="), 0);
    close_view();
}
END_TEST

START_TEST(odd_records_stop_nothing)
{
    rules = plm_rules_default();
    struct made_dive made = made_start((double)NAN);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 1, 3);
    open_view(&made);
    plmi_html_timeline(&text, view, "dive-1");
    ck_assert(!text.failed);
    ck_assert_uint_eq(counted("nan"), 0);
    close_view();
    made = made_start((double)NAN);
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 400000, 450);
    made_sample(&made, 900000, 0);
    open_view(&made);
    plmi_html_timeline(&text, view, "dive-1");
    ck_assert(!text.failed);
    ck_assert_uint_eq(counted("nan"), 0);
    close_view();
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {curves_follow_the_dive, every_picture_is_there, odd_records_stop_nothing};
    return SUITE_RUN("pictures", tests);
}
