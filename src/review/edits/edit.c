/*
 * Edits samples and makes a dive of them.
 * Must not judge.
 * SPDX-License-Identifier: MIT
 */
#include "review/edits/edit.h"

#include <math.h>
#include <plimsoll/dive_builder.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/text.h"
#include "replay/edited_replay.h"
#include "review/scene/phases.h"

enum plm_status plmi_review_edit_init(struct plmi_review_edit *edit, const struct plm_review_scene *original,
                                      struct plmi_review_means *means)
{
    *edit = (struct plmi_review_edit){.input = original->input,
                                      .original = original,
                                      .count = original->count,
                                      .capacity = original->count,
                                      .means = means};
    edit->items = calloc(edit->capacity, sizeof *edit->items);
    if (edit->items == NULL) {
        return PLM_STATUS_MEMORY;
    }
    for (size_t i = 0; i < edit->count; i++) {
        edit->items[i] = (struct plmi_review_edit_sample){original->samples[i], i};
    }
    return PLM_STATUS_OK;
}

size_t plmi_review_edit_find(const struct plmi_review_edit *edit, size_t origin)
{
    size_t low = 0, high = edit->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (edit->items[middle].origin < origin) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

double plmi_review_edit_time_s(const struct plmi_review_edit *edit, size_t item)
{
    return (double)edit->items[item].sample.time_ms / 1000.0;
}

void plmi_review_edit_delay(struct plmi_review_edit *edit, size_t first, int64_t by_ms)
{
    for (size_t i = first; i < edit->count; i++) {
        edit->items[i].sample.time_ms += by_ms;
    }
}

enum plm_status plmi_review_edit_insert(struct plmi_review_edit *edit, size_t at, int64_t time_ms, double depth_m)
{
    void *items = edit->items;
    if (!plmi_array_grow(&items, &edit->capacity, edit->count, sizeof *edit->items)) {
        return PLM_STATUS_MEMORY;
    }
    edit->items = items;
    memmove(edit->items + at + 1, edit->items + at, (edit->count - at) * sizeof *edit->items);
    edit->count++;
    edit->items[at] = edit->items[at - 1];
    edit->items[at].sample.time_ms = time_ms;
    edit->items[at].sample.depth_m = depth_m;
    edit->items[at].sample.line = 0;
    return PLM_STATUS_OK;
}

void plmi_review_edit_cut(struct plmi_review_edit *edit, size_t first, size_t end)
{
    memmove(edit->items + first, edit->items + end, (edit->count - end) * sizeof *edit->items);
    edit->count -= end - first;
}

static void set(struct plm_dive_builder *builder, const struct plm_setting *setting, uint32_t line)
{
    plm_dive_builder_mode(builder, setting->mode, line);
    plm_dive_builder_switch(builder, setting->mix, line);
    plm_dive_builder_setpoint(builder, setting->setpoint_bar, line);
}

/* So that an edited log can't be taken for a recorded one. */
static enum plm_status note(struct plm_dive_builder *builder, const char *put_right)
{
    struct plmi_text text;
    plmi_text_init(&text);
    plmi_text_printf(&text, "Not as recorded, but edited for a review: %s.", put_right);
    const char *kept = text.failed ? NULL : plm_dive_builder_text(builder, text.bytes);
    plmi_text_free(&text);
    if (kept == NULL) {
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_info(builder)->notes = kept;
    return PLM_STATUS_OK;
}

/* Where an edited dive has what was recorded at a time. */
static int64_t moved(const void *context, int64_t time_ms)
{
    const struct plmi_review_edit *edit = context;
    const struct plm_review_scene *original = edit->original;
    size_t origin = plmi_review_point_at(original, (double)time_ms / 1000.0),
           item = plmi_review_edit_find(edit, origin);
    if (item >= edit->count) {
        item = edit->count - 1;
    }
    int64_t moved_ms = edit->items[item].sample.time_ms;
    if (edit->items[item].origin != origin) {
        return moved_ms;
    }
    moved_ms += time_ms - original->points[origin].time_ms;
    bool beyond = item + 1 < edit->count && moved_ms > edit->items[item + 1].sample.time_ms;
    return beyond ? edit->items[item + 1].sample.time_ms : moved_ms;
}

static enum plm_status fill(struct plm_dive_builder *builder, const struct plmi_review_edit *edit)
{
    size_t count = 0;
    const struct plm_setting *settings = plm_dive_settings(edit->input->dive, &count);
    uint32_t now = (uint32_t)count;
    enum plm_status status = PLM_STATUS_OK;
    for (size_t i = 0; i < edit->count && status == PLM_STATUS_OK; i++) {
        const struct plm_sample *sample = &edit->items[i].sample;
        if (sample->setting != now) {
            set(builder, &settings[sample->setting], sample->line);
        }
        now = sample->setting;
        status = plm_dive_builder_sample(builder, sample);
    }
    return status;
}

enum plm_status plmi_review_edit_dive(struct plm_dive **out, const struct plmi_review_edit *edit, const char *put_right)
{
    struct plm_dive_builder *builder = plm_dive_builder_from(edit->input->dive, edit->input->replay->rules, NULL);
    if (builder == NULL) {
        return PLM_STATUS_MEMORY;
    }
    plm_dive_builder_restart(builder);
    plm_dive_builder_move_events(builder, moved, edit);
    enum plm_status status = put_right != NULL ? note(builder, put_right) : PLM_STATUS_OK;
    if (status == PLM_STATUS_OK) {
        status = fill(builder, edit);
    }
    if (status == PLM_STATUS_OK) {
        return plm_dive_builder_finish(builder, out);
    }
    plm_dive_builder_free(builder);
    return status;
}

/* The dive goes; its trace is kept to be written over. */
static void retried_free(struct plmi_review_edit *edit)
{
    if (edit->retried.trace != NULL) {
        plm_trace_free(edit->means->spare);
        edit->means->spare = edit->retried.trace;
    }
    plm_dive_free(edit->retried.dive);
    edit->retried = (struct plmi_review_retried){.dive = NULL};
}

enum plm_status plmi_review_edit_retry(struct plmi_review_edit *edit)
{
    const struct plm_review_input *input = edit->input,
                                  *last = edit->retried.dive != NULL ? &edit->retried.input : input;
    struct plmi_review_retried retried = {.input = *input};
    if (edit->means->samples < edit->count) {
        return PLM_STATUS_LIMIT;
    }
    edit->means->samples -= edit->count;
    enum plm_status status = plmi_review_edit_dive(&retried.dive, edit, NULL);
    if (status != PLM_STATUS_OK) {
        return status;
    }
    struct plm_replay_options options = *input->replay;
    struct plmi_replayed before = {last->dive, last->trace};
    options.schedules = false;
    /* One edited trace at a time: the last try's is written over. */
    retried.trace = edit->retried.trace != NULL ? edit->retried.trace : edit->means->spare;
    edit->means->spare = edit->retried.trace != NULL ? edit->means->spare : NULL;
    edit->retried.trace = NULL;
    status = plmi_edited_replay(&retried.trace, retried.dive, &before, &options, NULL);
    retried_free(edit);
    if (status != PLM_STATUS_OK) {
        plm_dive_free(retried.dive);
        return status;
    }
    retried.input.dive = retried.dive;
    retried.input.trace = retried.trace;
    retried.input.decompression = NULL;
    edit->retried = retried;
    return PLM_STATUS_OK;
}

struct plm_review_scene plmi_review_edit_scene(const struct plmi_review_edit *edit)
{
    return plmi_review_scene_of(&edit->retried.input);
}

void plmi_review_edit_free(struct plmi_review_edit *edit)
{
    retried_free(edit);
    free(edit->items);
    edit->items = NULL;
}
