/*
 * One dive of another origin in every report: the same bytes as from its log, and a caller's findings with their words.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include <plimsoll/report.h>

#include "support/made_dive.h"
#include "support/memory_sink.h"
#include "support/suite.h"

static struct plmi_text written(const struct plm_debriefed *one, enum plm_report_subject subject, const char *format,
                                const struct plm_rules *rules)
{
    struct plm_report_options options = plm_report_options_default(rules);
    struct plmi_text text;
    plmi_text_init(&text);
    struct plm_sink sink = memory_sink(&text);
    options.verbose = true;
    ck_assert_int_eq(plm_report_write(subject, format, &options, one, &sink, NULL), PLM_STATUS_OK);
    plmi_text_add(&text, "", 1);
    return text;
}

/* What the log tells of itself and the dive alone does not. */
static void reading_forget(struct plm_debriefed *one)
{
    one->verdict = NULL;
    one->sha256[0] = '\0';
}

START_TEST(a_dive_given_is_as_a_dive_read)
{
    static const char *const formats[] = {"text", "json", "html"};
    const struct plm_rules rules = plm_rules_default();
    const struct plm_debrief_options options = plm_debrief_options_default(&rules);
    const struct plm_log_options reading = plm_log_options_default(&rules);
    struct plm_log *logs[2];
    struct plm_debrief *debrief = NULL;
    struct plm_debriefed *read = NULL, *given = NULL;
    struct plm_dive *dive = NULL;
    for (int i = 0; i < 2; i++) {
        const char *path = PLMI_SAMPLES_DIR "/deep-terrace.csv";
        ck_assert_int_eq(plm_log_open(&logs[i], path, &reading, NULL), PLM_STATUS_OK);
    }
    ck_assert_int_eq(plm_debrief_open(&debrief, logs[0], &options, NULL), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_next(debrief, &read), PLM_STATUS_OK);
    ck_assert_int_eq(plm_log_next(logs[1], &dive), PLM_STATUS_OK);
    ck_assert_int_eq(plm_debrief_dive(&given, dive, &options, NULL), PLM_STATUS_OK);
    ck_assert_ptr_null(given->verdict);
    ck_assert_str_eq(given->sha256, plm_dive_info_get(given->dive)->sha256);
    reading_forget(read);
    reading_forget(given);
    for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++) {
        struct plmi_text a = written(read, PLM_REPORT_DEBRIEF, formats[i], &rules),
                         b = written(given, PLM_REPORT_DEBRIEF, formats[i], &rules);
        ck_assert_uint_gt(a.count, 1000);
        ck_assert_str_eq(a.bytes, b.bytes);
        plmi_text_free(&a);
        plmi_text_free(&b);
    }
    plm_debriefed_free(read);
    plm_debriefed_free(given);
    plm_debrief_free(debrief);
    for (int i = 0; i < 2; i++) {
        plm_log_free(logs[i]);
    }
}
END_TEST

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    struct plm_finding *finding = plm_finding_add(list, scene, 0, scene->count - 1);
    if (finding != NULL) {
        finding->severity = PLM_SEVERITY_CAUTION;
        finding->value = scene->summary->max_depth_m;
        finding->limit = *(const double *)scene->context;
        finding->text = plm_finding_sentence(list, "The task ended at {0} m.", finding->limit);
    }
}

static const struct plm_explanation explanation = {"A meaning of our own.", "Reached.", "Formula.", "Source.",
                                                   "A question of our own?"};

/* A dive to 30 m with a finding of a reviewer of the caller. */
static struct plm_debriefed *own_debriefed(const struct plm_reviewer *reviewer, const struct plm_rules *rules)
{
    struct made_dive made = made_start(1.0);
    struct plm_debrief_options options = plm_debrief_options_default(rules);
    struct plm_debriefed *one = NULL;
    made_open(&made, 0.21, 0);
    for (int i = 0; i <= 60; i++) {
        made_sample(&made, i * 20.0, i < 6 ? i * 5.0 : i < 24 ? 30 : (60 - i) * 30.0 / 36);
    }
    options.review.reviewers = reviewer;
    options.review.reviewer_count = 1;
    ck_assert_int_eq(plm_debrief_dive(&one, made_finish(&made), &options, NULL), PLM_STATUS_OK);
    return one;
}

START_TEST(a_caller_s_finding_is_in_every_report)
{
    static const struct {
        enum plm_report_subject subject;
        const char *format;
        bool kind, meaning, explanation;
    } rows[] = {{PLM_REPORT_DEBRIEF, "text", true, true, true},
                {PLM_REPORT_DEBRIEF, "html", false, true, true},
                {PLM_REPORT_DEBRIEF, "json", true, false, false},
                {PLM_REPORT_FINDINGS, "csv", true, false, false}};
    const struct plm_rules rules = plm_rules_default();
    double task_m = 12;
    const struct plm_reviewer reviewer = {"quill-task", "m", "beyond the task", look, &explanation, &task_m};
    struct plm_debriefed *one = own_debriefed(&reviewer, &rules);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct plmi_text text = written(one, rows[i].subject, rows[i].format, &rules);
        ck_assert_msg(!rows[i].kind || strstr(text.bytes, "quill-task") != NULL, "%s: no kind", rows[i].format);
        ck_assert_msg(strstr(text.bytes, "The task ended at 12 m.") != NULL, "%s: no sentence", rows[i].format);
        ck_assert_msg(!rows[i].meaning || strstr(text.bytes, "beyond the task") != NULL, "%s: no meaning",
                      rows[i].format);
        if (rows[i].explanation) {
            ck_assert_msg(strstr(text.bytes, explanation.what) != NULL, "%s: no explanation", rows[i].format);
            ck_assert_msg(strstr(text.bytes, explanation.ask) != NULL, "%s: no question", rows[i].format);
        }
        plmi_text_free(&text);
    }
    plm_debriefed_free(one);
}
END_TEST

START_TEST(a_dive_that_cannot_be_reviewed_is_freed)
{
    const struct plm_rules rules = plm_rules_default();
    const struct plm_reviewer reviewer = {"ascent-rate", "m", "taken", look, &explanation, NULL};
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    struct made_dive made = made_start(1.0);
    struct plm_debriefed *one = NULL;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    made_sample(&made, 60, 10);
    made_sample(&made, 120, 0);
    options.review.reviewers = &reviewer;
    options.review.reviewer_count = 1;
    ck_assert_int_eq(plm_debrief_dive(&one, made_finish(&made), &options, NULL), PLM_STATUS_ARGUMENT);
    ck_assert_ptr_null(one);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_dive_given_is_as_a_dive_read, a_caller_s_finding_is_in_every_report,
                                  a_dive_that_cannot_be_reviewed_is_freed};
    return SUITE_RUN("one dive", tests);
}
