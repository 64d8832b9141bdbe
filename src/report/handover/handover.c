/*
 * Gathers the dives of a handover and chooses what the page is about: the dive that began last. Must not lay out
 * anything.
 * SPDX-License-Identifier: MIT
 */
#include "report/handover/handover.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/diags.h"
#include "report/output/whole.h"

static enum plm_status fail(struct plm_report *report, enum plm_status status, enum plm_diag_id id, const char *what)
{
    struct plmi_diags diags;
    plmi_diags_init(&diags, report->diag, NULL);
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, id, 0, 0, "%s", what);
    return status;
}

static bool timed(const struct plmi_handover_dive *dive)
{
    return dive->start.known && dive->start.has_clock;
}

/* From the beginning of a to the beginning of b [s], both timed. */
static double between_s(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    double apart_s = (double)(b->start.local_ms - a->start.local_ms) / 1e3;
    if (a->start.has_zone && b->start.has_zone) {
        apart_s -= 60.0 * (b->start.offset_min - a->start.offset_min);
    }
    return apart_s;
}

/* Whether b is later than a; of two that tell no time the one that is given later. */
static bool later(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    if (timed(a) != timed(b)) {
        return timed(b);
    }
    return !timed(b) || between_s(a, b) >= 0;
}

/* Whether two records overlap so much that they are of one dive. */
static bool same_dive(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    if (!timed(a) || !timed(b)) {
        return false;
    }
    double apart_s = between_s(a, b);
    double together_s = fmin(a->surfaced_s, apart_s + b->surfaced_s) - fmax(0, apart_s);
    return together_s > 0.5 * fmin(a->surfaced_s, b->surfaced_s);
}

size_t plmi_handover_same_dive(const struct plmi_handover *handover)
{
    size_t found = 0;
    for (size_t i = 0; i < handover->count; i++) {
        found += i != handover->last && same_dive(&handover->dives[i], &handover->dives[handover->last]);
    }
    return found;
}

size_t plmi_handover_untimed(const struct plmi_handover *handover)
{
    size_t found = 0;
    for (size_t i = 0; i < handover->count; i++) {
        found += i != handover->last && !timed(&handover->dives[i]);
    }
    return found;
}

/* A dive is told once, by the first record of it that was given. */
static bool told_before(const struct plmi_handover *handover, size_t dive)
{
    for (size_t i = 0; i < dive; i++) {
        if (i != handover->last && same_dive(&handover->dives[i], &handover->dives[dive])) {
            return true;
        }
    }
    return false;
}

/* Puts a row where it belongs; one that there is no room for pushes the earliest out. */
static void row_add(struct plmi_handover_row *rows, size_t *count, size_t *more, struct plmi_handover_row row)
{
    size_t at = *count;
    while (at > 0 && rows[at - 1].hours_before > row.hours_before) {
        at--;
    }
    bool full = *count == PLMI_HANDOVER_DIVES_MAX;
    *more += full ? 1 : 0;
    *count += full ? 0 : 1;
    for (size_t i = *count; i > at + 1; i--) {
        rows[i - 1] = rows[i - 2];
    }
    if (at < *count) {
        rows[at] = row;
    }
}

size_t plmi_handover_earlier(const struct plmi_handover *handover,
                             struct plmi_handover_row rows[PLMI_HANDOVER_DIVES_MAX], size_t *more)
{
    const struct plmi_handover_dive *last = &handover->dives[handover->last];
    size_t count = 0;
    *more = 0;
    for (size_t i = 0; i < handover->count; i++) {
        const struct plmi_handover_dive *one = &handover->dives[i];
        if (i == handover->last || !timed(one) || !timed(last) || same_dive(one, last) || told_before(handover, i)) {
            continue;
        }
        double hours = (between_s(one, last) - one->surfaced_s) / 3600;
        if (hours <= PLMI_HANDOVER_HOURS) {
            row_add(rows, &count, more, (struct plmi_handover_row){one, hours});
        }
    }
    return count;
}

static const char *keep(struct plm_report *report, const char *text)
{
    const char *kept = text != NULL ? plmi_arena_text(&report->handover->arena, text, strlen(text)) : NULL;
    report->out.failed = report->out.failed || (text != NULL && kept == NULL);
    return kept;
}

/* Room for one more dive; NULL without memory. */
static struct plmi_handover_dive *dive_new(struct plmi_handover *handover)
{
    if (!plmi_array_grow((void **)&handover->dives, &handover->capacity, handover->count, sizeof *handover->dives)) {
        return NULL;
    }
    return &handover->dives[handover->count++];
}

/* Whether the page is to be about b and no longer about a: a later dive, or a better record of the same. */
static bool takes_over(const struct plmi_handover_dive *a, const struct plmi_handover_dive *b)
{
    const struct plm_completeness worths[] = {a->worth, b->worth};
    return same_dive(a, b) ? plm_completeness_best(worths, 2) == 1 : later(a, b);
}

