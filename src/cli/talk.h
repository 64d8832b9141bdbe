/*
 * What the program says on standard error, and how bad it was.
 * Must not write to standard output.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_TALK_H
#define PLM_CLI_TALK_H

#include <plimsoll/diag.h>

#include "cli/progress.h"

/* Prints each diagnostic that its sink is given. Lives where it was initialised. */
struct plmi_cli_talk {
    struct plm_diag_sink sink;
    long warnings, errors;
    struct plmi_cli_progress progress; /* its line makes way for what is said */
};

void plmi_cli_talk_init(struct plmi_cli_talk *talk);
/* One diagnostic about the use of the program: "plimsoll: error: text [usage]". printf for strings and integers. */
void plmi_cli_talk_usage(struct plmi_cli_talk *talk, enum plm_level level, const char *format, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 3, 4)))
#endif
    ;

#endif
