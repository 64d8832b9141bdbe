/*
 * Replays a dive at the corners of its recorder's tolerance and matches the findings.
 * Must not change what was found on the depths as recorded, but for its hold and range.
 * SPDX-License-Identifier: MIT
 */
#include "review/hold.h"

#include <math.h>

#include "review/events.h"
#include "review/look.h"
#include "review/replayed.h"

/* Depths deeper and shallower, by share and by step: the corners of the tolerance. */
static const struct {
    double scale, shift;
} corners[] = {{1, 1}, {-1, -1}, {1, -1}, {-1, 1}};

/* What is of a stop is known by that; of all else, what comes at the same time is the same. */
static bool same_trouble(const struct plm_finding *a, const struct plm_finding *b, double slack_s)
{
    if (a->kind != b->kind) {
        return false;
    }
    if (!isnan(a->stop_m) || !isnan(b->stop_m)) {
        return a->stop_m == b->stop_m;
    }
    return a->from_s <= b->to_s + slack_s && b->from_s <= a->to_s + slack_s;
}

static void widen(struct plm_finding *finding, double value)
{
    finding->value_low = fmin(finding->value_low, value);
    finding->value_high = fmax(finding->value_high, value);
}

static bool widen_by(struct plm_finding *finding, const struct plm_finding_list *corner, double slack_s)
{
    bool found = false;
    for (size_t i = 0; i < corner->count; i++) {
        if (same_trouble(finding, &corner->items[i], slack_s)) {
            widen(finding, corner->items[i].value);
            found = true;
        }
    }
    return found;
}

/* A finding of the recorded depths against those of one corner: those at the same time, and only where there are none
 * those close by, which may be of the next stop. */
static void match(struct plm_finding *finding, const struct plm_finding_list *corner, double slack_s)
{
    if (widen_by(finding, corner, 0) || widen_by(finding, corner, slack_s)) {
        return;
    }
    finding->hold = PLM_HOLD_MARGINAL;
    widen(finding, finding->limit);
}

/* A value with a standard error holds by that, and the corners say nothing of it. */
static bool has_error(const struct plm_finding *finding)
{
    return !isnan(finding->value_error);
}

/* What is known before any corner: the value as recorded, or two standard errors about it. */
static void begin(struct plm_finding *finding)
{
    double away = has_error(finding) ? 2 * finding->value_error : 0;
    bool beyond_error = !has_error(finding) || fabs(finding->value - finding->limit) > away;
    finding->hold = beyond_error ? PLM_HOLD_FIRM : PLM_HOLD_MARGINAL;
    finding->value_low = finding->value - away;
    finding->value_high = finding->value + away;
}

/* How far a value is beyond its limit, to choose the widest of a kind. */
static double beyond(const struct plm_finding *finding)
{
    double away = fabs(finding->value - finding->limit);
    return isnan(away) ? 0 : away;
}

/* A trouble that only corners show: the widest stands for it. */
static void gather(struct plm_finding_list *edges, const struct plm_finding *edge, double slack_s)
{
    for (size_t i = 0; i < edges->count; i++) {
        struct plm_finding *known = &edges->items[i];
        if (!same_trouble(known, edge, slack_s)) {
            continue;
        }
        if (beyond(edge) > beyond(known)) {
            *known = *edge;
            known->text = plm_finding_sentence(edges, "{s}", edge->text);
        }
        return;
    }
    struct plm_finding *finding = plmi_finding_list_add(edges);
    if (finding == NULL) {
        return;
    }
    *finding = *edge;
    finding->text = plm_finding_sentence(edges, "{s}", edge->text);
}

/* What goes against a plan is reported with a margin that is larger than what a recorder is off. */
static bool has_margin(enum plm_finding_kind kind)
{
    return kind >= PLM_FINDING_PLAN_DEEPER && kind <= PLM_FINDING_PLAN_STOP;
}

