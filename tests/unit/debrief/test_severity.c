/*
 * Costs that decide a severity, alone: severities and sentences are those of a review with all costs.
 * Source: the ascent off the bottom of the deep sample is planted at 20 m/min from 115 m (samples/survey.ini), and is
 * lowered by its cost.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <plimsoll/debrief.h>

#include "support/suite.h"

struct read {
    struct plm_log *log;
    struct plm_debrief *debrief;
    struct plm_debriefed *one;
};

static void read_sample(struct read *read, const char *name, bool cost, bool for_severity,
                        const struct plm_rules *rules)
{
    char path[512];
    const struct plm_log_options reading = plm_log_options_default(rules);
    struct plm_debrief_options options = plm_debrief_options_default(rules);
    const struct plm_diag_sink sink = {NULL, NULL};
    options.schedules = options.review.hold = false;
    options.review.cost = cost;
    options.review.cost_for_severity = for_severity;
    (void)snprintf(path, sizeof path, "%s/%s", PLMI_SAMPLES_DIR, name);
    ck_assert_int_eq(plm_log_open(&read->log, path, &reading, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_open(&read->debrief, read->log, &options, &sink), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_next(read->debrief, &read->one), PLM_STATUS_OK);
}

static void read_free(struct read *read)
{
    plm_debriefed_free(read->one);
    plm_debrief_free(read->debrief);
    plm_log_free(read->log);
}

static const struct plm_finding *findings_of(const struct read *read, size_t *count)
{
    return plm_findings_get(read->one->findings, count);
}

START_TEST(severities_are_those_of_all_costs)
{
    static const char *const SAMPLES[] = {"deep-terrace.uddf", "outer-wall.uddf", "lagoon-nitrox.csv"};
    const struct plm_rules rules = plm_rules_default();
    for (size_t i = 0; i < sizeof SAMPLES / sizeof SAMPLES[0]; i++) {
        struct read all, some;
        size_t all_count, some_count;
        read_sample(&all, SAMPLES[i], true, false, &rules);
        read_sample(&some, SAMPLES[i], false, true, &rules);
        const struct plm_finding *a = findings_of(&all, &all_count), *b = findings_of(&some, &some_count);
        ck_assert_uint_eq(all_count, some_count);
        for (size_t k = 0; k < all_count; k++) {
            ck_assert(a[k].kind == b[k].kind && a[k].severity == b[k].severity);
            ck_assert_str_eq(a[k].text, b[k].text);
        }
        read_free(&all);
        read_free(&some);
    }
}
END_TEST

START_TEST(only_what_decides_is_costed)
{
    const struct plm_rules rules = plm_rules_default();
    struct read some, none;
    size_t some_count, none_count, costed = 0;
    read_sample(&some, "deep-terrace.uddf", false, true, &rules);
    read_sample(&none, "deep-terrace.uddf", false, false, &rules);
    const struct plm_finding *list = findings_of(&some, &some_count), *without = findings_of(&none, &none_count);
    int notes = 0, notes_without = 0;
    for (size_t i = 0; i < some_count; i++) {
        ck_assert(!list[i].cost.known || list[i].kind == PLM_FINDING_ASCENT_RATE);
        costed += list[i].cost.known;
        notes += list[i].kind == PLM_FINDING_ASCENT_RATE && list[i].severity == PLM_SEVERITY_NOTE;
    }
    for (size_t i = 0; i < none_count; i++) {
        notes_without += without[i].kind == PLM_FINDING_ASCENT_RATE && without[i].severity == PLM_SEVERITY_NOTE;
    }
    ck_assert_uint_gt(costed, 0);
    ck_assert_int_gt(notes, notes_without);
    ck_assert(!plm_findings_all_put_right(some.one->findings)->known);
    read_free(&some);
    read_free(&none);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {severities_are_those_of_all_costs, only_what_decides_is_costed};
    return SUITE_RUN("severity", tests);
}
