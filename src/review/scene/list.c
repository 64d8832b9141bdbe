/*
 * Collects findings and their sentences.
 * Must not judge: the reviewers do.
 * SPDX-License-Identifier: MIT
 */
#include "review/scene/list.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"

#define ROUNDING 1e-9 /* so far below a bound still counts as at it */

void plmi_finding_list_init(struct plm_finding_list *list)
{
    *list = (struct plm_finding_list){.items = NULL};
    plmi_arena_init(&list->texts);
}

void plmi_finding_list_free(struct plm_finding_list *list)
{
    free(list->items);
    free(list->joined);
    plmi_arena_free(&list->texts);
    *list = (struct plm_finding_list){.items = NULL};
    plmi_arena_init(&list->texts);
}

struct plm_finding *plmi_finding_list_add(struct plm_finding_list *list)
{
    void *items = list->items;
    if (!plmi_array_grow(&items, &list->capacity, list->count, sizeof *list->items)) {
        list->failed = true;
        return NULL;
    }
    list->items = items;
    struct plm_finding *finding = &list->items[list->count++];
    *finding = (struct plm_finding){.kind = list->kind,
                                    .reviewer = list->reviewer,
                                    .severity = PLM_SEVERITY_NOTE,
                                    .from_s = NAN,
                                    .to_s = NAN,
                                    .from_depth_m = NAN,
                                    .to_depth_m = NAN,
                                    .stop_m = NAN,
                                    .value = NAN,
                                    .limit = NAN,
                                    .times = 1,
                                    .held_s = NAN,
                                    .value_error = NAN,
                                    .unit = list->reviewer != NULL ? list->reviewer->unit : "",
                                    .text = "",
                                    .hold = PLM_HOLD_UNTRIED,
                                    .value_low = NAN,
                                    .value_high = NAN,
                                    .cost = {.known = false,
                                             .decompression_min = NAN,
                                             .surfacing_gradient_points = NAN,
                                             .peak_gradient_points = NAN,
                                             .cns_points = NAN}};
    return finding;
}

static void runtime(struct plmi_text *text, double seconds)
{
    long whole = lround(seconds);
    long minutes = whole / 60;
    if (minutes >= 60) {
        plmi_text_printf(text, "%ld:%02ld:%02ld", minutes / 60, minutes % 60, whole % 60);
    } else {
        plmi_text_printf(text, "%ld:%02ld", minutes, whole % 60);
    }
}

static void duration(struct plmi_text *text, double seconds)
{
    if (seconds < 59.5) {
        plmi_text_printf(text, "%ld s", lround(seconds));
        return;
    }
    runtime(text, seconds);
    plmi_text_puts(text, seconds < 3599.5 ? " min" : " h");
}

/* One mark in braces; the argument is taken by the caller. */
static void mark(struct plmi_text *text, char which, double value)
{
    if (which == 't') {
        runtime(text, value);
    } else if (which == 'd') {
        duration(text, value);
    } else {
        plmi_number_fixed(text, value, which == 'm' ? 1 : which - '0');
    }
    if (which == 'm') {
        plmi_text_puts(text, " m");
    }
}

/* "from 26:45 to 28:10", or "at 26:45". */
static void span(struct plmi_text *text, double from_s, double to_s)
{
    bool moment = lround(from_s) == lround(to_s);
    plmi_text_puts(text, moment ? "at " : "from ");
    runtime(text, from_s);
    if (moment) {
        return;
    }
    plmi_text_puts(text, " to ");
    runtime(text, to_s);
}

static void write_sentence(struct plmi_text *text, const char *format, va_list arguments)
{
    for (const char *at = format; *at != '\0'; at++) {
        if (at[0] != '{' || at[1] == '\0' || at[2] != '}') {
            plmi_text_add(text, at, 1);
            continue;
        }
        if (at[1] == 's') {
            plmi_text_puts(text, va_arg(arguments, const char *));
        } else if (at[1] == 'w') {
            double from_s = va_arg(arguments, double);
            span(text, from_s, va_arg(arguments, double));
        } else if (at[1] == 'i') {
            plmi_text_printf(text, "%d", va_arg(arguments, int));
        } else {
            mark(text, at[1], va_arg(arguments, double));
        }
        at += 2;
    }
}

const char *plm_finding_sentence(struct plm_finding_list *list, const char *format, ...)
{
    struct plmi_text text;
    plmi_text_init(&text);
    va_list arguments;
    va_start(arguments, format);
    write_sentence(&text, format, arguments);
    va_end(arguments);
    const char *kept = text.failed || text.count == 0 ? NULL : plmi_arena_text(&list->texts, text.bytes, text.count);
    plmi_text_free(&text);
    if (kept == NULL) {
        list->failed = true;
    }
    return kept == NULL ? "" : kept;
}

void plmi_finding_list_join(struct plm_finding_list *list, size_t item)
{
    void *joined = list->joined;
    if (plmi_array_grow(&joined, &list->joined_capacity, list->joined_count, sizeof *list->joined)) {
        list->joined = joined;
        list->joined[list->joined_count++] = list->items[item];
    } else {
        list->failed = true;
    }
    memmove(list->items + item, list->items + item + 1, (list->count - item - 1) * sizeof *list->items);
    list->count--;
}

void plmi_finding_grade(struct plm_finding *finding, double reached, double caution, double serious)
{
    finding->severity = reached >= serious - ROUNDING   ? PLM_SEVERITY_SERIOUS
                        : reached >= caution - ROUNDING ? PLM_SEVERITY_CAUTION
                                                        : PLM_SEVERITY_NOTE;
    finding->serious_share = isinf(serious) ? 0 : reached / serious;
}

static int compare(const void *left, const void *right)
{
    const struct plm_finding *a = left, *b = right;
    if (a->severity != b->severity) {
        return a->severity > b->severity ? -1 : 1;
    }
    if (a->serious_share < b->serious_share || a->serious_share > b->serious_share) {
        return a->serious_share > b->serious_share ? -1 : 1;
    }
    if (a->kind != b->kind) {
        return a->kind < b->kind ? -1 : 1;
    }
    if (a->from_s < b->from_s || a->from_s > b->from_s) {
        return a->from_s < b->from_s ? -1 : 1;
    }
    return a->to_s < b->to_s ? -1 : a->to_s > b->to_s;
}

void plmi_finding_list_sort(struct plm_finding_list *list)
{
    if (list->count > 1) {
        qsort(list->items, list->count, sizeof *list->items, compare);
    }
}
