/*
 * Names of what lies beside a log: a card by the log's name without its ending, a plan by the name that a card gives,
 * in the card's folder.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <plimsoll/log.h>

#include "support/suite.h"
#include "log/companions.h"

START_TEST(a_card_ends_in_card)
{
    static const struct {
        const char *path;
        bool card;
    } rows[] = {{"marl.card", true}, {"day.4/marl.card", true}, {"marl.csv", false},    {"card", false},
                {".card", false},    {"marl.card.csv", false},  {"marl.card/x", false}, {"", false},
                {"a/.card", false}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_msg(plmi_companions_is_card(rows[i].path) == rows[i].card, "%s", rows[i].path);
    }
}
END_TEST

START_TEST(names_are_of_the_same_folder)
{
    static const struct {
        const char *path, *name, *want;
    } rows[] = {{"day-4/marl.card", "plan.csv", "day-4/plan.csv"},
                {"marl.card", "plan.csv", "plan.csv"},
                {"a/b/c.card", "../plan.csv", "a/b/../plan.csv"},
                {"a/b.card", "/tmp/plan.csv", "/tmp/plan.csv"},
                {"/x.card", "y", "/y"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char *path = plmi_companions_path(rows[i].path, rows[i].name);
        ck_assert_str_eq(path, rows[i].want);
        free(path);
    }
}
END_TEST

/* The samples' card of day 4 names its plan; that of day 1 names none; one that is not there names none either, and is
 * no fault. */
START_TEST(a_plan_that_a_card_names)
{
    static const struct {
        const char *card, *plan;
    } rows[] = {{PLMI_SAMPLES_DIR "/expedition/day-4/marl.card", PLMI_SAMPLES_DIR "/expedition/day-4/wall-plan.csv"},
                {PLMI_SAMPLES_DIR "/expedition/day-1/marl.card", NULL},
                {PLMI_SAMPLES_DIR "/expedition/day-1/none.card", NULL}};
    struct plm_rules rules = plm_rules_default();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char *plan = NULL;
        ck_assert(plmi_companions_plan_named(&plan, rows[i].card, &rules));
        ck_assert_msg((plan != NULL) == (rows[i].plan != NULL), "%s", rows[i].card);
        if (plan != NULL) {
            ck_assert_str_eq(plan, rows[i].plan);
        }
        free(plan);
    }
}
END_TEST

static bool beside_is(const char *log, const char *card)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plm_log_options options = plm_log_options_default(&rules);
    struct plm_log_beside beside;
    ck_assert_int_eq(plm_log_beside_find(&beside, log, &options), PLM_STATUS_OK);
    bool same =
        card == NULL ? beside.card_path == NULL : beside.card_path != NULL && strcmp(beside.card_path, card) == 0;
    plm_log_beside_free(&beside);
    return same;
}

static void touch(const char *path)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(fclose(file), 0);
}

/* A log that was compressed afterwards keeps its card; one of the whole name comes first. */
START_TEST(a_compressed_log_has_the_card_of_its_log)
{
    char folder[] = "/tmp/plimsoll-beside-XXXXXX", path[5][64];
    static const char *const names[] = {"x.card", "x.csv.card", "x.csv.gz", "y.gz", "y.card"};
    ck_assert_ptr_nonnull(mkdtemp(folder));
    for (size_t i = 0; i < 5; i++) {
        (void)snprintf(path[i], sizeof path[i], "%s/%s", folder, names[i]);
    }
    ck_assert(beside_is(path[2], NULL));
    touch(path[0]);
    touch(path[4]);
    ck_assert(beside_is(path[2], path[0]));
    ck_assert(beside_is(path[3], path[4]));
    touch(path[1]);
    ck_assert(beside_is(path[2], path[1]));
    for (size_t i = 0; i < 5; i++) {
        (void)remove(path[i]);
    }
    ck_assert_int_eq(rmdir(folder), 0);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_card_ends_in_card, names_are_of_the_same_folder, a_plan_that_a_card_names,
                                  a_compressed_log_has_the_card_of_its_log};
    return SUITE_RUN("beside", tests);
}
