/*
 * Figures that come out otherwise than they are stored are told, and put right when asked.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "support/suite.h"
#include "unit/logbook/made_logbook.h"

static const struct made_log MORNING = {"morning", "Tern", "2031-05-06T09:00+11:00", 1, 10, 0, 0};
static const struct made_log NOON = {"noon", "Tern", "2031-05-06T13:00+11:00", 2, 10, 0, 0};

struct told {
    int count;
    char figure[64], log[64];
    double stored, computed;
};

static void differ(void *context, const struct plm_logbook_difference *difference)
{
    struct told *told = context;
    told->count++;
    told->stored = difference->stored;
    told->computed = difference->computed;
    (void)snprintf(told->figure, sizeof told->figure, "%s", difference->figure);
    (void)snprintf(told->log, sizeof told->log, "%s", difference->entry->exposure.log_name);
}

static struct plm_logbook_recomputed recompute(struct made_logbook *made, bool renew, struct told *told)
{
    struct plm_logbook_recomputed recomputed;
    *told = (struct told){.count = 0};
    ck_assert_int_eq(plm_logbook_recompute(made->logbook, renew, differ, told, &recomputed), PLM_STATUS_OK);
    ck_assert_uint_eq(recomputed.dives, 2);
    ck_assert_uint_eq(recomputed.differ, (size_t)told->count);
    return recomputed;
}

static void two_dives(struct made_logbook *made)
{
    made_logbook_open(made);
    (void)made_logbook_put(made, &MORNING);
    (void)made_logbook_put(made, &NOON);
}

START_TEST(figures_come_out_again)
{
    struct made_logbook made;
    struct told told;
    two_dives(&made);
    ck_assert_uint_eq(recompute(&made, false, &told).differ, 0);
    made_logbook_free(&made);
}
END_TEST

/* Stores figures of the later dive that its log does not give: a depth, and a tension within the slowest compartment.
 */
static double spoil(struct made_logbook *made, double deeper_m, double denser_bar)
{
    struct plm_entries *entries = made_logbook_entries(made);
    size_t count;
    const struct plm_entry *list = plm_entries_get(entries, &count);
    ck_assert_uint_eq(count, 2);
    struct plm_figures figures = list[1].figures;
    double depth_m = figures.max_depth_m;
    figures.max_depth_m += deeper_m;
    figures.end.he_bar[PLM_COMPARTMENTS - 1] += denser_bar;
    ck_assert_int_eq(plm_ledger_figures_put(made->ledger, list[1].exposure.id, &figures), PLM_STATUS_OK);
    plm_entries_free(entries);
    return depth_m;
}

START_TEST(a_figure_that_differs_is_told)
{
    struct made_logbook made;
    struct told told;
    two_dives(&made);
    double depth_m = spoil(&made, 0.5, 0);
    ck_assert_uint_eq(recompute(&made, false, &told).differ, 1);
    ck_assert_str_eq(told.figure, "max_depth_m");
    ck_assert_str_eq(told.log, "noon.csv");
    ck_assert(told.stored == depth_m + 0.5 && told.computed == depth_m);
    ck_assert_uint_eq(recompute(&made, false, &told).differ, 1); /* nothing was changed */
    ck_assert_uint_eq(recompute(&made, true, &told).differ, 1);
    ck_assert_uint_eq(recompute(&made, false, &told).differ, 0);
    spoil(&made, 0, 1e-12);
    ck_assert_uint_eq(recompute(&made, false, &told).differ, 1);
    ck_assert_str_eq(told.figure, "tissue at the end");
    made_logbook_free(&made);
}
END_TEST

