/*
 * One record made of all: the more complete one, with what it lacks taken from the others, and where each sample is
 * from.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <plimsoll/dive_builder.h>

#include "base/diags.h"
#include "team/reconcile.h"

/* Another record on the clock and by the depth of the best one: time = own * stretch + offset, depth = own * scale +
 * shift. */
struct other {
    size_t record;
    double stretch, offset_s, scale, shift_m;
    const struct plm_sample *samples;
    size_t count, next;
};

/* A record as pair sees it is on the first record's clock; the best record may be another. */
struct line {
    double stretch, offset_s, scale, shift_m;
};

struct merge {
    struct plm_dive_builder *builder;
    const struct plm_reconciliation *r;
    struct other others[PLMI_RECORDS_MAX];
    size_t other_count;
    double gap_s;
    unsigned char *from;
    size_t count;
    enum plm_status status;
};

static struct line line_of(const struct plm_reconciliation *r, size_t record)
{
    if (record == 0) {
        return (struct line){1.0, 0.0, 1.0, 0.0};
    }
    const struct plm_alignment *a = &r->pairs[record - 1].alignment;
    return (struct line){1.0 + a->clock_drift_ppm * 1e-6, a->record_offset_s, a->depth_scale, a->depth_offset_m};
}

static void others_init(struct merge *merge)
{
    struct line best = line_of(merge->r, merge->r->best);
    for (size_t i = 0; i < merge->r->count; i++) {
        if (i == merge->r->best) {
            continue;
        }
        struct line own = line_of(merge->r, i);
        struct other *other = &merge->others[merge->other_count++];
        *other = (struct other){.record = i,
                                .stretch = own.stretch / best.stretch,
                                .offset_s = (own.offset_s - best.offset_s) / best.stretch,
                                .scale = own.scale / best.scale,
                                .shift_m = (own.shift_m - best.shift_m) / best.scale};
        other->samples = plm_dive_samples(merge->r->records[i]->dive, &other->count);
    }
}

static double other_time_s(const struct other *other, size_t i)
{
    return (double)other->samples[i].time_ms / 1000.0 * other->stretch + other->offset_s;
}

/* Says where the samples from here on are from. */
static enum plm_status tell_source(struct merge *merge, int64_t time_ms, size_t record)
{
    const struct plm_dive_info *info = plm_dive_info_get(merge->r->records[record]->dive);
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "samples of record %zu", record + 1);
    if (info->recorder != NULL) {
        plmi_text_printf(&text, ", %s", info->recorder);
    }
    const struct plm_event event = {.time_ms = time_ms,
                                    .kind = PLM_EVENT_NOTE,
                                    .value = (double)NAN,
                                    .value2 = (double)NAN,
                                    .text = text.bytes != NULL ? text.bytes : ""};
    enum plm_status status = text.failed ? PLM_STATUS_MEMORY : plm_dive_builder_event(merge->builder, &event);
    plmi_text_free(&text);
    return status;
}

static void add(struct merge *merge, const struct plm_sample *sample, size_t record)
{
    if (merge->status == PLM_STATUS_OK && (merge->count == 0 || merge->from[merge->count - 1] != record)) {
        merge->status = tell_source(merge, sample->time_ms, record);
    }
    if (merge->status != PLM_STATUS_OK) {
        return;
    }
    merge->status = plm_dive_builder_sample(merge->builder, sample);
    merge->from[merge->count++] = (unsigned char)record;
}

/* All samples of one other record strictly between two moments; settings stay those of the best record. */
static void fill_gap(struct merge *merge, double from_s, double to_s)
{
    for (size_t k = 0; k < merge->other_count; k++) {
        struct other *other = &merge->others[k];
        size_t before = merge->count;
        for (size_t i = 0; i < other->count; i++) {
            struct plm_sample sample = other->samples[i];
            sample.time_ms = (int64_t)llround(other_time_s(other, i) * 1000.0);
            sample.depth_m = fmax(0.0, other->scale * sample.depth_m + other->shift_m);
            if (other_time_s(other, i) > from_s + 0.5 && other_time_s(other, i) < to_s - 0.5) {
                add(merge, &sample, other->record);
            }
        }
        if (merge->count > before) {
            return;
        }
    }
}

