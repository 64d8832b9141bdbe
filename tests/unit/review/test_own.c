/*
 * Reviewers of a caller: they take part as the library's do, and are refused where they could be mistaken for those.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>

#include "support/reviewed.h"
#include "support/suite.h"

static const struct plm_explanation explanation = {"What.", "Reached.", "Formula.", "Source.", "Ask?"};

/* Where the diver was deeper than *context [m]; all of it as one finding. */
static void look_deeper(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double limit_m = *(const double *)scene->context;
    size_t first = 0, last = scene->count;
    while (first < scene->count && scene->points[first].depth_m <= limit_m) {
        first++;
    }
    while (last > first && scene->points[last - 1].depth_m <= limit_m) {
        last--;
    }
    struct plm_finding *finding = first < last ? plm_finding_add(list, scene, first, last - 1) : NULL;
    if (finding != NULL) {
        finding->severity = PLM_SEVERITY_SERIOUS;
        finding->value = scene->summary->max_depth_m;
        finding->limit = limit_m;
        finding->text =
            plm_finding_sentence(list, "Below the terrace of {m} {w}.", limit_m, finding->from_s, finding->to_s);
    }
}

/* A finding without a text. */
static void look_mute(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    (void)plm_finding_add(list, scene, 0, 1);
}

static void look_far(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    ck_assert_ptr_null(plm_finding_add(list, scene, 1, 0));
    ck_assert_ptr_null(plm_finding_add(list, scene, 0, scene->count));
}

/* Down to 30 m in 2 min, there until 6:00, at 3 m/min up; a sample every 10 s. */
static void dive(struct reviewed *reviewed)
{
    struct made_dive made = made_start(1.0);
    double time_s = 0, depth_m = 0;
    made_open(&made, 0.21, 0);
    made_sample(&made, 0, 0);
    leg(&made, &time_s, &depth_m, 30, 120, 10);
    leg(&made, &time_s, &depth_m, 30, 240, 10);
    leg(&made, &time_s, &depth_m, 0, 600, 10);
    reviewed_make(reviewed, &made, &(struct review_wish){.hold = false});
}

struct told {
    int errors;
    char words[200];
};

static void tell(void *context, const struct plm_diag *diag)
{
    struct told *told = context;
    if (diag->id == PLM_DIAG_USAGE && diag->level == PLM_LEVEL_ERROR) {
        told->errors++;
        snprintf(told->words, sizeof told->words, "%s", diag->text);
    }
}

static enum plm_status review(struct plm_findings **out, const struct reviewed *reviewed,
                              const struct plm_reviewer *reviewers, size_t count, struct told *told)
{
    struct plm_review_options options = {.hold = true, .cost = true, .reviewers = reviewers, .reviewer_count = count};
    struct plm_diag_sink sink = {tell, told};
    *told = (struct told){.errors = 0};
    return plm_review(out, &reviewed->input, &options, &sink);
}

