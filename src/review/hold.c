/*
 * Replays a dive at the corners of its recorder's tolerance and matches the findings.
 * Must not change what was found on the depths as recorded, but for its hold and range.
 * SPDX-License-Identifier: MIT
 */
#include "review/hold.h"

#include <math.h>

#include "replay/edited_replay.h"
#include "review/plan/plan.h"

/* Depths deeper and shallower, by share and by step: the corners of the tolerance. */
static const struct {
    double scale, shift;
} corners[] = {{1, 1}, {-1, -1}, {1, -1}, {-1, 1}};

static bool same_trouble(const struct plm_finding *a, const struct plm_finding *b, double slack_s)
{
    return a->kind == b->kind && a->from_s <= b->to_s + slack_s && b->from_s <= a->to_s + slack_s;
}

static void widen(struct plm_finding *finding, double value)
{
    finding->value_low = fmin(finding->value_low, value);
    finding->value_high = fmax(finding->value_high, value);
}

/* A finding of the recorded depths against those of one corner. */
static void match(struct plm_finding *finding, const struct plmi_review_list *corner, double slack_s)
{
    bool found = false;
    for (size_t i = 0; i < corner->count; i++) {
        if (same_trouble(finding, &corner->items[i], slack_s)) {
            widen(finding, corner->items[i].value);
            found = true;
        }
    }
    if (found) {
        return;
    }
    finding->hold = PLM_HOLD_MARGINAL;
    widen(finding, finding->limit);
}

/* How far a value is beyond its limit, to choose the widest of a kind. */
static double beyond(const struct plm_finding *finding)
{
    double away = fabs(finding->value - finding->limit);
    return isnan(away) ? 0 : away;
}

/* A trouble that only corners show: the widest stands for it. */
static void gather(struct plmi_review_list *edges, const struct plm_finding *edge, double slack_s)
{
    for (size_t i = 0; i < edges->count; i++) {
        struct plm_finding *known = &edges->items[i];
        if (!same_trouble(known, edge, slack_s)) {
            continue;
        }
        if (beyond(edge) > beyond(known)) {
            *known = *edge;
            known->text = plmi_review_sentence(edges, "{s}", edge->text);
        }
        return;
    }
    struct plm_finding *finding = plmi_review_list_add(edges, edge->kind);
    if (finding == NULL) {
        return;
    }
    *finding = *edge;
    finding->text = plmi_review_sentence(edges, "{s}", edge->text);
}

/* Is it new, and more than a note where it is? */
static bool is_told(const struct plmi_review_list *list, const struct plm_finding *edge, double slack_s)
{
    if (edge->severity == PLM_SEVERITY_NOTE) {
        return false;
    }
    for (size_t i = 0; i < list->count; i++) {
        if (same_trouble(&list->items[i], edge, slack_s)) {
            return false;
        }
    }
    return true;
}

/* All edges of a kind become one note, that of the widest, which tells how many there are. */
static void add_edges(struct plmi_review_list *list, const struct plmi_review_list *edges)
{
    for (int kind = 0; kind < PLM_FINDING_COUNT; kind++) {
        int count = 0;
        const struct plm_finding *widest = NULL;
        for (size_t i = 0; i < edges->count; i++) {
            if ((int)edges->items[i].kind != kind) {
                continue;
            }
            count++;
            if (widest == NULL || beyond(&edges->items[i]) > beyond(widest)) {
                widest = &edges->items[i];
            }
        }
        struct plm_finding *finding = widest == NULL ? NULL : plmi_review_list_add(list, widest->kind);
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
                ? plmi_review_sentence(list, "May have happened, within the recorder's tolerance: {s}", widest->text)
                : plmi_review_sentence(
                      list, "May have happened, within the recorder's tolerance, at {i} places. The widest: {s}", count,
                      widest->text);
    }
}

static enum plm_status try_corner(const struct plmi_review_scene *scene, struct plmi_review_list *list,
                                  struct plmi_review_list *edges, double scale, double shift_m,
                                  struct plm_trace **trace)
{
    struct plm_replay_options options = *scene->input->replay;
    options.depth_scale *= scale;
    options.depth_shift_m += shift_m;
    options.schedules = false;
    struct plm_review_input input = *scene->input;
    enum plm_status status = plmi_edited_replay(trace, input.dive, NULL, &options, NULL);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    input.trace = *trace;
    input.decompression = NULL;
    struct plmi_review_scene shifted = plmi_review_scene_of(&input);
    plmi_review_plan_lay(&shifted, scene->plan);
    struct plmi_review_list corner;
    plmi_review_list_init(&corner);
    plmi_review_look_all(&shifted, &corner);
    for (size_t i = 0; i < list->count; i++) {
        match(&list->items[i], &corner, scene->rules->merge_s);
    }
    for (size_t i = 0; i < corner.count; i++) {
        if (is_told(list, &corner.items[i], scene->rules->merge_s)) {
            gather(edges, &corner.items[i], scene->rules->merge_s);
        }
    }
    status = corner.failed || edges->failed ? PLM_STATUS_MEMORY : PLM_STATUS_OK;
    plmi_review_list_free(&corner);
    return status;
}

enum plm_status plmi_review_hold(const struct plmi_review_scene *scene, struct plmi_review_list *list)
{
    double step_m = plm_dive_info_get(scene->input->dive)->depth_step_m;
    double shift_m = fmax(scene->rules->tolerance_depth_m, isnan(step_m) ? 0 : step_m / 2),
           share = scene->rules->tolerance_depth_pct / 100;
    for (size_t i = 0; i < list->count; i++) {
        list->items[i].hold = PLM_HOLD_FIRM;
        list->items[i].value_low = list->items[i].value_high = list->items[i].value;
    }
    struct plmi_review_list edges;
    struct plm_trace *trace = NULL;
    plmi_review_list_init(&edges);
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < sizeof corners / sizeof corners[0] && status == PLM_STATUS_OK; i++) {
        status = try_corner(scene, list, &edges, 1 + corners[i].scale * share, corners[i].shift * shift_m, &trace);
    }
    if (status == PLM_STATUS_OK) {
        add_edges(list, &edges);
    }
    plmi_review_list_free(&edges);
    plm_trace_free(trace);
    return status;
}
