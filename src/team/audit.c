/*
 * Audits folders of logs: walk, debrief in parallel, pair, group, sort. What comes out does not depend on the number of
 * threads.
 * SPDX-License-Identifier: MIT
 */
#include "team/audit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fold.h"
#include "base/text.h"
#include "log/companions.h"
#include "team/grouping.h"
#include "team/jobs.h"

static enum plm_status no_memory(const struct plm_diag_sink *sink)
{
    const struct plmi_diags diags = {sink, NULL};
    return plmi_diags_no_memory(&diags, 0, "for the audit");
}

/* A plan that some card names is no log of a dive. */
static bool mark_plan(struct plm_audit *audit, const char *card_path, const struct plm_rules *rules)
{
    char *plan;
    if (!plmi_companions_plan_named(&plan, card_path, rules)) {
        return false;
    }
    for (size_t i = 0; plan != NULL && i < audit->file_count; i++) {
        if (strcmp(audit->files[i].path, plan) == 0) {
            audit->files[i].passed_over = true;
        }
    }
    free(plan);
    return true;
}

static bool files_init(struct plm_audit *audit, const struct plm_rules *rules)
{
    bool ok = true;
    audit->files = calloc(audit->walk.count + 1, sizeof *audit->files);
    if (audit->files == NULL) {
        return false;
    }
    audit->file_count = audit->walk.count;
    for (size_t i = 0; i < audit->file_count; i++) {
        plmi_arena_init(&audit->files[i].arena);
        audit->files[i].path = audit->walk.files[i];
    }
    for (size_t i = 0; ok && i < audit->file_count; i++) {
        if (plmi_companions_is_card(audit->files[i].path)) {
            audit->files[i].passed_over = true;
            ok = mark_plan(audit, audit->files[i].path, rules);
        }
    }
    return ok;
}

static bool run_files(struct plm_audit *audit, const struct plm_audit_options *options)
{
    struct plmi_audit_run run = {.audit = audit, .options = options};
    if (pthread_mutex_init(&run.lock, NULL) != 0) {
        return false;
    }
    plmi_jobs_run(audit->file_count, options->jobs, plmi_audit_file, &run);
    pthread_mutex_destroy(&run.lock);
    audit->failed = run.failed;
    for (size_t i = 0; i < audit->file_count; i++) {
        if (audit->files[i].no_memory) {
            return false;
        }
    }
    return true;
}

/* All dives in the order of files and dives. */
static struct plmi_audited_dive **dives_list(const struct plm_audit *audit, size_t *count)
{
    *count = 0;
    for (size_t i = 0; i < audit->file_count; i++) {
        *count += audit->files[i].count;
    }
    struct plmi_audited_dive **list = calloc(*count + 1, sizeof *list);
    size_t n = 0;
    for (size_t i = 0; list != NULL && i < audit->file_count; i++) {
        for (size_t k = 0; k < audit->files[i].count; k++) {
            list[n++] = &audit->files[i].dives[k];
        }
    }
    return list;
}

