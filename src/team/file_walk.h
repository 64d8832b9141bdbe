/*
 * The files below some paths, in a settled order. Opens no file.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_FILE_WALK_H
#define PLM_TEAM_FILE_WALK_H

#include <stddef.h>

#include <plimsoll/status.h>

#include "base/arena.h"
#include "base/diags.h"

/* What could not be looked at, and why, as the diagnostic said it. */
struct plmi_unseen {
    const char *path, *text;
};

/* Paths and texts live in the arena. others: links to folders that are searched anyhow, and what vanished meanwhile. */
struct plmi_file_walk {
    struct plmi_arena *arena;
    const char **files;
    size_t count, capacity, others;
    struct plmi_unseen *unseen;
    size_t unseen_count, unseen_capacity;
    struct plmi_diags *diags; /* of the walk going on, and its path */
    const char *root;
};

/*
 * Adds the files of a path: itself, or all below a folder, sorted by name, hidden ones left out. Folders nested deeper
 * than 64 are not entered. What is neither a file nor a folder, or cannot be read, is an error: a pipe, a device, a
 * link that leads nowhere or to a folder outside, a folder too deep. What vanishes during the walk is passed over.
 * Returns: OK, IO (each reported, and in unseen), MEMORY.
 */
enum plm_status plmi_file_walk_path(struct plmi_file_walk *walk, const char *path, struct plmi_diags *diags);
void plmi_file_walk_free(struct plmi_file_walk *walk);

#endif
