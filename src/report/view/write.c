/*
 * Figures of a view as people read them. Must not round anything twice.
 * SPDX-License-Identifier: MIT
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "report/view/view.h"

const char *plmi_view_section_text(enum plmi_view_section section)
{
    static const char *const texts[PLMI_VIEW_SECTIONS] = {"source",  "dive",          "profile", "model", "counts",
                                                          "loading", "decompression", "oxygen",  "gas"};
    return texts[section];
}

const struct plmi_view_item *plmi_view_find(const struct plmi_view *view, const char *key)
{
    for (size_t i = 0; i < view->item_count; i++) {
        if (strcmp(view->items[i].key, key) == 0) {
            return &view->items[i];
        }
    }
    assert(false && "no such item");
    return &view->items[0];
}

void plmi_view_number_write(struct plmi_text *out, double value, int digits, const char *unit)
{
    if (isnan(value)) {
        plmi_text_puts(out, "-");
        return;
    }
    if (isinf(value)) {
        plmi_text_puts(out, "never");
        return;
    }
    plmi_number_fixed(out, value, digits);
    if (unit[0] != '\0') {
        plmi_text_printf(out, " %s", unit);
    }
}

void plmi_view_change_write(struct plmi_text *out, double value, int digits)
{
    struct plmi_text number;
    plmi_text_init(&number);
    plmi_view_number_write(&number, value, digits, "");
    if (value > 0 && isfinite(value) && number.bytes != NULL && strpbrk(number.bytes, "123456789") != NULL) {
        plmi_text_puts(out, "+");
    }
    plmi_text_puts(out, number.bytes != NULL ? number.bytes : "");
    out->failed = out->failed || number.failed;
    plmi_text_free(&number);
}

void plmi_view_duration_write(struct plmi_text *out, double seconds)
{
    if (!isfinite(seconds)) {
        plmi_text_puts(out, isnan(seconds) ? "-" : "never");
        return;
    }
    long whole = lround(fabs(seconds));
    if (seconds < 0 && whole > 0) {
        plmi_text_puts(out, "-");
    }
    if (whole >= 3600) {
        plmi_text_printf(out, "%ld:%02ld:%02ld", whole / 3600, whole / 60 % 60, whole % 60);
    } else {
        plmi_text_printf(out, "%ld:%02ld", whole / 60, whole % 60);
    }
}

const char plmi_view_least[] =
    "+: at least so much. Oxygen was above the table of limits, where no limit is published.";

void plmi_view_least_write(struct plmi_text *out, double value, int digits, bool at_least)
{
    plmi_view_number_write(out, value, digits, "");
    plmi_text_puts(out, at_least && isfinite(value) ? "+" : "");
}

void plmi_view_item_write(struct plmi_text *out, const struct plmi_view_item *item)
{
    if (item->style == PLMI_VIEW_TEXT) {
        plmi_text_puts(out, item->text != NULL ? item->text : "-");
    } else if (item->style == PLMI_VIEW_FLAG) {
        plmi_text_puts(out, item->value > 0 ? "yes" : "no");
    } else if (item->style == PLMI_VIEW_DURATION) {
        plmi_view_duration_write(out, item->value);
    } else if (item->value < 0 && strcmp(item->unit, "%") == 0) {
        /* A gradient while no compartment holds more than there is pressure: how far below tells nothing. */
        plmi_text_puts(out, "below 0 %");
    } else {
        plmi_text_puts(out, item->at_least && isfinite(item->value) ? "at least " : "");
        plmi_view_number_write(out, item->value, item->digits, item->unit);
    }
}

void plmi_view_sentence_write(struct plmi_text *out, const struct plmi_view *view, const char *sentence)
{
    char key[48];
    while (*sentence != '\0') {
        size_t plain = strcspn(sentence, "{");
        plmi_text_add(out, sentence, plain);
        sentence += plain;
        if (*sentence == '\0') {
            return;
        }
        size_t length = strcspn(++sentence, "}");
        assert(length < sizeof key);
        memcpy(key, sentence, length);
        key[length] = '\0';
        plmi_view_item_write(out, plmi_view_find(view, key));
        sentence += length + (sentence[length] == '}');
    }
}

void plmi_view_counts_write(struct plmi_text *out, size_t serious, size_t caution, size_t note)
{
    const struct {
        size_t count;
        const char *one, *many;
    } parts[] = {{serious, "serious", "serious"}, {caution, "caution", "cautions"}, {note, "note", "notes"}};
    bool any = false;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (parts[i].count == 0) {
            continue;
        }
        plmi_text_printf(out, "%s%zu %s", any ? ", " : "", parts[i].count,
                         parts[i].count == 1 ? parts[i].one : parts[i].many);
        any = true;
    }
    if (!any) {
        plmi_text_puts(out, "nothing");
    }
}

int plmi_view_unit_digits(const char *unit)
{
    static const struct {
        const char *unit;
        int digits;
    } table[] = {{"m", 2}, {"%", 1}, {"min", 1}, {"m/min", 1}, {"bar", 2}, {"OTU", 0}, {"g/L", 2}, {"s", 0}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        if (strcmp(unit, table[i].unit) == 0) {
            return table[i].digits;
        }
    }
    return 2;
}

int plmi_view_plan_digits(const char *unit)
{
    return strcmp(unit, "m") == 0 ? 1 : plmi_view_unit_digits(unit);
}
