/*
 * Reconciles the records of one diver: each laid over the first, compared, and a verdict. Keeps nothing between calls.
 * SPDX-License-Identifier: MIT
 */
#include "team/reconcile.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/diags.h"

static enum plm_status fail(const struct plm_diag_sink *sink, const char *text)
{
    const struct plmi_diags diags = {sink, NULL};
    plmi_diags_add(&diags, PLM_LEVEL_ERROR, PLM_DIAG_USAGE, 0, 0, "%s", text);
    return PLM_STATUS_ARGUMENT;
}

static enum plm_status no_memory(const struct plm_diag_sink *sink, const char *what_for)
{
    const struct plmi_diags diags = {sink, NULL};
    return plmi_diags_no_memory(&diags, 0, "%s", what_for);
}

/* How sentences call a record: its recorder where it tells them apart, else its place in the call. */
static const char *name_of(struct plm_reconciliation *r, size_t i)
{
    static const char *const PLACES[] = {"the first record", "the second record", "the third record",
                                         "the fourth record"};
    const char *own = plm_dive_info_get(r->records[i]->dive)->recorder;
    bool reported_apart = own != NULL && own[0];
    for (size_t k = 0; reported_apart && k < r->count; k++) {
        const char *other = plm_dive_info_get(r->records[k]->dive)->recorder;
        reported_apart = k == i || other == NULL || !plmi_text_same(own, other);
    }
    if (reported_apart) {
        return own;
    }
    return i < sizeof PLACES / sizeof PLACES[0] ? PLACES[i] : "a further record";
}

static void comparison_free(struct plmi_comparison *c)
{
    plmi_timeline_free(&c->breathed_a);
    plmi_timeline_free(&c->breathed_b);
    plmi_series_free(&c->series_a);
    plmi_series_free(&c->series_b);
    plm_trace_free(c->base);
}

/* Settings are weighed by set point: that is all a recorder without cells has. */
static enum plm_status comparison_init(struct plmi_comparison *c, const struct plm_replay_options *replay)
{
    enum { BY_SETPOINT = 2 };
    c->replay_rules = *replay->rules;
    c->replay_rules.oxygen = BY_SETPOINT;
    c->replay = *replay;
    c->replay.rules = &c->replay_rules;
    c->replay.schedules = false;
    c->rules = replay->rules;
    bool ok = plmi_timeline_init(&c->breathed_a, c->a->dive, NULL);
    ok = plmi_timeline_init(&c->breathed_b, c->b->dive, c->alignment) && ok;
    ok = plmi_series_init(&c->series_a, c->a->dive) && ok;
    ok = plmi_series_init(&c->series_b, c->b->dive) && ok;
    if (!ok) {
        return no_memory(c->sink, "to compare two records");
    }
    c->from_s = fmax(c->series_a.time_s[0], plmi_comparison_time_s(c, c->series_b.time_s[0]));
    c->to_s = fmin(c->breathed_a.end_s, c->breathed_b.end_s);
    c->tolerance_s = 5.0 + c->series_a.step_s + c->series_b.step_s;
    return plm_replay(&c->base, c->a->dive, &c->replay, NULL);
}

static enum plm_status compare(struct plm_reconciliation *r, struct plm_reconciled_pair *pair,
                               const struct plm_replay_options *replay)
{
    struct plmi_difference_list list = {.arena = &r->arena};
    struct plmi_comparison c = {.a = r->records[pair->a],
                                .b = r->records[pair->b],
                                .alignment = &pair->alignment,
                                .name_a = name_of(r, pair->a),
                                .name_b = name_of(r, pair->b)};
    enum plm_status status = comparison_init(&c, replay);
    if (status == PLM_STATUS_OK) {
        status = plmi_differences_find(&c, &list);
    }
    comparison_free(&c);
    pair->differences = list.items;
    pair->count = list.count;
    return status;
}

static enum plm_status reconcile_pair(struct plm_reconciliation *r, size_t b, const struct plm_replay_options *replay,
                                      const struct plm_diag_sink *sink)
{
    struct plm_reconciled_pair *pair = &r->pairs[r->pair_count++];
    *pair = (struct plm_reconciled_pair){.a = 0, .b = b};
    enum plm_status status = plm_alignment_find(&pair->alignment, r->records[0]->dive, r->records[b]->dive, sink);
    if (status == PLM_STATUS_OK && pair->alignment.same_dive) {
        status = compare(r, pair, replay);
    }
    return status;
}

enum plm_status plm_reconcile(struct plm_reconciliation **out, const struct plm_debriefed *const *records, size_t count,
                              const struct plm_replay_options *replay, const struct plm_diag_sink *sink)
{
    *out = NULL;
    if (count < 2 || count > PLMI_RECORDS_MAX) {
        return fail(sink, "between 2 and 16 records can be compared");
    }
    struct plm_reconciliation *r = calloc(1, sizeof *r);
    if (r == NULL) {
        return no_memory(sink, "to compare records");
    }
    plmi_arena_init(&r->arena);
    memcpy(r->records, records, count * sizeof *records);
    r->count = count;
    enum plm_status status = PLM_STATUS_OK;
    for (size_t b = 1; b < count && status == PLM_STATUS_OK; b++) {
        status = reconcile_pair(r, b, replay, sink);
    }
    if (status == PLM_STATUS_OK && !plmi_reconcile_verdict(r)) {
        status = no_memory(sink, "to compare records");
    }
    if (status != PLM_STATUS_OK) {
        plm_reconciliation_free(r);
        return status;
    }
    *out = r;
    return PLM_STATUS_OK;
}

const struct plm_reconciled_pair *plm_reconciliation_pairs(const struct plm_reconciliation *reconciliation,
                                                           size_t *count)
{
    *count = reconciliation->pair_count;
    return reconciliation->pairs;
}

size_t plm_reconciliation_best(const struct plm_reconciliation *reconciliation)
{
    return reconciliation->best;
}

const char *plm_reconciliation_verdict(const struct plm_reconciliation *reconciliation)
{
    return reconciliation->verdict;
}

void plm_reconciliation_free(struct plm_reconciliation *reconciliation)
{
    if (reconciliation == NULL) {
        return;
    }
    for (size_t i = 0; i < reconciliation->pair_count; i++) {
        free((void *)(uintptr_t)reconciliation->pairs[i].differences);
    }
    plmi_arena_free(&reconciliation->arena);
    free(reconciliation);
}
