/*
 * How far a long run has come: one line on standard error that is rewritten, on a terminal alone; nothing otherwise.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_PROGRESS_H
#define PLM_CLI_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

/* Zeroed: nothing is shown. */
struct plmi_cli_progress {
    bool terminal;
    int columns;
}; /* columns: of the line that stands there now, 0 none */

/* Asks whether standard error is a terminal. */
void plmi_cli_progress_init(struct plmi_cli_progress *progress);
/* "12 of 340 logs": writes the line anew. One alone is not worth a line. */
void plmi_cli_progress_show(struct plmi_cli_progress *progress, size_t done, size_t count, const char *what);
/* Takes the line away: before anything else is written where it stands, and at the end. */
void plmi_cli_progress_hide(struct plmi_cli_progress *progress);

#endif