/* Is it new, of no event that is reported, and more than a note where it is? */
static bool is_shown(const struct plm_review_scene *scene, const struct plm_finding_list *list,
                     const struct plm_finding *edge)
{
    if (edge->severity == PLM_SEVERITY_NOTE || has_margin(edge->kind) || has_error(edge)) {
        return false;
    }
    for (size_t i = 0; i < list->count; i++) {
        const struct plm_finding *known = &list->items[i];
        if (same_trouble(known, edge, scene->rules->merge_s) || plmi_review_events_same(scene, known, edge)) {
            return false;
        }
    }
    return true;
}

/* All edges of a kind become one note, that of the widest, which says how many there are. */
static void add_edges(struct plm_finding_list *list, const struct plm_finding_list *edges, size_t kinds)
{
    for (size_t kind = 0; kind < kinds; kind++) {
        int count = 0;
        const struct plm_finding *widest = NULL;
        for (size_t i = 0; i < edges->count; i++) {
            if ((size_t)edges->items[i].kind != kind) {
                continue;
            }
            count++;
            if (widest == NULL || beyond(&edges->items[i]) > beyond(widest)) {
                widest = &edges->items[i];
            }
        }
        struct plm_finding *finding = widest == NULL ? NULL : plmi_finding_list_add(list);
        if (finding == NULL) {
            continue;
        }
        *finding = *widest;
        finding->severity = PLM_SEVERITY_NOTE;
        finding->hold = PLM_HOLD_MARGINAL;
        finding->value_low = finding->value_high = finding->value;
        widen(finding, finding->limit);
        finding->text =
            count == 1
                ? plm_finding_sentence(list, "May have happened, within the recorder's tolerance: {s}", widest->text)
                : plm_finding_sentence(
                      list, "May have happened, within the recorder's tolerance, at {i} places. The widest: {s}", count,
                      widest->text);
    }
}

/* The findings of the recorded depths, and those of one corner that are new. */
static void hold_against(const struct plm_review_scene *scene, struct plm_finding_list *list,
                         const struct plm_finding_list *corner, struct plm_finding_list *edges)
{
    double slack_s = scene->rules->merge_s;
    for (size_t i = 0; i < list->count; i++) {
        if (!has_error(&list->items[i])) {
            match(&list->items[i], corner, slack_s);
        }
    }
    for (size_t i = 0; i < corner->count; i++) {
        if (is_shown(scene, list, &corner->items[i])) {
            gather(edges, &corner->items[i], slack_s);
        }
    }
}

static enum plm_status try_corner(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                  struct plm_finding_list *list, struct plm_finding_list *edges, double scale,
                                  double shift_m, struct plm_trace **trace)
{
    struct plm_replay_options replay = *scene->input->replay;
    replay.depth_scale *= scale;
    replay.depth_shift_m += shift_m;
    struct plmi_review_replayed shifted;
    enum plm_status status = plmi_review_replay(&shifted, scene, replay, trace);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_finding_list corner;
    plmi_finding_list_init(&corner);
    status = plmi_review_look_all(&shifted.scene, options, &corner);
    list->misused = corner.misused;
    if (status == PLM_STATUS_OK) {
        hold_against(scene, list, &corner, edges);
        status = edges->failed ? PLM_STATUS_MEMORY : status;
    }
    plmi_finding_list_free(&corner);
    return status;
}

enum plm_status plmi_review_hold(const struct plm_review_scene *scene, const struct plm_review_options *options,
                                 struct plm_finding_list *list)
{
    double step_m = plm_dive_info_get(scene->input->dive)->depth_step_m;
    double shift_m = fmax(scene->rules->tolerance_depth_m, isnan(step_m) ? 0 : step_m / 2),
           share = scene->rules->tolerance_depth_pct / 100;
    for (size_t i = 0; i < list->count; i++) {
        begin(&list->items[i]);
    }
    struct plm_finding_list edges;
    struct plm_trace *trace = NULL;
    plmi_finding_list_init(&edges);
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < sizeof corners / sizeof corners[0] && status == PLM_STATUS_OK; i++) {
        status =
            try_corner(scene, options, list, &edges, 1 + corners[i].scale * share, corners[i].shift * shift_m, &trace);
    }
    if (status == PLM_STATUS_OK) {
        add_edges(list, &edges, PLM_FINDING_COUNT + options->reviewer_count);
    }
    plmi_finding_list_free(&edges);
    plm_trace_free(trace);
    return status;
}
