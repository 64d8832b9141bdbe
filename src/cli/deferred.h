/*
 * Diagnostics held back until it is known whether they matter.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_DEFERRED_H
#define PLM_CLI_DEFERRED_H

#include <stdbool.h>
#include <stddef.h>

#include <plimsoll/diag.h>

/* Lives where it was initialised. */
struct plmi_cli_deferred {
    struct plm_diag_sink sink; /* takes them */
    const struct plm_diag_sink *to;
    const char *log;                      /* borrowed: what they are about; beside it lie cards and plans */
    struct plmi_cli_deferred_diag *items; /* [count]; NULL once passed on */
    size_t count, capacity;
    bool refused; /* there were errors, all of which say that it is no log */
    bool open;    /* held no longer: all goes straight on */
};

void plmi_cli_deferred_init(struct plmi_cli_deferred *held, const char *log, const struct plm_diag_sink *to);
/* Passes on what was held, and from here on all that comes. */
void plmi_cli_deferred_pass(struct plmi_cli_deferred *held);
/* Forgets what is still held. */
void plmi_cli_deferred_free(struct plmi_cli_deferred *held);

#endif
