/*
 * Puts the view of one dive together. Must not choose what a part shows; each part has its file.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "report/view/build.h"

static struct plmi_view_item *item_new(struct plmi_view *view, enum plmi_view_section section, const char *key,
                                       const char *label)
{
    static const struct plmi_view_item empty;
    assert(view->item_count < PLMI_VIEW_ITEMS_MAX);
    struct plmi_view_item *item = &view->items[view->item_count++];
    *item = empty;
    item->section = section;
    item->key = key;
    item->label = label;
    item->unit = "";
    item->value = (double)NAN;
    return item;
}

void plmi_view_add_number(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                          double value, int digits, const char *unit)
{
    struct plmi_view_item *item = item_new(view, section, key, label);
    item->style = PLMI_VIEW_NUMBER;
    item->value = value;
    item->digits = digits;
    item->unit = unit;
}

void plmi_view_add_duration(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                            double seconds)
{
    struct plmi_view_item *item = item_new(view, section, key, label);
    item->style = PLMI_VIEW_DURATION;
    item->value = isfinite(seconds) ? round(seconds) : seconds;
}

void plmi_view_add_text(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                        const char *text)
{
    struct plmi_view_item *item = item_new(view, section, key, label);
    item->style = PLMI_VIEW_TEXT;
    item->text = text != NULL ? plmi_view_keep(view, text) : NULL;
}

void plmi_view_add_flag(struct plmi_view *view, enum plmi_view_section section, const char *key, const char *label,
                        bool value)
{
    struct plmi_view_item *item = item_new(view, section, key, label);
    item->style = PLMI_VIEW_FLAG;
    item->value = value ? 1 : 0;
}

const char *plmi_view_keep(struct plmi_view *view, const char *text)
{
    const char *kept = plmi_arena_text(&view->arena, text, strlen(text));
    if (kept == NULL) {
        view->failed = true;
    }
    return kept != NULL ? kept : "";
}

const char *plmi_view_keep_text(struct plmi_view *view, struct plmi_text *text)
{
    if (text->failed) {
        view->failed = true;
    }
    const char *kept = text->bytes != NULL ? plmi_view_keep(view, text->bytes) : "";
    plmi_text_free(text);
    return kept;
}

void *plmi_view_room(struct plmi_view *view, size_t count, size_t size)
{
    void *room = count <= SIZE_MAX / size ? plmi_arena_get(&view->arena, count * size) : NULL;
    if (room == NULL) {
        view->failed = true;
    }
    return room;
}

static void view_fill(struct plmi_view *view, const struct plmi_view_from *from)
{
    plmi_view_add_source(view, from);
    plmi_view_add_model(view, from);
    plmi_view_add_findings(view, from);
    plmi_view_add_plan(view, from);
    plmi_view_add_loading(view, from);
    plmi_view_add_decompression(view, from);
    plmi_view_add_oxygen(view, from);
    plmi_view_add_gas(view, from);
    plmi_view_add_course(view, from);
    plmi_view_add_cautions(view, from);
}

enum plm_status plmi_view_new(struct plmi_view **out, const struct plm_debriefed *debriefed,
                              const struct plm_rules *rules)
{
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
