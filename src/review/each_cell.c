/*
 * Replays a dive by each oxygen cell of its loop alone.
 * Must not choose a cell.
 * SPDX-License-Identifier: MIT
 */
#include "review/each_cell.h"

#include <math.h>

#include "replay/loop.h"
#include "review/look.h"
#include "review/replayed.h"
#include "review/scene/cells.h"
#include "review/scene/owed.h"

/* Kinds that hang on the oxygen of the loop, by its dose or by the inert gas that it leaves. */
static bool hangs_on_oxygen(enum plm_finding_kind kind)
{
    static const enum plm_finding_kind kinds[] = {PLM_FINDING_CEILING_EXCEEDED, PLM_FINDING_M_VALUE_EXCEEDED,
                                                  PLM_FINDING_STOP_CUT_SHORT,   PLM_FINDING_SURFACED_OWING_STOPS,
                                                  PLM_FINDING_OXYGEN_HIGH,      PLM_FINDING_OXYGEN_LOW,
                                                  PLM_FINDING_CNS_SINGLE,       PLM_FINDING_CNS_DAY,
                                                  PLM_FINDING_OTU_DAY,          PLM_FINDING_OTU_DAYS,
                                                  PLM_FINDING_ESOT_DAY};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (kinds[i] == kind) {
            return true;
        }
    }
    return false;
}

static bool disagree(const struct plm_finding_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        if (list->items[i].kind == PLM_FINDING_CELLS_DISAGREE) {
            return true;
        }
    }
    return false;
}

static bool reads_anything(const struct plm_review_scene *scene, int cell)
{
    for (size_t i = 0; i < scene->count; i++) {
        if (plmi_review_setting(scene, i)->mode != PLM_MODE_OPEN &&
            plmi_cell_lives(scene->samples[i].cell_bar[cell - 1])) {
            return true;
        }
    }
    return false;
}

/* Whether a finding is there, at the same time and as bad, among those of one cell. */
static bool stands(const struct plm_finding *finding, const struct plm_finding_list *alone, double slack_s)
{
    for (size_t i = 0; i < alone->count; i++) {
        const struct plm_finding *other = &alone->items[i];
        if (other->kind == finding->kind && other->severity >= finding->severity &&
            other->from_s <= finding->to_s + slack_s && finding->from_s <= other->to_s + slack_s) {
            return true;
        }
    }
    return false;
}

static void mark(struct plm_finding_list *list, const struct plm_finding_list *alone, double slack_s)
{
    for (size_t i = 0; i < list->count; i++) {
        struct plm_finding *finding = &list->items[i];
        if (hangs_on_oxygen(finding->kind) && !stands(finding, alone, slack_s)) {
            finding->hold = PLM_HOLD_MARGINAL;
            finding->cells_differ = true;
        }
    }
}

static void figures_take(struct plm_cell_figures *figures, const struct plm_review_scene *alone)
{
    figures->surfacing_gradient_pct = alone->summary->surfacing_gradient_pct;
    figures->cns_pct = alone->summary->cns_pct;
    figures->cns_beyond_min = alone->summary->cns_beyond_min;
    figures->owed_min = plmi_review_owed_min(alone, alone->summary->bottom_end);
}

/* One cell: its replay, its figures, and what of the findings it bears out. */
static enum plm_status try_cell(struct plm_cell_figures *figures, const struct plm_review_scene *scene,
                                const struct plm_review_options *options, struct plm_finding_list *list,
                                struct plm_trace **trace)
{
    struct plm_replay_options replay = *scene->input->replay;
    replay.cell = figures->cell;
    struct plmi_review_replayed alone;
    enum plm_status status = plmi_review_replay(&alone, scene, replay, trace);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    figures_take(figures, &alone.scene);
    if (figures->still) {
        return PLM_STATUS_OK;
    }
    struct plm_finding_list found;
    plmi_finding_list_init(&found);
    status = plmi_review_look_all(&alone.scene, options, &found);
    list->misused = found.misused;
    if (status == PLM_STATUS_OK) {
        mark(list, &found, scene->rules->merge_s);
    }
    plmi_finding_list_free(&found);
    return status;
}

enum plm_status plmi_review_each_cell(struct plmi_each_cell *out, const struct plm_review_scene *scene,
                                      const struct plm_review_options *options, struct plm_finding_list *list)
{
    out->count = 0;
    if (!disagree(list)) {
        return PLM_STATUS_OK;
    }
    for (int cell = 1; cell <= PLM_CELLS; cell++) {
        if (reads_anything(scene, cell)) {
            out->items[out->count++] =
                (struct plm_cell_figures){.cell = cell, .still = plmi_review_still_find(scene, cell).found};
        }
    }
    struct plm_trace *trace = NULL;
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < out->count && status == PLM_STATUS_OK; i++) {
        status = try_cell(&out->items[i], scene, options, list, &trace);
    }
    plm_trace_free(trace);
    return status;
}
