/*
 * The files below some paths, in a settled order. Opens no file.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_WALK_H
#define PLM_TEAM_WALK_H

#include <stddef.h>

#include <plimsoll/status.h>

#include "base/arena.h"
#include "base/report.h"

/* Paths live in the arena. others: things that are no regular files (pipes, devices, links to folders), passed over. */
struct plmi_walk { struct plmi_arena *arena; const char **files; size_t count, capacity, others; };

/*
 * Adds the files of a path: itself, or all below a folder, sorted by name, hidden ones left out. Folders nested deeper than
 * 64 are not entered. A path given by name that is not there is an error; one that vanishes during the walk is passed over.
 * Returns: OK, IO (reported: the path itself cannot be read), MEMORY.
 */
enum plm_status plmi_walk_path(struct plmi_walk *walk, const char *path, struct plmi_report *report);
void plmi_walk_free(struct plmi_walk *walk);

#endif