/* Cells that the best record lacks at a moment, from the nearest sample of another within a usual step. */
static void complete(struct merge *merge, struct plm_sample *sample)
{
    double time_s = (double)sample->time_ms / 1000.0;
    for (size_t k = 0; k < merge->other_count; k++) {
        struct other *other = &merge->others[k];
        while (other->next + 1 < other->count &&
               fabs(other_time_s(other, other->next + 1) - time_s) <= fabs(other_time_s(other, other->next) - time_s)) {
            other->next++;
        }
        if (fabs(other_time_s(other, other->next) - time_s) > 15.0) {
            continue;
        }
        for (int i = 0; i < PLM_CELLS; i++) {
            if (isnan(sample->cell_bar[i])) {
                sample->cell_bar[i] = other->samples[other->next].cell_bar[i];
            }
        }
    }
}

static void copy_settings(struct merge *merge, const struct plm_dive *dive, const struct plm_sample *sample)
{
    size_t count;
    const struct plm_setting *setting = &plm_dive_settings(dive, &count)[sample->setting];
    plm_dive_builder_mode(merge->builder, setting->mode, sample->line);
    plm_dive_builder_switch(merge->builder, setting->mix, sample->line);
    plm_dive_builder_setpoint(merge->builder, setting->setpoint_bar, sample->line);
}

static void copy_all(struct merge *merge, const struct plm_dive *dive)
{
    size_t count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        struct plm_sample sample = samples[i];
        complete(merge, &sample);
        copy_settings(merge, dive, &samples[i]);
        add(merge, &sample, merge->r->best);
        if (i + 1 == count) {
            break;
        }
        double from_s = (double)samples[i].time_ms / 1000.0, to_s = (double)samples[i + 1].time_ms / 1000.0;
        if (to_s - from_s > merge->gap_s) {
            fill_gap(merge, from_s, to_s);
        }
    }
}

static size_t room(const struct plm_reconciliation *r)
{
    size_t sum = 1;
    for (size_t i = 0; i < r->count; i++) {
        size_t count;
        (void)plm_dive_samples(r->records[i]->dive, &count);
        sum += count;
    }
    return sum;
}

static enum plm_status finish(struct merge *merge, struct plm_dive **out, unsigned char **from)
{
    enum plm_status status = merge->status;
    if (status == PLM_STATUS_OK) {
        status = plm_dive_builder_finish(merge->builder, out);
    } else {
        plm_dive_builder_free(merge->builder);
    }
    if (status == PLM_STATUS_OK && from != NULL) {
        *from = merge->from;
    } else {
        free(merge->from);
    }
    return status;
}

static enum plm_status refuse(const struct plm_diag_sink *sink, const char *text)
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

enum plm_status plm_reconciliation_merge(struct plm_dive **out, unsigned char **from,
                                         const struct plm_reconciliation *reconciliation, const struct plm_rules *rules,
                                         const struct plm_diag_sink *sink)
{
    const struct plm_dive *best = reconciliation->records[reconciliation->best]->dive;
    struct plmi_series series;
    struct merge merge = {.r = reconciliation};
    *out = NULL;
    if (!plm_reconciliation_same_dive(reconciliation)) {
        return refuse(sink, "records of different dives are not merged");
    }
    bool ok = plmi_series_init(&series, best);
    merge.gap_s = series.gap_s;
    plmi_series_free(&series);
    merge.from = calloc(room(reconciliation), 1);
    merge.builder = ok && merge.from != NULL ? plm_dive_builder_from(best, rules, sink) : NULL;
    if (merge.builder == NULL) {
        free(merge.from);
        return no_memory(sink, "to merge records");
    }
    plm_dive_builder_restart(merge.builder);
    others_init(&merge);
    copy_all(&merge, best);
    return finish(&merge, out, from);
}
