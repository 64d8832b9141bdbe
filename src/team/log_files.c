/*
 * Finds the files that can be logs. Must not open any of them.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/log_files.h>

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/fold.h"
#include "log/companions.h"
#include "team/file_walk.h"

struct plm_log_files {
    struct plmi_arena arena;
    struct plmi_file_walk walk;
    struct plm_log_file *items;
    size_t count, capacity;
    const char **beside; /* cards and plans */
    size_t beside_count, beside_capacity;
};

static bool add(struct plm_log_files *files, const char *path, bool named)
{
    void *items = files->items;
    const char *copy = plmi_arena_text(&files->arena, path, strlen(path));
    if (copy == NULL || !plmi_array_grow(&items, &files->capacity, files->count, sizeof *files->items)) {
        return false;
    }
    files->items = items;
    files->items[files->count++] = (struct plm_log_file){copy, named};
    return true;
}

static bool add_beside(struct plm_log_files *files, const char *path)
{
    void *items = files->beside;
    const char *copy = plmi_arena_text(&files->arena, path, strlen(path));
    if (copy == NULL || !plmi_array_grow(&items, &files->beside_capacity, files->beside_count, sizeof *files->beside)) {
        return false;
    }
    files->beside = items;
    files->beside[files->beside_count++] = copy;
    return true;
}

static void strike(struct plm_log_files *files, size_t first, const char *path)
{
    for (size_t i = first; i < files->count; i++) {
        if (files->items[i].path != NULL && strcmp(files->items[i].path, path) == 0) {
            files->items[i].path = NULL;
        }
    }
}

/* Takes cards and the plans that they name out of what was found from first on. Returns: false without memory. */
static bool strike_beside(struct plm_log_files *files, size_t first, const struct plm_rules *rules)
{
    for (size_t i = first; i < files->count; i++) {
        const char *path = files->items[i].path;
        char *plan;
        if (path == NULL || !plmi_companions_is_card(path)) {
            continue;
        }
        bool ok = plmi_companions_plan_named(&plan, path, rules) && add_beside(files, path) &&
                  (plan == NULL || add_beside(files, plan));
        if (plan != NULL) {
            strike(files, first, plan);
        }
        free(plan);
        if (!ok) {
            return false;
        }
        files->items[i].path = NULL;
    }
    size_t kept = first;
    for (size_t i = first; i < files->count; i++) {
        if (files->items[i].path != NULL) {
            files->items[kept++] = files->items[i];
        }
    }
    files->count = kept;
    return true;
}

static bool is_folder(const char *path)
{
    struct stat facts;
    return stat(path, &facts) == 0 && S_ISDIR(facts.st_mode);
}

/* One path: itself, or what lies below it. */
static enum plm_status find(struct plm_log_files *files, const char *path, const struct plm_rules *rules,
                            struct plmi_diags *diags)
{
    size_t first = files->count, walked = files->walk.count;
    if (!is_folder(path)) {
        return add(files, path, true) ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
    }
    enum plm_status status = plmi_file_walk_path(&files->walk, path, diags);
    bool ok = status != PLM_STATUS_MEMORY;
    for (size_t i = walked; ok && i < files->walk.count; i++) {
        ok = add(files, files->walk.files[i], false);
    }
    return ok && strike_beside(files, first, rules) ? status : PLM_STATUS_MEMORY;
}

enum plm_status plm_log_files_find(struct plm_log_files **out, const char *const *paths, size_t count,
                                   const struct plm_rules *rules, const struct plm_diag_sink *sink)
{
    struct plm_log_files *files = calloc(1, sizeof *files);
    struct plmi_fold fold;
    struct plmi_diags diags;
    enum plm_status worst = files != NULL ? PLM_STATUS_OK : PLM_STATUS_MEMORY;
    plmi_fold_init(&fold, sink, NULL);
    plmi_diags_init(&diags, &fold.sink, NULL);
    for (size_t i = 0; worst != PLM_STATUS_MEMORY && i < count; i++) {
        if (i == 0) {
            plmi_arena_init(&files->arena);
            files->walk.arena = &files->arena;
        }
        enum plm_status status = find(files, paths[i], rules, &diags);
        worst = status != PLM_STATUS_OK ? status : worst;
    }
    if (worst == PLM_STATUS_MEMORY) {
        (void)plmi_diags_no_memory(&diags, 0, "for the list of files");
        plm_log_files_free(files);
        files = NULL;
    }
    plmi_fold_finish(&fold);
    *out = files;
    return worst;
}

const struct plm_log_file *plm_log_files_get(const struct plm_log_files *files, size_t *count)
{
    *count = files->count;
    return files->items;
}

const char *const *plm_log_files_companions(const struct plm_log_files *files, size_t *count)
{
    *count = files->beside_count;
    return files->beside;
}

bool plm_log_files_refusal(enum plm_diag_id id)
{
    static const enum plm_diag_id refusals[] = {PLM_DIAG_EMPTY,          PLM_DIAG_FORMAT_UNKNOWN,
                                                PLM_DIAG_FORMAT_REFUSED, PLM_DIAG_COLUMN_MISSING,
                                                PLM_DIAG_CSV_HEADER,     PLM_DIAG_FILE_KIND};
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        if (refusals[i] == id) {
            return true;
        }
    }
    return false;
}

void plm_log_files_free(struct plm_log_files *files)
{
    if (files == NULL) {
        return;
    }
    plmi_file_walk_free(&files->walk);
    plmi_arena_free(&files->arena);
    free(files->items);
    free(files->beside);
    free(files);
}
