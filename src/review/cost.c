/*
 * Replays edited dives and takes the differences.
 * Must not say that single costs add up.
 * SPDX-License-Identifier: MIT
 */
#include "review/cost.h"

#include <math.h>

#include "review/look.h"
#include "review/scene/owed.h"

#define CONSEQUENCES_MAX 4

bool plmi_review_costed(const struct plm_finding *finding)
{
    return plmi_review_editor_of(finding->kind) != NULL && finding->cost.known;
}

/* The recorded sample at which decompression owed is compared: behind the stretch, and not before the end of the
 * bottom. */
static size_t checkpoint(const struct plm_review_scene *scene, const struct plm_finding *finding)
{
    size_t behind = finding->last_point + 1 < scene->count ? finding->last_point + 1 : finding->last_point;
    return behind > scene->summary->bottom_end ? behind : scene->summary->bottom_end;
}

/* [min] more owed by the dive as recorded at a recorded sample; NaN where it never clears. */
static double owed_more_min(const struct plm_review_scene *scene, const struct plm_review_scene *edited,
                            const struct plmi_review_edit *edit, size_t origin)
{
    size_t item = plmi_review_edit_find(edit, origin);
    if (item >= edited->count) {
        return NAN;
    }
    double recorded_min = plmi_review_owed_min(scene, origin), edited_min = plmi_review_owed_min(edited, item);
    return isinf(recorded_min) || isinf(edited_min) ? (double)NAN : recorded_min - edited_min;
}

static void compare(struct plm_cost *cost, const struct plm_review_scene *scene, const struct plm_review_scene *edited)
{
    cost->known = true;
    cost->surfacing_gradient_points = scene->summary->surfacing_gradient_pct - edited->summary->surfacing_gradient_pct;
    cost->peak_gradient_points = scene->summary->peak_gradient_pct - edited->summary->peak_gradient_pct;
    cost->cns_points = scene->summary->cns_pct - edited->summary->cns_pct;
}

/* UNSOLVABLE, INPUT and LIMIT leave a cost unknown and are not the caller's trouble. */
static enum plm_status no_trouble(enum plm_status status)
{
    return status == PLM_STATUS_MEMORY ? status : PLM_STATUS_OK;
}

static enum plm_status cost_one(const struct plm_review_scene *scene, struct plm_finding_list *list, size_t index,
                                struct plmi_review_means *means)
{
    struct plm_finding finding = list->items[index];
    struct plmi_review_edit edit;
    enum plm_status status = plmi_review_edit_init(&edit, scene, means);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    const char *put_right = NULL;
    status = plmi_review_editor_of(finding.kind)->apply(&edit, &finding, list, &put_right);
    if (status == PLM_STATUS_OK) {
        status = put_right == NULL ? PLM_STATUS_UNSOLVABLE : plmi_review_edit_retry(&edit);
    }
    if (status == PLM_STATUS_OK) {
        struct plm_review_scene edited = plmi_review_edit_scene(&edit);
        compare(&finding.cost, scene, &edited);
        finding.cost.decompression_min = owed_more_min(scene, &edited, &edit, checkpoint(scene, &finding));
        finding.cost.put_right = put_right;
        list->items[index].cost = finding.cost;
    }
    plmi_review_edit_free(&edit);
    return no_trouble(status);
}

/* Whether an ascent was so fast for its pressure, or broke a ceiling, that no effect makes it small. */
static bool is_grave(const struct plm_review_scene *scene, const struct plm_finding *finding)
{
    bool grave = false;
    for (size_t i = finding->first_point; i <= finding->last_point && !grave; i++) {
        grave = scene->points[i].relative_rate_pct_min > scene->rules->ascent_relative_pct ||
                plmi_review_above_ceiling_m(scene, i) > 0;
    }
    return grave;
}

/* Whether the cost decides the severity: that of a deep ascent. */
static bool may_lower(const struct plm_review_scene *scene, const struct plm_finding *finding)
{
    return finding->kind == PLM_FINDING_ASCENT_RATE && finding->severity != PLM_SEVERITY_NOTE &&
           fmin(finding->from_depth_m, finding->to_depth_m) > scene->rules->ascent_deep_m && !is_grave(scene, finding);
}