START_TEST(a_caller_s_findings_stand_among_the_others)
{
    double bound_m[] = {20, 29.9, 40};
    struct plm_reviewer own[3];
    static const char *const kinds[] = {"quill-terrace", "quill-wall", "quill-floor"};
    for (int i = 0; i < 3; i++) {
        own[i] = (struct plm_reviewer){.kind = kinds[i],
                                       .unit = "m",
                                       .meaning = "deeper than the terrace",
                                       .look = look_deeper,
                                       .explanation = &explanation,
                                       .context = &bound_m[i]};
    }
    struct reviewed reviewed;
    struct plm_findings *findings = NULL;
    struct told told;
    size_t count = 0;
    dive(&reviewed);
    ck_assert_int_eq(review(&findings, &reviewed, own, 3, &told), PLM_STATUS_OK);
    const struct plm_finding *list = plm_findings_get(findings, &count);
    ck_assert_int_eq(told.errors, 0);
    ck_assert_uint_eq(count, 2);
    /* 20 m is passed at 1:20 and, coming up at 3 m/min from 6:00 on, at 9:20; the samples beside that are deeper. */
    ck_assert_ptr_eq(list[0].reviewer, &own[0]);
    ck_assert_int_eq(list[0].kind, PLM_FINDING_COUNT);
    ck_assert_str_eq(list[0].text, "Below the terrace of 20.0 m from 1:30 to 9:10.");
    ck_assert_str_eq(list[0].unit, "m");
    ck_assert_double_eq_tol(list[0].value, 30, 1e-9);
    ck_assert(!list[0].cost.known);
    ck_assert_int_eq(list[0].hold, PLM_HOLD_FIRM);
    /* Shallower by the tolerance the diver was not below 29.9 m. */
    ck_assert_ptr_eq(list[1].reviewer, &own[1]);
    ck_assert_int_eq(list[1].kind, PLM_FINDING_COUNT + 1);
    ck_assert_int_eq(list[1].hold, PLM_HOLD_MARGINAL);
    plm_findings_free(findings);
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(a_reviewer_is_refused_with_the_reason)
{
    double bound_m = 20;
    const struct plm_reviewer good = {.kind = "quill-terrace",
                                      .unit = "m",
                                      .meaning = "deeper than the terrace",
                                      .look = look_deeper,
                                      .explanation = &explanation,
                                      .context = &bound_m};
    static const struct plm_explanation short_one = {.what = "What."};
    static const struct {
        const char *kind, *words;
    } bad_kinds[] = {{"ascent-rate", "already"}, {"esot-day", "already"}, {"quill-terrace", "already"},
                     {NULL, "letters"},          {"", "letters"},         {"Quill", "letters"},
                     {"quill-", "letters"},      {"-quill", "letters"},   {"quill--wall", "letters"},
                     {"quill 2", "letters"}};
    struct reviewed reviewed;
    struct plm_findings *findings = NULL;
    struct told told;
    dive(&reviewed);
    for (size_t i = 0; i < sizeof bad_kinds / sizeof bad_kinds[0]; i++) {
        struct plm_reviewer two[] = {good, good};
        two[1].kind = bad_kinds[i].kind;
        ck_assert_int_eq(review(&findings, &reviewed, two, 2, &told), PLM_STATUS_ARGUMENT);
        ck_assert_ptr_null(findings);
        ck_assert_int_eq(told.errors, 1);
        ck_assert_ptr_nonnull(strstr(told.words, bad_kinds[i].words));
    }
    struct plm_reviewer bare[] = {good, good, good, good, good};
    bare[0].unit = NULL;
    bare[1].meaning = NULL;
    bare[2].explanation = NULL;
    bare[3].explanation = &short_one;
    bare[4].look = look_mute;
    for (size_t i = 0; i < sizeof bare / sizeof bare[0]; i++) {
        ck_assert_int_eq(review(&findings, &reviewed, &bare[i], 1, &told), PLM_STATUS_ARGUMENT);
        ck_assert_ptr_null(findings);
        ck_assert_int_eq(told.errors, 1);
        ck_assert_ptr_nonnull(strstr(told.words, i < 4 ? "missing" : "no text"));
    }
    reviewed_free(&reviewed);
}
END_TEST

START_TEST(points_out_of_range_are_no_finding)
{
    const struct plm_reviewer far = {
        .kind = "quill-far", .unit = "", .meaning = "out of range", .look = look_far, .explanation = &explanation};
    struct reviewed reviewed;
    struct plm_findings *findings = NULL;
    struct told told;
    size_t count = 0;
    dive(&reviewed);
    ck_assert_int_eq(review(&findings, &reviewed, &far, 1, &told), PLM_STATUS_OK);
    plm_findings_get(findings, &count);
    ck_assert_uint_eq(count, 0);
    plm_findings_free(findings);
    reviewed_free(&reviewed);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {a_caller_s_findings_stand_among_the_others, a_reviewer_is_refused_with_the_reason,
                                  points_out_of_range_are_no_finding};
    return SUITE_RUN("own reviewers", tests);
}
