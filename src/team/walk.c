/*
 * Walks folders. Follows a link to a file, never one to a folder, so that no loop of links can hold it.
 * SPDX-License-Identifier: MIT
 */
#include "team/walk.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "io/system_text.h"

#define NESTING_MAX 64

enum kind { KIND_FILE, KIND_FOLDER, KIND_OTHER, KIND_GONE };

static enum kind kind_of(const char *path, bool named)
{
    struct stat facts;
    bool link = false;
    if (lstat(path, &facts) != 0)
        return KIND_GONE;
    if (S_ISLNK(facts.st_mode)) {
        link = true;
        if (stat(path, &facts) != 0)
            return KIND_GONE;
    }
    if (S_ISREG(facts.st_mode))
        return KIND_FILE;
    return S_ISDIR(facts.st_mode) && (named || !link) ? KIND_FOLDER : KIND_OTHER;
}

static bool add_file(struct plmi_walk *walk, const char *path)
{
    void *files = walk->files;
    if (!plmi_array_grow(&files, &walk->capacity, walk->count, sizeof *walk->files))
        return false;
    walk->files = files;
    const char *copy = plmi_arena_text(walk->arena, path, strlen(path));
    if (copy)
        walk->files[walk->count++] = copy;
    return copy != NULL;
}

/* Names in a folder, sorted; each on the heap. */
struct names { char **items; size_t count, capacity; };

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void names_free(struct names *names)
{
    for (size_t i = 0; i < names->count; i++)
        free(names->items[i]);
    free(names->items);
}

static bool names_add(struct names *names, const char *name)
{
    void *items = names->items;
    if (!plmi_array_grow(&items, &names->capacity, names->count, sizeof *names->items))
        return false;
    names->items = items;
    size_t size = strlen(name) + 1;
    char *copy = malloc(size);
    if (copy)
        names->items[names->count++] = memcpy(copy, name, size);
    return copy != NULL;
}

static bool names_read(struct names *names, DIR *folder)
{
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
        if (entry->d_name[0] != '.' && !names_add(names, entry->d_name))
            return false;
    if (names->count > 1)
        qsort(names->items, names->count, sizeof *names->items, by_name);
    return true;
}

static bool walk_any(struct plmi_walk *walk, const char *path, bool named, int nesting);

static bool walk_folder(struct plmi_walk *walk, const char *path, int nesting)
{
    struct names names = {0};
    struct plmi_text below;
    DIR *folder = nesting < NESTING_MAX ? opendir(path) : NULL;
    if (!folder) {
        walk->others++;
        return true;
    }
    bool ok = names_read(&names, folder);
    closedir(folder);
    plmi_text_init(&below);
    for (size_t i = 0; ok && i < names.count; i++) {
        size_t length = strlen(path);
        plmi_text_clear(&below);
        plmi_text_puts(&below, path);
        plmi_text_puts(&below, length > 0 && path[length - 1] == '/' ? "" : "/");
        plmi_text_puts(&below, names.items[i]);
        ok = !below.failed && walk_any(walk, below.bytes, false, nesting + 1);
    }
    plmi_text_free(&below);
    names_free(&names);
    return ok;
}

static bool walk_any(struct plmi_walk *walk, const char *path, bool named, int nesting)
{
    switch (kind_of(path, named)) {
    case KIND_FILE:
        return add_file(walk, path);
    case KIND_FOLDER:
        return walk_folder(walk, path, nesting);
    case KIND_OTHER:
    case KIND_GONE:
        break;
    }
    walk->others++;
    return true;
}

static bool readable_folder(const char *path)
{
    DIR *folder = opendir(path);
    if (folder)
        closedir(folder);
    return folder != NULL;
}

enum plm_status plmi_walk_path(struct plmi_walk *walk, const char *path, struct plmi_report *report)
{
    enum kind kind = kind_of(path, true);
    int number = errno;
    if (kind == KIND_FOLDER && !readable_folder(path)) {
        number = errno;
        kind = KIND_GONE;
    }
    if (kind == KIND_GONE) {
        report->file = path;
        plmi_report_add(report, PLM_LEVEL_ERROR, PLM_DIAG_FILE_MISSING, 0, 0, "cannot be read: %s; passed over", plmi_system_text(number));
        return PLM_STATUS_IO;
    }
    if (!walk_any(walk, path, true, 0)) {
        plmi_report_add(report, PLM_LEVEL_ERROR, PLM_DIAG_MEMORY, 0, 0, "no memory for the list of files");
        return PLM_STATUS_MEMORY;
    }
    return PLM_STATUS_OK;
}

void plmi_walk_free(struct plmi_walk *walk)
{
    free(walk->files);
    walk->files = NULL;
    walk->count = 0;
}
