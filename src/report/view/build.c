/*
 * How the parts of a view add to it: items, and texts and lists that live as long as it. Must not know any part.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/build.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

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
