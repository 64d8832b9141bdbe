/*
 * A log of one's own, a reviewer of one's own, and the library's report of both.
 * usage: own_reviewer <terrace.log
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <plimsoll/dive_builder.h>
#include <plimsoll/report.h>
#include <stdio.h>

/* A log is a line a sample: seconds and metres; all of it on nitrox 32. */
static enum plm_status dive_read(struct plm_dive **out, FILE *log, const struct plm_rules *rules,
                                 const struct plm_diag_sink *diag)
{
    struct plm_sample sample = {.temp_c = NAN, .po2_bar = NAN, .cell_bar = {NAN, NAN, NAN, NAN, NAN}};
    struct plm_dive_builder *builder = plm_dive_builder_new("terrace.log", rules, diag);
    uint32_t nitrox = 0;
    if (builder == NULL || plm_dive_builder_mix_find(builder, 0.32, 0, 0, &nitrox) != PLM_STATUS_OK) {
        plm_dive_builder_free(builder);
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_mode(builder, PLM_MODE_OPEN, 0);
    plm_dive_builder_switch(builder, nitrox, 0);
    for (double time_s = 0; fscanf(log, "%lf %lf", &time_s, &sample.depth_m) == 2;) {
        sample.time_ms = (int64_t)(time_s * 1000);
        sample.line++;
        if (plm_dive_builder_sample(builder, &sample) != PLM_STATUS_OK) {
            plm_dive_builder_free(builder);
            return PLM_STATUS_MEMORY;
        }
    }
    return plm_dive_builder_finish(builder, out);
}

/* Finds the stretch from the first to the last point below the terrace surveyed, whose depth [m] is the context. */
static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double terrace_m = *(const double *)scene->context;
    size_t first = 0, last = scene->count - 1;
    while (first < last && scene->points[first].depth_m <= terrace_m) {
        first++;
    }
    while (first < last && scene->points[last].depth_m <= terrace_m) {
        last--;
    }
    struct plm_finding *finding = first < last ? plm_finding_add(list, scene, first, last) : NULL;
    if (finding != NULL) {
        finding->value = scene->summary->max_depth_m;
        finding->limit = terrace_m;
        finding->text = plm_finding_sentence(list, "Below the terrace of {m} {w}, at most {m} deep.", terrace_m,
                                             finding->from_s, finding->to_s, finding->value);
    }
}

static enum plm_status bytes_write(void *context, const void *bytes, size_t count)
{
    return fwrite(bytes, 1, count, context) == count ? PLM_STATUS_OK : PLM_STATUS_IO;
}

static void diag_print(void *context, const struct plm_diag *diag)
{
    char line[512];
    (void)plm_diag_format(diag, line, sizeof line);
    (void)fprintf(context, "%s\n", line);
}

int main(void)
{
    static const struct plm_explanation explanation = {
        .what = "The diver went below the terrace that was to be surveyed.",
        .reached = "Always a note.",
        .formula = "From the first to the last sample deeper than the terrace.",
        .source = "The task of the survey.",
        .ask = "What was looked at down there?"};
    double terrace_m = 15;
    const struct plm_reviewer reviewer = {"survey-below-terrace", "m",       "below the terrace surveyed", look,
                                          &explanation,           &terrace_m};
    const struct plm_rules rules = plm_rules_default();
    const struct plm_diag_sink diag = {diag_print, stderr};
    const struct plm_sink out = {bytes_write, stdout};
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    struct plm_report_options look_of_it = plm_report_options_default(&rules);
    struct plm_debriefed *debriefed = NULL;
    struct plm_dive *dive = NULL;
    options.review.reviewers = &reviewer;
    options.review.reviewer_count = 1;
    look_of_it.verbose = true;
    enum plm_status status = dive_read(&dive, stdin, &rules, &diag);
    if (status == PLM_STATUS_OK) {
        status = plm_debrief_dive(&debriefed, dive, &options, &diag);
    }
    if (status == PLM_STATUS_OK) {
        status = plm_report_write(PLM_REPORT_DEBRIEF, "text", &look_of_it, debriefed, &out, &diag);
    }
    plm_debriefed_free(debriefed);
    return status == PLM_STATUS_OK ? 0 : 1;
}
