/*
 * Puts the view of one dive together. Must not choose what a part shows; each part has its file.
 * SPDX-License-Identifier: MIT
 */
#include <stdlib.h>

#include "report/view/build.h"

static void view_fill(struct plmi_view *view, const struct plmi_view_from *from)
{
    plmi_view_add_source(view, from);
    plmi_view_add_model(view, from);
    plmi_view_add_basis(view, from);
    plmi_view_add_findings(view, from);
    plmi_view_add_each_cell(view, from);
    plmi_view_add_plan(view, from);
    plmi_view_add_loading(view, from);
    plmi_view_add_decompression(view, from);
    plmi_view_add_oxygen(view, from);
    plmi_view_add_gas(view, from);
    plmi_view_add_course(view, from);
    plmi_view_add_cautions(view, from);
}

enum plm_status plmi_view_new(struct plmi_view **out, const struct plm_debriefed *debriefed)
{
    const struct plm_rules *rules = debriefed->replay.rules;
    *out = NULL;
    struct plmi_view *view = calloc(1, sizeof *view);
    if (view == NULL) {
        return PLM_STATUS_MEMORY;
    }
    plmi_arena_init(&view->arena);
    view->debriefed = debriefed;
    view->rules = rules;
    view->headline = view->all_put_right_words = view->plan_assumed = "";
    view->items = plmi_view_room(view, PLMI_VIEW_ITEMS_MAX, sizeof *view->items);
    struct plmi_view_from from = {
        .debriefed = debriefed,
        .rules = rules,
        .info = plm_dive_info_get(debriefed->dive),
        .summary = plm_trace_summary_get(debriefed->trace),
        .assumed = plm_trace_assumed(debriefed->trace),
    };
    if (!view->failed) {
        view_fill(view, &from);
    }
    if (view->failed) {
        plmi_view_free(view);
        return PLM_STATUS_MEMORY;
    }
    *out = view;
    return PLM_STATUS_OK;
}

void plmi_view_free(struct plmi_view *view)
{
    if (view == NULL) {
        return;
    }
    plmi_arena_free(&view->arena);
    free(view);
}
