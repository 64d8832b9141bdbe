/*
 * Work shared out over threads. Knows nothing of dives.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_TEAM_JOBS_H
#define PLM_TEAM_JOBS_H

#include <stddef.h>

/*
 * Calls work(context, i) once for each i below count, on up to threads threads at a time; begins with the lowest i.
 * Comes back when all are done. Where no thread can be made the caller's does the work.
 *   threads  1..256
 */
void plmi_jobs_run(size_t count, size_t threads, void (*work)(void *context, size_t i), void *context);

#endif
