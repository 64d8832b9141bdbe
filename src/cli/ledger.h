/*
 * What the commands over the exposure ledger share: the open ledger, and what is reported on it.
 * Includes public headers of the library only.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_CLI_LEDGER_H
#define PLM_CLI_LEDGER_H

#include <plimsoll/logbook.h>

#include "cli/command.h"

struct plmi_cli_ledger {
    struct plmi_cli_call *call;
    struct plm_ledger *file;
    struct plm_logbook *logbook;
    enum plm_status opened; /* what opening came to */
};

/* --ledger FILE, else $PLIMSOLL_LEDGER, else the one in the XDG data home, as a path in buffer or elsewhere; NULL:
 * there is no home for one. */
const char *plmi_cli_ledger_path(const struct plmi_cli_settings *settings, char *buffer, size_t size);
/* Opens --ledger FILE, else $PLIMSOLL_LEDGER, else the one in the XDG data home. Returns: false when reported. */
bool plmi_cli_ledger_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call, enum plm_ledger_mode mode);
void plmi_cli_ledger_close(struct plmi_cli_ledger *ledger);

/* Tells of the ledger on standard error, as diagnostics are. printf for strings and integers. */
void plmi_cli_ledger_tell(struct plmi_cli_ledger *ledger, enum plm_level level, const char *file, const char *format,
                          ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 4, 5)))
#endif
    ;
/* All dives of a diver who has any; who has none is reported with who has: INPUT. The caller frees *out. */
enum plm_status plmi_cli_ledger_entries(struct plmi_cli_ledger *ledger, const char *diver, struct plm_entries **out);

/* --ledger and --diver for commands that begin with what it knows; --ledger alone; --diver for what is added. */
extern const struct plmi_cli_options plmi_cli_options_carried;
extern const struct plmi_cli_options plmi_cli_options_ledger;
extern const struct plmi_cli_options plmi_cli_options_adding;

/* Opens the ledger for a debrief where it is asked for, and lets the debrief begin with what it knows. Returns: false
 * when reported. */
bool plmi_cli_carried_open(struct plmi_cli_ledger *ledger, struct plmi_cli_call *call,
                           struct plm_debrief_options *options);

/* The commands over the ledger, one file each. */
extern const struct plmi_cli_command plmi_cli_command_ledger_add;
extern const struct plmi_cli_command plmi_cli_command_ledger_list;
extern const struct plmi_cli_command plmi_cli_command_ledger_show;
extern const struct plmi_cli_command plmi_cli_command_ledger_due;
extern const struct plmi_cli_command plmi_cli_command_ledger_export;
extern const struct plmi_cli_command plmi_cli_command_ledger_remove;
extern const struct plmi_cli_command plmi_cli_command_ledger_check;

#endif