static int compare_numbers(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_text(const char *a, const char *b)
{
    return a != NULL && b != NULL ? strcmp(a, b) : (a != NULL) - (b != NULL);
}

/* What is not known, since the record ends in the water, stands above all that is. */
static double gradient_key(const struct plm_audit_row *row)
{
    return isnan(row->surfacing_gradient_pct) ? (double)INFINITY : row->surfacing_gradient_pct;
}

/* Worst first; other records behind all others. */
static int worse(const void *x, const void *y)
{
    const struct plm_audit_row *a = &(*(struct plmi_audited_dive *const *)x)->row,
                               *b = &(*(struct plmi_audited_dive *const *)y)->row;
    const double keys_a[] = {a->other_record >= 0 ? 0 : 1, (double)a->serious, (double)a->caution, (double)a->note,
                             gradient_key(a)};
    const double keys_b[] = {b->other_record >= 0 ? 0 : 1, (double)b->serious, (double)b->caution, (double)b->note,
                             gradient_key(b)};
    for (size_t i = 0; i < sizeof keys_a / sizeof keys_a[0]; i++) {
        if (compare_numbers(keys_a[i], keys_b[i]) != 0) {
            return compare_numbers(keys_b[i], keys_a[i]);
        }
    }
    if (a->start.local_ms != b->start.local_ms) {
        return a->start.local_ms < b->start.local_ms ? -1 : 1;
    }
    int by_diver = compare_text(a->diver, b->diver), by_file = compare_text(a->file, b->file);
    return by_diver ? by_diver : by_file ? by_file : (a->index > b->index) - (a->index < b->index);
}

/* Rows in their final order; other record indices follow. */
static bool rows_sort(struct plm_audit *audit, struct plmi_audited_dive **dives, size_t count)
{
    struct plmi_audited_dive **sorted = calloc(count + 1, sizeof *sorted);
    audit->rows = calloc(count + 1, sizeof *audit->rows);
    if (sorted == NULL || audit->rows == NULL) {
        free(sorted);
        return false;
    }
    memcpy(sorted, dives, count * sizeof *sorted);
    qsort(sorted, count, sizeof *sorted, worse);
    for (size_t i = 0; i < count; i++) {
        audit->rows[i] = sorted[i]->row;
        for (size_t k = 0; sorted[i]->row.other_record >= 0 && k < count; k++) {
            if (sorted[k] == dives[sorted[i]->row.other_record]) {
                audit->rows[i].other_record = (long)k;
            }
        }
    }
    audit->row_count = count;
    free(sorted);
    return true;
}

static bool group(struct plm_audit *audit, const struct plm_audit_options *options)
{
    size_t count;
    struct plmi_audit_run run = {.audit = audit, .options = options};
    struct plmi_audited_dive **dives = dives_list(audit, &count);
    if (dives == NULL) {
        return false;
    }
    plmi_pair_rows(dives, count, options->jobs);
    bool ok = plmi_team_rows(dives, count);
    if (ok) {
        plmi_doubt_rows(dives, count, options->jobs);
        plmi_day_rows(dives, count);
        ok = plmi_audit_compare_other_records(&run, dives, count) && rows_sort(audit, dives, count);
    }
    free(dives);
    return ok;
}

static bool troubles_list(struct plm_audit *audit)
{
    audit->passed_over = audit->walk.others;
    audit->troubles = calloc(audit->walk.unseen_count + audit->file_count + 1, sizeof *audit->troubles);
    if (audit->troubles == NULL) {
        return false;
    }
    for (size_t i = 0; i < audit->walk.unseen_count; i++) {
        audit->troubles[audit->trouble_count++] =
            (struct plm_audit_trouble){audit->walk.unseen[i].path, audit->walk.unseen[i].text, false, true};
    }
    for (size_t i = 0; i < audit->file_count; i++) {
        const struct plmi_audited_file *file = &audit->files[i];
        audit->passed_over += file->passed_over && !plmi_companions_is_card(file->path);
        audit->read += file->count > 0;
        if (file->trouble.file != NULL) {
            audit->troubles[audit->trouble_count++] = file->trouble;
        }
    }
    return true;
}

static enum plm_status walk_all(struct plm_audit *audit, const char *const *paths, size_t count,
                                const struct plm_diag_sink *sink)
{
    struct plmi_fold fold;
    struct plmi_diags diags;
    enum plm_status worst = PLM_STATUS_OK;
    plmi_fold_init(&fold, sink, NULL);
    plmi_diags_init(&diags, &fold.sink, NULL);
    for (size_t i = 0; i < count && worst != PLM_STATUS_MEMORY; i++) {
        enum plm_status status = plmi_file_walk_path(&audit->walk, paths[i], &diags);
        worst = status != PLM_STATUS_OK ? status : worst;
    }
    plmi_fold_finish(&fold);
    return worst;
}

struct plm_audit_options plm_audit_options_default(const struct plm_debrief_options *debrief)
{
    return (struct plm_audit_options){.debrief = debrief, .jobs = 1, .since_ms = INT64_MIN};
}

enum plm_status plm_audit(struct plm_audit **out, const char *const *paths, size_t count,
                          const struct plm_audit_options *options, const struct plm_diag_sink *sink)
{
    struct plm_audit *audit = calloc(1, sizeof *audit);
    *out = NULL;
    if (audit == NULL) {
        return no_memory(sink);
    }
    plmi_arena_init(&audit->arena);
    audit->walk.arena = &audit->arena;
    enum plm_status status = walk_all(audit, paths, count, sink);
    bool ok = status != PLM_STATUS_MEMORY && files_init(audit, options->debrief->rules) && run_files(audit, options) &&
              group(audit, options) && troubles_list(audit);
    if (!ok) {
        plm_audit_free(audit);
        return no_memory(sink);
    }
    *out = audit;
    return audit->failed ? PLM_STATUS_IO : status;
}

const struct plm_audit_row *plm_audit_rows(const struct plm_audit *audit, size_t *count)
{
    *count = audit->row_count;
    return audit->rows;
}

const struct plm_audit_trouble *plm_audit_troubles(const struct plm_audit *audit, size_t *count)
{
    *count = audit->trouble_count;
    return audit->troubles;
}

size_t plm_audit_passed_over(const struct plm_audit *audit)
{
    return audit->passed_over;
}

size_t plm_audit_files(const struct plm_audit *audit)
{
    return audit->read;
}

void plm_audit_free(struct plm_audit *audit)
{
    if (audit == NULL) {
        return;
    }
    for (size_t i = 0; i < audit->file_count; i++) {
        plmi_audited_file_free(&audit->files[i]);
    }
    free(audit->files);
    free(audit->rows);
    free(audit->troubles);
    plmi_file_walk_free(&audit->walk);
    plmi_arena_free(&audit->arena);
    free(audit);
}
