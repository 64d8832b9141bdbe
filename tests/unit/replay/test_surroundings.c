/*
 * Which surface pressure and water a replay goes by.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "support/made_dive.h"
#include "support/suite.h"

static const double none = (double)NAN;

struct heard {
    int notes, errors;
    enum plm_diag_id last;
};

static void hear(void *context, const struct plm_diag *diag)
{
    struct heard *heard = context;
    heard->notes += diag->level == PLM_LEVEL_NOTE;
    heard->errors += diag->level == PLM_LEVEL_ERROR;
    heard->last = diag->id;
    ck_assert_int_eq(diag->place.column, 0); /* what is assumed of a dive stands at no column of its log */
}

struct wanted {
    double log_bar, log_m, log_kg_m3, option_bar, option_m, option_kg_m3;
};

/* Replays a short dive so; the assumed values are copied. NULL trace: only what was heard. */
static enum plm_status ask(const struct wanted *wanted, struct plm_assumed *assumed, char *surface_from,
                           struct heard *heard)
{
    struct made_dive made = made_start(wanted->log_bar);
    plm_dive_builder_info(made.builder)->altitude_m = wanted->log_m;
    plm_dive_builder_info(made.builder)->water_kg_m3 = wanted->log_kg_m3;
    made_open(&made, 0.21, 0.0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 10);
    struct plm_dive *dive = made_finish(&made);
    struct plm_replay_options options = plm_replay_options_default(&made.rules);
    options.surface_bar = wanted->option_bar;
    options.altitude_m = wanted->option_m;
    options.water_kg_m3 = wanted->option_kg_m3;
    struct plm_diag_sink sink = {hear, heard};
    struct plm_trace *trace;
    enum plm_status status = plm_replay(&trace, dive, &options, &sink);
    if (status == PLM_STATUS_OK) {
        *assumed = *plm_trace_assumed(trace);
        strncpy(surface_from, assumed->surface_from, 63);
    } else {
        ck_assert_ptr_null(trace);
    }
    plm_trace_free(trace);
    plm_dive_free(dive);
    return status;
}

static void surface_is(struct wanted wanted, double want_bar, const char *want_from, int want_notes)
{
    struct plm_assumed assumed;
    struct heard heard = {0, 0, PLM_DIAG_COUNT};
    char from[64] = "";
    ck_assert_int_eq(ask(&wanted, &assumed, from, &heard), PLM_STATUS_OK);
    ck_assert_double_eq_tol(assumed.surface_bar, want_bar, 1e-5);
    ck_assert_str_eq(from, want_from);
    ck_assert_int_eq(heard.notes, want_notes);
}

START_TEST(the_first_that_is_told_counts)
{
    surface_is((struct wanted){0.95, 100, none, 0.9, 2000, none}, 0.95, "log", 1);
    surface_is((struct wanted){0.95, 100, none, none, none, none}, 0.95, "log", 0);
    surface_is((struct wanted){none, 100, none, 0.9, 2000, none}, 0.9, "command line", 0);
    /* standard atmosphere at 5000 ft, 843.08 hPa: US Navy Diving Manual, standard atmosphere table */
    surface_is((struct wanted){none, 100, none, none, 1524, none}, 0.84308, "altitude 1524 m", 0);
    surface_is((struct wanted){none, 2438.4, none, none, none, none}, 0.75263, "altitude 2438 m by the log", 0);
    surface_is((struct wanted){none, none, none, none, none, none}, 1.01325, "standard", 0);
}
END_TEST

START_TEST(water_is_of_the_command_line_the_log_or_the_rule)
{
    struct plm_assumed assumed;
    struct heard heard = {0, 0, PLM_DIAG_COUNT};
    char from[64];
    struct wanted wanted = {1.0, none, 1025, none, none, 1000};
    ck_assert_int_eq(ask(&wanted, &assumed, from, &heard), PLM_STATUS_OK);
    ck_assert_double_eq_tol(assumed.water_kg_m3, 1000, 1e-9);
    wanted.option_kg_m3 = none;
    ck_assert_int_eq(ask(&wanted, &assumed, from, &heard), PLM_STATUS_OK);
    ck_assert_double_eq_tol(assumed.water_kg_m3, 1025, 1e-9);
    ck_assert_str_eq(assumed.water_from, "log");
    wanted.log_kg_m3 = none;
    ck_assert_int_eq(ask(&wanted, &assumed, from, &heard), PLM_STATUS_OK);
    ck_assert_double_eq_tol(assumed.water_kg_m3, 1019.7162, 1e-9);
    ck_assert_str_eq(assumed.water_from, "rule");
}
END_TEST

START_TEST(what_cannot_be_is_refused_and_told)
{
    const struct wanted impossible[] = {{none, none, none, 0.01, none, none},
                                        {none, none, none, 5.0, none, none},
                                        {none, none, none, none, 20000, none},
                                        {none, none, none, none, none, 13600},
                                        {none, none, none, none, none, -1}};
    for (size_t i = 0; i < sizeof impossible / sizeof impossible[0]; i++) {
        struct plm_assumed assumed;
        struct heard heard = {0, 0, PLM_DIAG_COUNT};
        char from[64];
        ck_assert_int_eq(ask(&impossible[i], &assumed, from, &heard), PLM_STATUS_INPUT);
        ck_assert_int_eq(heard.errors, 1);
        ck_assert_int_eq(heard.last, i < 3 ? PLM_DIAG_PRESSURE : PLM_DIAG_RANGE);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {the_first_that_is_told_counts, water_is_of_the_command_line_the_log_or_the_rule,
                                  what_cannot_be_is_refused_and_told};
    return SUITE_RUN("surroundings", tests);
}
