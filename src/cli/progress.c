/*
 * The line of progress. Must not know what is counted.
 * SPDX-License-Identifier: MIT
 */
#include "cli/progress.h"

#include <stdio.h>
#include <unistd.h>

void plmi_cli_progress_init(struct plmi_cli_progress *progress)
{
    *progress = (struct plmi_cli_progress){.terminal = isatty(STDERR_FILENO) == 1};
}

void plmi_cli_progress_show(struct plmi_cli_progress *progress, size_t done, size_t count, const char *what)
{
    if (!progress->terminal || count < 2) {
        return;
    }
    plmi_cli_progress_hide(progress);
    progress->columns = fprintf(stderr, "%zu of %zu %s", done, count, what);
    fflush(stderr);
}

void plmi_cli_progress_hide(struct plmi_cli_progress *progress)
{
    if (progress->columns > 0) {
        fprintf(stderr, "\r%*s\r", progress->columns, "");
    }
    progress->columns = 0;
}
