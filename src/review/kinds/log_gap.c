/*
 * Reviewer: a stretch of the dive without samples, over which everything is a straight line.
 * Must not fill it in.
 * SPDX-License-Identifier: MIT
 */
#include "dive/changes.h"
#include "review/kinds/reviewers.h"
#include "review/scene/parts.h"

#include <math.h>

#define LONG_S    300.0 /* [s] a gap longer than this, in a log that samples often, is a caution; convention */
#define OFTEN_S   30.0  /* [s] a usual step up to this is often; convention */
#define STEPS_MAX 4096  /* intervals counted by whole seconds for the usual step */

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

static void take(struct gaps *gaps, const struct plm_review_scene *scene, size_t after)
{
    if (gaps->count == 0) {
        gaps->first = after - 1;
    }
    gaps->last = after;
    gaps->count++;
    gaps->longest_s = fmax(gaps->longest_s, plmi_review_time_s(scene, after) - plmi_review_time_s(scene, after - 1));
}

/* Nothing was written as nothing had changed. */
static bool is_level(const struct plm_review_scene *scene, size_t after)
{
    return plmi_silence_is_level(plm_dive_info_get(scene->input->dive), scene->rules, scene->points[after - 1].depth_m,
                                 scene->points[after].depth_m);
}

static bool is_gap(const struct plm_review_scene *scene, size_t after, double limit_s)
{
    double step_s = plmi_review_time_s(scene, after) - plmi_review_time_s(scene, after - 1);
    bool wet = plmi_review_submerged(scene, after) || plmi_review_submerged(scene, after - 1);
    return step_s > limit_s && wet && !is_level(scene, after);
}

static bool is_near(const struct plm_review_scene *scene, const struct gaps *gaps, size_t before)
{
    bool same = scene->parts != NULL && plmi_review_part_of(scene, gaps->last).end > before;
    return same || plmi_review_time_s(scene, before) - plmi_review_time_s(scene, gaps->last) < scene->rules->merge_s;
}

static void look(const struct plm_review_scene *scene, struct plm_finding_list *list)
{
    double usual_s = usual_step_s(scene), limit_s = fmax(scene->rules->gap_s, 3 * usual_s);
    struct gaps gaps = {.count = 0};
    for (size_t i = 1; i < scene->count; i++) {
        if (!is_gap(scene, i, limit_s)) {
            continue;
        }
        if (gaps.count > 0 && !is_near(scene, &gaps, i - 1)) {
            tell(scene, list, &gaps, usual_s, limit_s);
            gaps = (struct gaps){.count = 0};
        }
        take(&gaps, scene, i);
    }
    tell(scene, list, &gaps, usual_s, limit_s);
}

static const struct plm_explanation explanation = {
    .what = "The recorder wrote nothing for a while under water. The replay takes depth and oxygen there as straight "
            "lines and keeps the "
            "settings; what really happened is not known, and every figure after it carries that doubt.",
    .reached = "A note; a caution when longer than 5 min in a log that otherwise has a sample every 30 s or oftener.",
    .formula = "An interval longer than gap_s (60 s) and than three usual steps; the usual step is the median "
               "interval. Gaps within one stop, on the bottom or on the way between two, or that follow each other "
               "within merge_s, are one finding; its value is the longest. A recorder that writes a sample only when "
               "depth has changed has no gap where depth differs by no more than its least change and one of its steps "
               "at silent_rate_m_min (18 m/min); whether it was off at one depth cannot be seen. It is known by 50 or "
               "more intervals under water: 98 % of them change depth by its least change (0.05 m or more), 5 % or "
               "more are off the usual step by over half of it, and of those longer than three of its steps (as short "
               "as a quarter of all intervals) 90 % change depth by no more than three least changes.",
    .source = "Convention of this program.",
    .ask = "Is there a second recorder on the same diver? Was a switch made or a set point changed in that time? Was "
           "the battery low?"};

const struct plm_reviewer plmi_review_log_gap = {
    .kind = "log-gap", .unit = "s", .meaning = "a stretch without samples", .look = look, .explanation = &explanation};