START_TEST(a_dive_at_another_time_than_its_log_tells_is_reported)
{
    struct made_logbook made;
    struct plm_logbook_recomputed recomputed;
    struct plm_records *records = NULL;
    size_t count;
    two_dives(&made);
    struct plm_entries *entries = made_logbook_entries(&made);
    ck_assert_int_eq(plm_ledger_records(&records, made.ledger, plm_entries_get(entries, &count)[0].exposure.id),
                     PLM_STATUS_OK);
    struct plm_record record = plm_records_get(records, &count)[0];
    record.span.start_utc_ms += 1000;
    ck_assert_int_eq(plm_ledger_record_choose(made.ledger, &record), PLM_STATUS_OK);
    ck_assert_int_eq(plm_logbook_recompute(made.logbook, false, NULL, NULL, &recomputed), PLM_STATUS_INPUT);
    ck_assert(diag_list_has(&made.told, "its log tells another start, length or time in the water"));
    ck_assert_uint_eq(recomputed.dives, 2);
    plm_records_free(records);
    plm_entries_free(entries);
    made_logbook_free(&made);
}
END_TEST

/* A dive to where it owes stops, with a card beside its log; the number of its findings at caution or worse. */
static struct plm_figures put_with_card(struct made_logbook *made, const char *card,
                                        const struct plm_rules_stated *told)
{
    char path[200];
    const struct made_log *log = &MORNING;
    struct plm_log_options reading = plm_log_options_default(&made->rules);
    const struct plm_logbook_options options = {.log = &reading, .debrief = &made->debrief, .diver = log->diver};
    struct plm_logbook_log *open = NULL;
    struct plm_logbook_addition addition;
    struct plm_dive *dive = NULL;
    size_t count;
    made_logbook_open(made);
    made->rules.gf_high_pct = told != NULL ? 99 : made->rules.gf_high_pct;
    made_logbook_write(made, log, 0);
    (void)snprintf(path, sizeof path, "%s/%s.card", made->folder, log->name);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    (void)fputs(card, file);
    ck_assert_int_eq(fclose(file), 0);
    made_logbook_path(made, log->name, path);
    reading.start_clock = log->start;
    reading.stated = told;
    ck_assert_int_eq(plm_logbook_log_open(&open, made->logbook, path, &options, &made->sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_logbook_log_take(open, &dive), PLM_STATUS_OK);
    ck_assert_int_eq(plm_logbook_add(open, dive, &addition), PLM_STATUS_OK);
    plm_logbook_log_free(open);
    struct plm_entries *entries = made_logbook_entries(made);
    struct plm_figures figures = plm_entries_get(entries, &count)[0].figures;
    figures.worst = figures.rules = figures.program = NULL;
    plm_entries_free(entries);
    return figures;
}

/* The card's factors make the figures, and make them again from what is stored; an option stands before them, there
 * as well. */
START_TEST(gradient_factors_of_a_card_are_kept)
{
    static const struct plm_rules_stated option = {.gf_low_pct = true, .gf_high_pct = true};
    const struct {
        const char *card;
        const struct plm_rules_stated *told;
    } rows[] = {{"[dive]\nsite = wall\n", NULL}, {"[dive]\ngf = 10/15\n", NULL}, {"[dive]\ngf = 10/15\n", &option}};
    double owed_min[3];
    for (size_t i = 0; i < 3; i++) {
        struct made_logbook made;
        struct plm_logbook_recomputed recomputed;
        struct told told = {.count = 0};
        owed_min[i] = put_with_card(&made, rows[i].card, rows[i].told).owed_min;
        ck_assert_int_eq(plm_logbook_recompute(made.logbook, false, differ, &told, &recomputed), PLM_STATUS_OK);
        ck_assert_msg(recomputed.dives == 1 && recomputed.differ == 0, "%s: %g is %g", told.figure, told.stored,
                      told.computed);
        made_logbook_free(&made);
    }
    ck_assert_msg(owed_min[1] > owed_min[0] + 5 && owed_min[2] < owed_min[1] - 5, "%g %g %g", owed_min[0], owed_min[1],
                  owed_min[2]);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {figures_come_out_again, a_figure_that_differs_is_told,
                                  a_dive_at_another_time_than_its_log_tells_is_reported,
                                  gradient_factors_of_a_card_are_kept};
    return SUITE_RUN("logbook recompute", tests);
}
