/*
 * By what a dive of a log is judged: rules and gradient factors by option, card, log and default; and the mode that is
 * taken where none is recorded.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/log.h>

#include "support/suite.h"
#include "unit/diag_list.h"

static const char LOG[] = "time_s,depth_m\n0,0\n60,20\n600,20\n700,0\n";
static const char TWICE[] = "time_s,depth_m\n0,0\n60,20\n600,20\n700,0\n820,0\n900,20\n1500,20\n1600,0\n";

static struct plm_rules rules;
static struct plm_log_options options;
static struct diag_list diags;
static struct plm_diag_sink sink;
static struct plm_source *source;
static struct plm_card *card;

static struct plm_source *of(const char *text, const char *name)
{
    struct plm_source *one = NULL;
    ck_assert_int_eq(plm_source_open_memory(&one, text, strlen(text), name, &rules, &sink), PLM_STATUS_OK);
    return one;
}

/* A log in memory under a card; NULL: none. */
static struct plm_log *opened(const char *text, const char *card_text)
{
    struct plm_log *log = NULL;
    sink = diag_list_sink(&diags);
    card = NULL;
    if (card_text != NULL) {
        struct plm_source *from = of(card_text, "a.card");
        ck_assert_int_eq(plm_card_read(&card, from, &rules, &sink), PLM_STATUS_OK);
        plm_source_free(from);
    }
    options.card = card;
    source = of(text, "a.csv");
    ck_assert_int_eq(plm_log_open_source(&log, source, &options, &sink), PLM_STATUS_OK);
    return log;
}

static void closed(struct plm_log *log)
{
    plm_log_free(log);
    plm_source_free(source);
    plm_card_free(card);
}

static struct plm_dive *next(struct plm_log *log)
{
    struct plm_dive *dive = NULL;
    ck_assert_int_eq(plm_log_next(log, &dive), PLM_STATUS_OK);
    return dive;
}

static const char FACTORS_LOG[] = "gradient factors: 35/75\n\ntime_s,depth_m\n0,0\n60,20\n600,20\n700,0\n";

/* Option, then card, then log, then default: each stands where those before it are silent. */
static const struct {
    const char *log, *card;
    bool option, file_low_alone;
    enum plm_factors_from from;
    double low_pct, high_pct;
} FACTORS[] = {
    {LOG, NULL, false, false, PLM_FACTORS_ASSUMED, 30, 70},
    {FACTORS_LOG, NULL, false, false, PLM_FACTORS_LOG, 35, 75},
    {FACTORS_LOG, "[dive]\ngf = 50/80\n", false, false, PLM_FACTORS_CARD, 50, 80},
    {FACTORS_LOG, "[dive]\nsite = wall\n", false, false, PLM_FACTORS_LOG, 35, 75},
    {LOG, "[rules]\ngf_low_pct = 20\ngf_high_pct = 60\n", false, false, PLM_FACTORS_CARD, 20, 60},
    {FACTORS_LOG, "[dive]\ngf = 50/80\n", true, false, PLM_FACTORS_OPTION, 40, 85},
    {FACTORS_LOG, NULL, true, false, PLM_FACTORS_OPTION, 40, 85},
    {LOG, NULL, true, false, PLM_FACTORS_OPTION, 40, 85},
    /* a pair is never put together from two sources */
    {FACTORS_LOG, "[dive]\ngf = 50/80\n", true, true, PLM_FACTORS_OPTION, 60, 70},
};

static void check_factors(size_t row)
{
    struct plm_rules_stated stated = {0};
    rules = plm_rules_default();
    options = plm_log_options_default(&rules);
    diags.count = 0;
    if (FACTORS[row].option) {
        rules.gf_low_pct = FACTORS[row].file_low_alone ? 60 : 40;
        rules.gf_high_pct = FACTORS[row].file_low_alone ? 70 : 85;
        stated.gf_low_pct = true;
        stated.gf_high_pct = !FACTORS[row].file_low_alone;
    }
    options.stated = &stated;
    struct plm_log *log = opened(FACTORS[row].log, FACTORS[row].card);
    struct plm_dive *dive = next(log);
    struct plm_rules judged = rules;
    ck_assert_int_eq(plm_log_rules_lay(log, dive, &judged), FACTORS[row].from);
    ck_assert_msg(judged.gf_low_pct == FACTORS[row].low_pct && judged.gf_high_pct == FACTORS[row].high_pct, "%g/%g",
                  judged.gf_low_pct, judged.gf_high_pct);
    plm_dive_free(dive);
    closed(log);
}

