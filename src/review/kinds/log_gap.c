/*
 * Reviewer: a stretch of the dive without samples, over which everything is a straight line.
 * Must not fill it in.
 * SPDX-License-Identifier: MIT
 */
#include "review/kinds/reviewers.h"
#include "review/scene/parts.h"

#include <math.h>

#define LONG_S    300.0 /* [s] a gap longer than this, in a log that samples often, is a caution; convention */
#define OFTEN_S   30.0  /* [s] a usual step up to this is often; convention */
#define STEPS_MAX 4096  /* intervals counted by whole seconds for the usual step */

#define ALIKE_M        0.15 /* [m] neighbours less than this apart are alike: a step of most recorders; convention */
#define ALIKE_SHARE    0.02 /* of all intervals: less of them alike, and the log is one of changes; convention */
#define CHANGES_NEEDED 50   /* intervals under water needed to say so; convention */
#define QUIET_M        1.0  /* [m] a log of changes would have shown one of this; convention */

/* [s] the usual step: the median interval, to 1 s. */
static double usual_step_s(const struct plm_review_scene *scene)
{
    size_t bins[STEPS_MAX] = {0};
    size_t total = 0;
    for (size_t i = 1; i < scene->count; i++) {
        double step_s = plmi_review_time_s(scene, i) - plmi_review_time_s(scene, i - 1);
        if (step_s <= 0) {
            continue;
        }
        bins[(size_t)fmin(ceil(step_s), STEPS_MAX - 1)]++;
        total++;
    }
    size_t seen = 0;
    for (size_t bin = 0; bin < STEPS_MAX; bin++) {
        seen += bins[bin];
        if (seen * 2 >= total && seen > 0) {
            return (double)bin;
        }
    }
    return 0;
}

/* Whether the recorder writes a sample only where the depth has changed: hardly any neighbours are alike. */
static bool is_on_change(const struct plm_review_scene *scene)
{
    size_t alike = 0, all = 0;
    for (size_t i = 1; i < scene->count; i++) {
        if (plmi_review_submerged(scene, i)) {
            alike += fabs(scene->points[i].depth_m - scene->points[i - 1].depth_m) < ALIKE_M;
            all++;
        }
    }
    return all >= CHANGES_NEEDED && (double)alike < ALIKE_SHARE * (double)all;
}

/* Gaps that are reported as one. */
struct gaps {
    size_t first, last;
    int count;
    double longest_s;
};

static struct plm_finding *add(const struct plm_review_scene *scene, struct plm_finding_list *list,
                               const struct gaps *gaps, double limit_s)
{
    struct plm_finding *finding = plm_finding_add(list, scene, gaps->first, gaps->last);
    if (finding != NULL) {
        finding->value = gaps->longest_s;
        finding->limit = limit_s;
        finding->times = gaps->count;
    }
    return finding;
}

static void tell(const struct plm_review_scene *scene, struct plm_finding_list *list, const struct gaps *gaps,
                 double usual_s, double limit_s)
{
    struct plm_finding *finding = gaps->count > 0 ? add(scene, list, gaps, limit_s) : NULL;
    if (finding == NULL) {
        return;
    }
    finding->severity = finding->value > LONG_S && usual_s <= OFTEN_S ? PLM_SEVERITY_CAUTION : PLM_SEVERITY_NOTE;
    if (gaps->count == 1) {
        finding->text = plm_finding_sentence(list, "No sample {w}, {d} between {m} and {m}: taken as a straight line.",
                                             finding->from_s, finding->to_s, finding->value, finding->from_depth_m,
                                             finding->to_depth_m);
    } else {
        finding->text =
            plm_finding_sentence(list, "{i} gaps without samples {w}, the longest of {d}: taken as straight lines.",
                                 gaps->count, finding->from_s, finding->to_s, finding->value);
    }
}

/* What such a recorder leaves out is one note for the whole log. */
static void tell_quiet(const struct plm_review_scene *scene, struct plm_finding_list *list, const struct gaps *gaps,
                       double limit_s)
{
    struct plm_finding *finding = gaps->count > 0 ? add(scene, list, gaps, limit_s) : NULL;
    if (finding == NULL) {
        return;
    }
    finding->text = plm_finding_sentence(list,
                                         "The recorder seems to write a sample only when the depth changes: {s}no "
                                         "sample {w}, for {d} at the longest, and "
                                         "the depth taken as a straight line.",
                                         gaps->count > 1 ? plm_finding_sentence(list, "{i} times ", gaps->count) : "",
                                         finding->from_s, finding->to_s, finding->value);
}

static void take(struct gaps *gaps, const struct plm_review_scene *scene, size_t after)
{
    if (gaps->count == 0) {
        gaps->first = after - 1;
    }
    gaps->last = after;
    gaps->count++;
    gaps->longest_s = fmax(gaps->longest_s, plmi_review_time_s(scene, after) - plmi_review_time_s(scene, after - 1));
}

static bool is_gap(const struct plm_review_scene *scene, size_t after, double limit_s)
{
    double step_s = plmi_review_time_s(scene, after) - plmi_review_time_s(scene, after - 1);
    return step_s > limit_s && (plmi_review_submerged(scene, after) || plmi_review_submerged(scene, after - 1));
}

static bool is_near(const struct plm_review_scene *scene, const struct gaps *gaps, size_t before)
{
    bool same = scene->parts != NULL && plmi_review_part_of(scene, gaps->last).end > before;
    return same || plmi_review_time_s(scene, before) - plmi_review_time_s(scene, gaps->last) < scene->rules->merge_s;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double usual_s = usual_step_s(scene), limit_s = fmax(scene->rules->gap_s, 3 * usual_s);
    bool on_change = is_on_change(scene);
    struct gaps gaps = {.count = 0}, quiet = {.count = 0};
    for (size_t i = 1; i < scene->count; i++) {
        if (!is_gap(scene, i, limit_s)) {
            continue;
        }
        if (on_change && fabs(scene->points[i].depth_m - scene->points[i - 1].depth_m) < QUIET_M) {
            take(&quiet, scene, i);
            continue;
        }
        if (gaps.count > 0 && !is_near(scene, &gaps, i - 1)) {
            tell(scene, list, &gaps, usual_s, limit_s);
            gaps = (struct gaps){.count = 0};
        }
        take(&gaps, scene, i);
    }
    tell(scene, list, &gaps, usual_s, limit_s);
    tell_quiet(scene, list, &quiet, limit_s);
}

static const struct plm_explanation explanation = {
    .what = "The recorder wrote nothing for a while under water. The replay takes depth and oxygen there as straight "
            "lines and keeps the "
            "settings; what really happened is not known, and every figure after it carries that doubt.",
    .reached = "A note; a caution when longer than 5 min in a log that otherwise has a sample every 30 s or oftener. "
               "Where hardly any neighbours "
               "in the log are alike (less than 2 % of 50 or more within 0.15 m), it is one of changes: what it leaves "
               "out with less than 1 m between is "
               "one note for the whole log.",
    .formula = "An interval longer than gap_s (60 s) and than three usual steps; the usual step is the median "
               "interval. Gaps within one stop, on the bottom or on the way between two, or that follow each other "
               "within merge_s, are one finding; its "
               "value is the longest.",
    .source = "Convention of this program.",
    .ask = "Is there a second recorder on the same diver? Was a switch made or a set point changed in that time? Was "
           "the battery low?"};

const struct plm_reviewer plmi_review_log_gap = {
    .kind = "log-gap", .unit = "s", .meaning = "a stretch without samples", .look = look, .explanation = &explanation};
