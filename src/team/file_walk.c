/*
 * Walks folders. Follows a link to a file, never one to a folder, so that no loop of links can hold it.
 * SPDX-License-Identifier: MIT
 */
#include "team/file_walk.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "io/system_text.h"
#include "log/within.h"

#define NESTING_MAX 64

enum kind { KIND_FILE, KIND_FOLDER, KIND_FOLDER_LINK, KIND_OTHER, KIND_NOWHERE, KIND_GONE, KIND_UNREAD };

/* errno is that of the failure for the last three. */
static enum kind kind_of(const char *path, bool named)
{
    struct stat facts;
    bool link = false;
    if (lstat(path, &facts) != 0) {
        return errno == ENOENT && !named ? KIND_GONE : KIND_UNREAD;
    }
    if (S_ISLNK(facts.st_mode)) {
        link = true;
        if (stat(path, &facts) != 0) {
            return errno == ENOENT ? KIND_NOWHERE : KIND_UNREAD;
        }
    }
    if (S_ISREG(facts.st_mode)) {
        return KIND_FILE;
    }
    if (!S_ISDIR(facts.st_mode)) {
        return KIND_OTHER;
    }
    return named || !link ? KIND_FOLDER : KIND_FOLDER_LINK;
}

/* Reports what could not be looked at, and keeps it. Returns: false without memory. */
static bool unseen_add(struct plmi_file_walk *walk, const char *path, const char *text)
{
    void *items = walk->unseen;
    char line[1024];
    const struct plm_diag diag = {PLM_LEVEL_ERROR, PLM_DIAG_FILE_MISSING, {.file = path}, text};
    if (!plmi_array_grow(&items, &walk->unseen_capacity, walk->unseen_count, sizeof *walk->unseen)) {
        return false;
    }
    walk->unseen = items;
    const struct plmi_diags diags = {walk->diags->sink, path};
    plmi_diags_add(&diags, diag.level, diag.id, 0, 0, "%s", text);
    (void)plm_diag_format(&diag, line, sizeof line);
    const struct plmi_unseen unseen = {plmi_arena_text(walk->arena, path, strlen(path)),
                                       plmi_arena_text(walk->arena, line, strlen(line))};
    if (unseen.path == NULL || unseen.text == NULL) {
        return false;
    }
    walk->unseen[walk->unseen_count++] = unseen;
    return true;
}

static bool unread(struct plmi_file_walk *walk, const char *path, int number)
{
    char text[200];
    (void)snprintf(text, sizeof text, "cannot be read: %s; passed over", plmi_system_text(number));
    return unseen_add(walk, path, text);
}

/* A link to a folder that is searched anyhow loses nothing. */
static bool folder_link(struct plmi_file_walk *walk, const char *path)
{
    struct plmi_text root;
    plmi_text_init(&root);
    plmi_text_printf(&root, "%s/.", walk->root);
    bool searched = false, ok = !root.failed && plmi_within_folder_of(&searched, path, root.bytes);
    plmi_text_free(&root);
    walk->others += searched;
    return ok && (searched ||
                  unseen_add(walk, path, "leads to a folder outside, which is not searched; name that folder too"));
}

static bool add_file(struct plmi_file_walk *walk, const char *path)
{
    void *files = walk->files;
    if (!plmi_array_grow(&files, &walk->capacity, walk->count, sizeof *walk->files)) {
        return false;
    }
    walk->files = files;
    const char *copy = plmi_arena_text(walk->arena, path, strlen(path));
    if (copy != NULL) {
        walk->files[walk->count++] = copy;
    }
    return copy != NULL;
}

/* Names in a folder, sorted; each on the heap. */
struct names {
    char **items;
    size_t count, capacity;
};

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void names_free(struct names *names)
{
    for (size_t i = 0; i < names->count; i++) {
        free(names->items[i]);
    }
    free(names->items);
}

static bool names_add(struct names *names, const char *name)
{
    void *items = names->items;
    if (!plmi_array_grow(&items, &names->capacity, names->count, sizeof *names->items)) {
        return false;
    }
    names->items = items;
    size_t size = strlen(name) + 1;
    char *copy = malloc(size);
    if (copy != NULL) {
        names->items[names->count++] = memcpy(copy, name, size);
    }
    return copy != NULL;
}

/* number [out] why not all names could be read, 0 else. Returns: false without memory. */
static bool names_read(struct names *names, DIR *folder, int *number)
{
    const struct dirent *entry;
    errno = 0;
    while ((entry = readdir(folder)) != NULL) {
        if (entry->d_name[0] != '.' && !names_add(names, entry->d_name)) {
            return false;
        }
        errno = 0;
    }
    *number = errno;
    if (names->count > 1) {
        qsort(names->items, names->count, sizeof *names->items, by_name);
    }
    return true;
}

static bool walk_any(struct plmi_file_walk *walk, const char *path, bool named, int nesting);

static bool walk_folder(struct plmi_file_walk *walk, const char *path, int nesting)
{
    struct names names = {0};
    struct plmi_text below;
    int number = 0;
    if (nesting >= NESTING_MAX) {
        return unseen_add(walk, path, "lies too deep in folders; passed over: name it to have it searched");
    }
    DIR *folder = opendir(path);
    if (folder == NULL) {
        return unread(walk, path, errno);
    }
    bool ok = names_read(&names, folder, &number);
    closedir(folder);
    ok = ok && (number == 0 || unread(walk, path, number));
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

static bool walk_any(struct plmi_file_walk *walk, const char *path, bool named, int nesting)
{
    switch (kind_of(path, named)) {
    case KIND_FILE: return add_file(walk, path);
    case KIND_FOLDER: return walk_folder(walk, path, nesting);
    case KIND_FOLDER_LINK: return folder_link(walk, path);
    case KIND_OTHER: return unseen_add(walk, path, "is no regular file; passed over");
    case KIND_NOWHERE: return unseen_add(walk, path, "is a link that leads nowhere; passed over");
    case KIND_UNREAD: return unread(walk, path, errno);
    case KIND_GONE: break;
    }
    walk->others++;
    return true;
}

enum plm_status plmi_file_walk_path(struct plmi_file_walk *walk, const char *path, struct plmi_diags *diags)
{
    size_t before = walk->unseen_count;
    walk->diags = diags;
    walk->root = path;
    if (!walk_any(walk, path, true, 0)) {
        return plmi_diags_no_memory(diags, 0, "for the list of files");
    }
    return walk->unseen_count > before ? PLM_STATUS_IO : PLM_STATUS_OK;
}

void plmi_file_walk_free(struct plmi_file_walk *walk)
{
    free(walk->files);
    free(walk->unseen);
    walk->files = NULL;
    walk->unseen = NULL;
    walk->count = walk->unseen_count = 0;
}