START_TEST(gradient_factors_by_option_card_log_default)
{
    for (size_t i = 0; i < sizeof FACTORS / sizeof FACTORS[0]; i++) {
        check_factors(i);
    }
}
END_TEST

/* A caller that names no rules as stated means those that are no defaults, for a log that says nothing. */
START_TEST(gradient_factors_of_a_caller)
{
    rules = plm_rules_default();
    options = plm_log_options_default(&rules);
    rules.gf_high_pct = 90;
    struct plm_log *log = opened(LOG, NULL);
    struct plm_dive *dive = next(log);
    struct plm_rules judged = rules;
    ck_assert_int_eq(plm_log_rules_lay(log, dive, &judged), PLM_FACTORS_OPTION);
    ck_assert(judged.gf_high_pct == 90);
    plm_dive_free(dive);
    closed(log);
}
END_TEST

/* The card's rules count from the reading on: two minutes at the surface part two dives where its rule says so. */
START_TEST(rules_of_a_card_count_while_reading)
{
    rules = plm_rules_default();
    options = plm_log_options_default(&rules);
    struct plm_log *log = opened(TWICE, "[rules]\nsplit_surface_min = 1\n");
    struct plm_dive *dive = next(log);
    plm_dive_free(dive);
    dive = next(log);
    ck_assert_int_eq(plm_dive_info_get(dive)->index, 2);
    plm_dive_free(dive);
    closed(log);
}
END_TEST

/* Set points or cells without a mode are almost surely a rebreather dive: common practice, no source. */
static const struct {
    const char *log;
    enum plm_mode mode;
    bool known;
} MODES[] = {
    {"time_s,depth_m,o2_frac,setpoint_bar\n0,0,0.21,0.7\n60,20,,\n600,20,,\n700,0,,\n", PLM_MODE_CLOSED, false},
    {"time_s,depth_m,o2_frac,cell1_bar\n0,0,0.21,\n60,20,,0.9\n600,20,,1\n700,0,,\n", PLM_MODE_CLOSED, false},
    {"time_s,depth_m,o2_frac,cell3_bar\n0,0,0.21,\n60,20,,0.9\n600,20,,1\n700,0,,\n", PLM_MODE_CLOSED, false},
    {"time_s,depth_m,o2_frac,po2_bar\n0,0,0.21,0.21\n60,20,,0.63\n600,20,,0.63\n700,0,,\n", PLM_MODE_OPEN, false},
    {"time_s,depth_m,o2_frac,mode,setpoint_bar\n0,0,0.21,open,0.7\n60,20,,,\n600,20,,,\n700,0,,,\n", PLM_MODE_OPEN,
     true},
};

static void check_modes(size_t row)
{
    rules = plm_rules_default();
    options = plm_log_options_default(&rules);
    diags.count = 0;
    struct plm_log *log = opened(MODES[row].log, NULL);
    struct plm_dive *dive = next(log);
    size_t count;
    const struct plm_setting *settings = plm_dive_settings(dive, &count);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(settings[i].mode, MODES[row].mode);
    }
    ck_assert(plm_dive_info_get(dive)->mode_known == MODES[row].known);
    ck_assert(plm_log_partial(log) != MODES[row].known);
    ck_assert(MODES[row].known || diag_list_has(&diags, MODES[row].mode == PLM_MODE_CLOSED ? "a closed loop is taken"
                                                                                           : "open circuit is taken"));
    plm_dive_free(dive);
    closed(log);
}

START_TEST(a_log_with_set_points_or_cells_and_no_mode_is_a_loop)
{
    for (size_t i = 0; i < sizeof MODES / sizeof MODES[0]; i++) {
        check_modes(i);
    }
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {gradient_factors_by_option_card_log_default, gradient_factors_of_a_caller,
                                  rules_of_a_card_count_while_reading,
                                  a_log_with_set_points_or_cells_and_no_mode_is_a_loop};
    return SUITE_RUN("judged", tests);
}