/* The page is about this dive where it is later than the one so far. */
static void last_choose(struct plm_report *report, const struct plmi_handover_form *form, const struct plmi_view *view)
{
    struct plmi_handover *handover = report->handover;
    size_t now = handover->count - 1;
    if (now > 0 && !takes_over(&handover->dives[handover->last], &handover->dives[now])) {
        return;
    }
    handover->last = now;
    handover->carried = view->debriefed->start.carried;
    handover->mix_count = view->mix_count < PLMI_HANDOVER_MIXES_MAX ? view->mix_count : PLMI_HANDOVER_MIXES_MAX;
    plmi_text_clear(&handover->page);
    form->dive(&handover->page, &report->options, view);
}

static enum plm_status view_take(struct plm_report *report, const struct plmi_handover_form *form,
                                 const struct plmi_view *view)
{
    struct plmi_handover *handover = report->handover;
    const char *diver = plmi_view_find(view, "diver")->text;
    if (diver != NULL && handover->diver != NULL && !plmi_text_same(diver, handover->diver)) {
        return fail(report, PLM_STATUS_ARGUMENT, PLM_DIAG_USAGE,
                    "a handover is about one diver, and the logs name two; --diver says which");
    }
    struct plmi_handover_dive *one = dive_new(handover);
    if (one == NULL) {
        return fail(report, PLM_STATUS_MEMORY, PLM_DIAG_MEMORY, "no memory for the handover");
    }
    struct plm_completeness worth;
    enum plm_status status = plm_completeness_find(&worth, view->debriefed->dive, report->diag);
    if (status != PLM_STATUS_OK) {
        handover->count--;
        return status;
    }
    handover->diver = handover->diver != NULL ? handover->diver : keep(report, diver);
    *one = (struct plmi_handover_dive){
        .start = plm_dive_info_get(view->debriefed->dive)->start,
        .surfaced_s = view->surfaced_s,
        .max_depth_m = plmi_view_find(view, "max_depth_m")->value,
        .surfacing_gradient_pct = plmi_view_find(view, "surfacing_gradient_pct")->value,
        .cns_pct = plmi_view_find(view, "cns_pct")->value,
        .worth = worth,
    };
    last_choose(report, form, view);
    return PLM_STATUS_OK;
}

static void handover_begin(struct plm_report *report)
{
    report->handover = calloc(1, sizeof *report->handover);
    if (report->handover == NULL) {
        report->out.failed = true;
        return;
    }
    plmi_arena_init(&report->handover->arena);
    plmi_whole_init(&report->handover->page, report->writer->format.name);
}

static enum plm_status handover_add(struct plm_report *report, const struct plm_debriefed *debriefed,
                                    const struct plmi_handover_form *form)
{
    struct plmi_view *view = NULL;
    if (plmi_view_new(&view, debriefed, report->options.rules) != PLM_STATUS_OK) {
        return fail(report, PLM_STATUS_MEMORY, PLM_DIAG_MEMORY, "no memory for the handover");
    }
    enum plm_status status = view_take(report, form, view);
    plmi_view_free(view);
    return status;
}

enum plm_status plm_report_earlier(struct plm_report *report, const struct plm_report_exposure *list, size_t count)
{
    if (report->handover == NULL) {
        return fail(report, PLM_STATUS_ARGUMENT, PLM_DIAG_USAGE, "only a handover tells dives from elsewhere");
    }
    report->handover->elsewhere = true;
    for (size_t i = 0; i < count; i++) {
        struct plmi_handover_dive *one = dive_new(report->handover);
        if (one == NULL) {
            return fail(report, PLM_STATUS_MEMORY, PLM_DIAG_MEMORY, "no memory for the handover");
        }
        *one = (struct plmi_handover_dive){list[i].start,       list[i].duration_s,
                                           list[i].max_depth_m, list[i].surfacing_gradient_pct,
                                           list[i].cns_pct,     {0, 0, 0, false}};
    }
    return PLM_STATUS_OK;
}

static void handover_end(struct plm_report *report, const struct plmi_handover_form *form)
{
    struct plmi_handover *handover = report->handover;
    if (handover->count == 0) {
        return;
    }
    report->out.failed = report->out.failed || handover->page.failed;
    plmi_text_add_raw(&report->out, handover->page.bytes != NULL ? handover->page.bytes : "", handover->page.count);
    form->rest(&report->out, &report->options, handover);
}

static void handover_free(struct plm_report *report)
{
    if (report->handover == NULL) {
        return;
    }
    free(report->handover->dives);
    plmi_arena_free(&report->handover->arena);
    plmi_text_free(&report->handover->page);
    free(report->handover);
}

/* A writer for each form: they differ in nothing else. */
#define WRITER(form_name, told)                                                                              \
    static enum plm_status form_name##_add(struct plm_report *report, const struct plm_debriefed *debriefed) \
    {                                                                                                        \
        return handover_add(report, debriefed, &plmi_handover_##form_name);                                  \
    }                                                                                                        \
    static void form_name##_end(struct plm_report *report)                                                   \
    {                                                                                                        \
        handover_end(report, &plmi_handover_##form_name);                                                    \
    }                                                                                                        \
    const struct plmi_writer plmi_writer_handover_##form_name = {                                            \
        .format = {PLM_REPORT_HANDOVER, #form_name, told},                                                   \
        .begin = handover_begin,                                                                             \
        .add_trace = form_name##_add,                                                                        \
        .end = form_name##_end,                                                                              \
        .free = handover_free,                                                                               \
    }

WRITER(text, "one page of 66 lines and 80 columns");
WRITER(html, "one page of A4");