/* A deep ascent that cost next to nothing is a note, and says why. */
static void lower(const struct plm_review_scene *scene, struct plm_finding_list *list, struct plm_finding *finding)
{
    const struct plm_rules *rules = scene->rules;
    const struct plm_cost *cost = &finding->cost;
    bool small = cost->known && cost->decompression_min < rules->cost_small_min &&
                 cost->surfacing_gradient_points < rules->cost_small_points;
    if (!may_lower(scene, finding) || !small) {
        return;
    }
    finding->severity = PLM_SEVERITY_NOTE;
    if (cost->decompression_min < -0.5) {
        finding->text = plm_finding_sentence(list,
                                             "{s} A note, because it lies deeper than {0} m and cost nothing: slower, "
                                             "{0} min more of stops would have been owed.",
                                             finding->text, rules->ascent_deep_m, -cost->decompression_min);
    } else {
        finding->text =
            plm_finding_sentence(list,
                                 "{s} A note, because it lies deeper than {0} m and cost less than {0} min of stops "
                                 "and {0} point of surfacing gradient.",
                                 finding->text, rules->ascent_deep_m, rules->cost_small_min, rules->cost_small_points);
    }
}

/* Going down again is a caution by what it cost, even where no stops were required. */
static bool may_raise(const struct plm_finding *finding)
{
    return finding->kind == PLM_FINDING_DESCENDED_AGAIN && finding->severity == PLM_SEVERITY_NOTE;
}

/* Where it cost next to nothing, a dive on several levels has nothing to put right. */
static void raise_or_leave(struct plm_finding *finding, const struct plm_rules *rules)
{
    const double nan = (double)NAN;
    if (!may_raise(finding)) {
        return;
    }
    if (finding->cost.known && finding->cost.decompression_min >= rules->cost_small_min) {
        finding->severity = PLM_SEVERITY_CAUTION;
    } else {
        finding->cost = (struct plm_cost){false, nan, nan, nan, nan, NULL};
    }
}

/* One editor over all findings of its kind that are put right; words are joined. */
static enum plm_status apply_all(const struct plmi_review_editor *editor, struct plmi_review_edit *edit,
                                 const struct plm_finding *findings, size_t finding_count,
                                 struct plm_finding_list *list, const char **put_right, size_t *count)
{
    for (size_t i = 0; i < finding_count; i++) {
        const char *words = NULL;
        if (findings[i].kind != editor->kind || !plmi_review_costed(&findings[i])) {
            continue;
        }
        enum plm_status status = editor->apply(edit, &findings[i], list, &words);
        if (status != PLM_STATUS_OK) {
            return status;
        }
        ++*count;
        if (words != NULL) {
            *put_right = *put_right == NULL ? words : plm_finding_sentence(list, "{s}; {s}", *put_right, words);
        }
    }
    return PLM_STATUS_OK;
}

/* Findings of an edited dive, of the kinds that were put right, as if they were findings of the recorded one. */
static enum plm_status consequences(struct plm_finding_list *found, struct plmi_review_edit *edit,
                                    const bool kinds[PLM_FINDING_COUNT])
{
    enum plm_status status = plmi_review_edit_retry(edit);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_review_scene scene = plmi_review_edit_scene(edit);
    status = plmi_review_look_all(&scene, NULL, found);
    size_t kept = 0;
    for (size_t i = 0; i < found->count; i++) {
        struct plm_finding finding = found->items[i];
        if (!kinds[finding.kind] || finding.last_point >= edit->count) {
            continue;
        }
        finding.first_point = edit->items[finding.first_point].origin;
        finding.last_point = edit->items[finding.last_point].origin;
        finding.cost.known = true;
        found->items[kept++] = finding;
    }
    found->count = kept;
    return status;
}

