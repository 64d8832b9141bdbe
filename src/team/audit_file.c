/*
 * One file of an audit: is it a log, what lies beside it, what do its dives say. Runs on any thread.
 * SPDX-License-Identifier: MIT
 */
#include "team/audit.h"

#include <string.h>

#include <plimsoll/log_files.h>
#include <plimsoll/names.h>

#include "base/text.h"

/* How much a diagnostic says about what of a log was not used. */
enum weight { WEIGHT_NONE, WEIGHT_DOUBT, WEIGHT_LOSS, WEIGHT_ERROR };

/* What was reported on one file: the first of the weightiest, and whether any error says more than "no log". */
struct reported {
    const char *log;
    struct plmi_text first;
    enum weight weight;
    bool more, partial;
};

static enum weight weigh(const struct plm_diag *diag)
{
    if (diag->level == PLM_LEVEL_NOTE) {
        return WEIGHT_NONE;
    }
    return diag->level == PLM_LEVEL_ERROR ? WEIGHT_ERROR : plm_import_loses(diag) ? WEIGHT_LOSS : WEIGHT_DOUBT;
}

static void take_diag(void *context, const struct plm_diag *diag)
{
    struct reported *reported = context;
    char line[1024];
    enum weight weight = weigh(diag);
    /* Of its card or plan it says nothing about the log. */
    if (weight == WEIGHT_ERROR) {
        reported->more = reported->more || !plm_log_files_refusal(diag->id) || diag->place.file == NULL ||
                         strcmp(diag->place.file, reported->log) != 0;
    }
    if (weight <= reported->weight) {
        return;
    }
    reported->weight = weight;
    (void)plm_diag_format(diag, line, sizeof line);
    plmi_text_clear(&reported->first);
    plmi_text_puts(&reported->first, line);
}

/* The work on one file. */
struct work {
    struct plmi_audit_run *run;
    struct plmi_audited_file *file;
    struct reported *reported;
    const char *card_path, *plan_path;
    struct plm_diag_sink sink;
};

/* A path that lasts as long as the audit. Returns: false without memory. */
static bool path_keep(struct work *work, const char **place, const char *path)
{
    *place = path != NULL ? plmi_arena_text(&work->file->arena, path, strlen(path)) : NULL;
    return path == NULL || *place != NULL;
}

static bool wanted(const struct plm_audit_options *options, const struct plm_dive_info *info)
{
    if (options->diver != NULL && !plm_name_same(options->diver, info->diver)) {
        return false;
    }
    return options->since_ms == INT64_MIN || (info->start.known && info->start.local_ms >= options->since_ms);
}

/* The caller's own look at a dive, one thread at a time. */
static enum plm_status show(struct work *work, const struct plm_debriefed *one, const struct plm_audit_row *row)
{
    const struct plm_audit_options *options = work->run->options;
    if (options->each == NULL) {
        return PLM_STATUS_OK;
    }
    pthread_mutex_lock(&work->run->lock);
    enum plm_status status = options->each(options->context, one, row);
    work->run->failed = work->run->failed || status != PLM_STATUS_OK;
    pthread_mutex_unlock(&work->run->lock);
    return status;
}

static enum plm_status take_dive(struct work *work, const struct plm_debriefed *one)
{
    if (!wanted(work->run->options, plm_dive_info_get(one->dive))) {
        return PLM_STATUS_OK;
    }
    struct plm_audit_row *row = plmi_audited_dive_add(work->file, one);
    if (row == NULL) {
        return PLM_STATUS_MEMORY;
    }
    memcpy(row->sha256, one->sha256, sizeof row->sha256);
    row->card = work->card_path;
    row->plan = work->plan_path;
    row->residual = one->start.residual;
    return show(work, one, row);
}

/* What is carried from outside a file, asked by one thread at a time; inside a file its own word is taken. */
static bool residual_find(void *context, const struct plm_dive *dive, bool in_file, struct plm_start *start)
{
    struct work *work = context;
    const struct plm_debrief_options *debrief = work->run->options->debrief;
    if (in_file) {
        return false;
    }
    pthread_mutex_lock(&work->run->lock);
    bool known = debrief->residual_find(debrief->residual_context, dive, false, start);
    pthread_mutex_unlock(&work->run->lock);
    return known;
}

static enum plm_status debrief(struct work *work, struct plm_log *log)
{
    struct plm_debrief_options options = *work->run->options->debrief;
    struct plm_debrief *debrief = NULL;
    options.plan = plm_log_plan(log) != NULL ? plm_log_plan(log) : options.plan;
    if (options.residual_find != NULL) {
        options.residual_find = residual_find;
        options.residual_context = work;
    }
    enum plm_status status = plm_debrief_open(&debrief, log, &options, &work->sink);
    while (status == PLM_STATUS_OK) {
        struct plm_debriefed *one = NULL;
        status = plm_debrief_next(debrief, &one);
        if (status == PLM_STATUS_OK) {
            status = take_dive(work, one);
        }
        plm_debriefed_free(one);
    }
    work->reported->partial = debrief != NULL && plm_debrief_partial(debrief);
    plm_debrief_free(debrief);
    return status == PLM_STATUS_END ? PLM_STATUS_OK : status;
}

struct plm_log_options plmi_audit_log_options(const struct plm_audit_options *options)
{
    struct plm_log_options reading =
        options->log != NULL ? *options->log : plm_log_options_default(options->debrief->rules);
    reading.digest = true;
    return reading;
}

static enum plm_status read_file(struct work *work)
{
    const struct plm_log_options options = plmi_audit_log_options(work->run->options);
    struct plm_log *log = NULL;
    enum plm_status status = plm_log_open(&log, work->file->path, &options, &work->sink);
    if (status == PLM_STATUS_OK && !(path_keep(work, &work->card_path, plm_log_card_path(log)) &&
                                     path_keep(work, &work->plan_path, plm_log_plan_path(log)))) {
        status = PLM_STATUS_MEMORY;
    }
    if (status == PLM_STATUS_OK) {
        status = debrief(work, log);
    }
    plm_log_free(log);
    return status;
}

static void settle(struct plmi_audited_file *file, struct reported *reported, enum plm_status status)
{
    file->no_memory = file->no_memory || status == PLM_STATUS_MEMORY || reported->first.failed;
    file->passed_over = file->count == 0 && reported->weight == WEIGHT_ERROR && !reported->more;
    if ((reported->weight != WEIGHT_ERROR && !reported->partial) || file->passed_over) {
        return;
    }
    file->trouble.file = file->path;
    file->trouble.text = plmi_arena_text(&file->arena, reported->first.bytes != NULL ? reported->first.bytes : "",
                                         reported->first.count);
    file->trouble.partly = file->count > 0 || reported->weight < WEIGHT_ERROR;
    file->no_memory = file->no_memory || file->trouble.text == NULL;
}

static void tell_progress(struct plmi_audit_run *run)
{
    pthread_mutex_lock(&run->lock);
    run->done++;
    if (run->options->progress != NULL) {
        run->options->progress(run->options->context, run->done, run->audit->file_count);
    }
    pthread_mutex_unlock(&run->lock);
}

void plmi_audit_file(void *context, size_t i)
{
    struct plmi_audit_run *run = context;
    struct reported reported = {0};
    struct work work = {.run = run, .file = &run->audit->files[i], .reported = &reported};
    reported.log = work.file->path;
    plmi_text_init(&reported.first);
    work.sink = (struct plm_diag_sink){take_diag, &reported};
    if (!work.file->passed_over) {
        settle(work.file, &reported, read_file(&work));
    }
    plmi_text_free(&reported.first);
    tell_progress(run);
}
