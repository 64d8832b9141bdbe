/*
 * plimsoll ledger: the commands over the exposure ledger as a table. Must not do anything itself.
 * SPDX-License-Identifier: MIT
 */
#include "cli/ledger.h"

static const struct plmi_cli_options *const no_options[] = {NULL};

static const struct plmi_cli_command *const parts[] = {
    &plmi_cli_command_ledger_add,    &plmi_cli_command_ledger_list,
    &plmi_cli_command_ledger_show,   &plmi_cli_command_ledger_due,
    &plmi_cli_command_ledger_export, &plmi_cli_command_ledger_remove,
    &plmi_cli_command_ledger_check,  NULL,
};

const struct plmi_cli_command plmi_cli_command_ledger = {
    .name = "ledger",
    .operands = "COMMAND",
    .summary = "Keeps every diver's dives: what each carries, day by day and into the next dive",
    .options = no_options,
    .parts = parts,
};
