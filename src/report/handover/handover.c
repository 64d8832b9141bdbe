/*
 * Gathers the dives of a handover for its page. Must not lay out anything.
 * SPDX-License-Identifier: MIT
 */
#include "report/handover/handover.h"

#include <stdlib.h>
#include <string.h>

#include "report/output/whole.h"

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

/* The page is about this dive where it is later than the one so far. */
static void last_choose(struct plm_report *report, const struct plmi_handover_form *form, const struct plmi_view *view)
{
    struct plmi_handover *handover = report->handover;
    size_t now = handover->count - 1;
    if (now > 0 && !plmi_handover_takes_over(&handover->dives[handover->last], &handover->dives[now])) {
        return;
    }
    handover->last = now;
    handover->carried = view->debriefed->start.residual;
    handover->basis_bytes = 0;
    for (size_t i = 0; i < view->basis_count; i++) {
        handover->basis_bytes += strlen(view->basis[i]) + 2;
    }
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
        return plmi_writer_refuse(report->diag,
                                  "a handover is about one diver, and the logs name two; --diver says which");
    }
    struct plmi_handover_dive *one = dive_new(handover);
    if (one == NULL) {
        return plmi_writer_no_memory(report->diag, "for the handover");
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
        .cns_at_least = plmi_view_find(view, "cns_pct")->at_least,
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
    plmi_whole_init(&report->handover->page, report->format->name);
}

static enum plm_status handover_add(struct plm_report *report, const struct plm_debriefed *debriefed,
                                    const struct plmi_handover_form *form)
{
    struct plmi_view *view = NULL;
    if (plmi_view_new(&view, debriefed) != PLM_STATUS_OK) {
        return plmi_writer_no_memory(report->diag, "for the handover");
    }
    enum plm_status status = view_take(report, form, view);
    plmi_view_free(view);
    return status;
}

enum plm_status plm_report_earlier(struct plm_report *report, const struct plm_report_exposure *list, size_t count)
{
    if (report->handover == NULL) {
        return plmi_writer_refuse(report->diag, "only a handover tells dives from elsewhere");
    }
    report->handover->elsewhere = true;
    for (size_t i = 0; i < count; i++) {
        struct plmi_handover_dive *one = dive_new(report->handover);
        if (one == NULL) {
            return plmi_writer_no_memory(report->diag, "for the handover");
        }
        *one = (struct plmi_handover_dive){
            list[i].start,   list[i].duration_s,   list[i].max_depth_m, list[i].surfacing_gradient_pct,
            list[i].cns_pct, list[i].cns_at_least, {0, 0, 0, false}};
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
#define WRITER(form_name)                                                                                    \
    static enum plm_status form_name##_add(struct plm_report *report, const struct plm_debriefed *debriefed) \
    {                                                                                                        \
        return handover_add(report, debriefed, &plmi_handover_##form_name);                                  \
    }                                                                                                        \
    static void form_name##_end(struct plm_report *report)                                                   \
    {                                                                                                        \
        handover_end(report, &plmi_handover_##form_name);                                                    \
    }                                                                                                        \
    const struct plmi_writer plmi_writer_handover_##form_name = {                                            \
        .begin = handover_begin,                                                                             \
        .add_debriefed = form_name##_add,                                                                    \
        .end = form_name##_end,                                                                              \
        .free = handover_free,                                                                               \
    }

WRITER(text);
WRITER(html);