/* Editors can stand in each other's way: what they bring about is put right too, without words of its own. */
static enum plm_status apply_consequences(struct plmi_review_edit *edit, struct plm_finding_list *list,
                                          const bool kinds[PLM_FINDING_COUNT], bool *clean)
{
    size_t editors = 0, count = 0;
    const struct plmi_review_editor *const *table = plmi_review_editors(&editors);
    const char *words = NULL;
    struct plm_finding_list found;
    plmi_finding_list_init(&found);
    enum plm_status status = consequences(&found, edit, kinds);
    *clean = found.count == 0;
    for (size_t e = 0; e < editors && status == PLM_STATUS_OK; e++) {
        status = apply_all(table[e], edit, found.items, found.count, list, &words, &count);
    }
    plmi_finding_list_free(&found);
    return status;
}

enum plm_status plmi_review_edit_all(struct plmi_review_edit *edit, const struct plm_finding *findings,
                                     size_t finding_count, struct plm_finding_list *list, const char **put_right,
                                     size_t *count)
{
    size_t editors = 0;
    const struct plmi_review_editor *const *table = plmi_review_editors(&editors);
    bool kinds[PLM_FINDING_COUNT] = {false}, clean = false;
    enum plm_status status = PLM_STATUS_OK;
    edit->all = true;
    *count = 0;
    *put_right = NULL;
    for (size_t e = 0; e < editors && status == PLM_STATUS_OK; e++) {
        size_t before = *count;
        status = apply_all(table[e], edit, findings, finding_count, list, put_right, count);
        kinds[table[e]->kind] = *count > before;
    }
    for (int i = 0; i<CONSEQUENCES_MAX && * count> 0 && !clean && status == PLM_STATUS_OK; i++) {
        status = apply_consequences(edit, list, kinds, &clean);
    }
    return status;
}

/* The largest difference of decompression owed over the checkpoints of all findings put right. */
static double most_owed_min(const struct plm_review_scene *scene, const struct plm_review_scene *edited,
                            const struct plmi_review_edit *edit, const struct plm_finding_list *list)
{
    double most_min = NAN;
    for (size_t i = 0; i < list->count; i++) {
        if (!plmi_review_costed(&list->items[i])) {
            continue;
        }
        double more_min = owed_more_min(scene, edited, edit, checkpoint(scene, &list->items[i]));
        if (isnan(most_min) || fabs(more_min) > fabs(most_min)) {
            most_min = more_min;
        }
    }
    return most_min;
}

static enum plm_status cost_all(const struct plm_review_scene *scene, struct plm_finding_list *list,
                                struct plm_cost *all, struct plmi_review_means *means)
{
    struct plmi_review_edit edit;
    enum plm_status status = plmi_review_edit_init(&edit, scene, means);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    size_t count = 0;
    status = plmi_review_edit_all(&edit, list->items, list->count, list, &all->put_right, &count);
    if (status == PLM_STATUS_OK && count > 0) {
        status = plmi_review_edit_retry(&edit);
    }
    if (status == PLM_STATUS_OK && count > 0) {
        struct plm_review_scene edited = plmi_review_edit_scene(&edit);
        compare(all, scene, &edited);
        all->decompression_min = most_owed_min(scene, &edited, &edit, list);
    }
    plmi_review_edit_free(&edit);
    return no_trouble(status);
}

enum plm_status plmi_review_cost(const struct plm_review_scene *scene, struct plm_finding_list *list, bool for_severity,
                                 struct plm_cost *all)
{
    struct plmi_review_means means = {.samples = PLMI_REVIEW_BUDGET};
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < list->count && status == PLM_STATUS_OK; i++) {
        const struct plm_finding *finding = &list->items[i];
        if (plmi_review_editor_of(finding->kind) == NULL ||
            (for_severity && !may_lower(scene, finding) && !may_raise(finding))) {
            continue;
        }
        status = cost_one(scene, list, i, &means);
        lower(scene, list, &list->items[i]);
        raise_or_leave(&list->items[i], scene->rules);
    }
    if (status == PLM_STATUS_OK && !for_severity) {
        status = cost_all(scene, list, all, &means);
    }
    plm_trace_free(means.spare);
    return status;
}
