/*
 * The table of commands, in the order of --help.
 * SPDX-License-Identifier: MIT
 */
#include "cli/command.h"

static const struct plmi_cli_command *const commands[] = {
    &plmi_cli_command_debrief,  &plmi_cli_command_trace,     &plmi_cli_command_rules, &plmi_cli_command_explain,
    &plmi_cli_command_formats,  &plmi_cli_command_reconcile, &plmi_cli_command_audit, &plmi_cli_command_export,
    &plmi_cli_command_handover, &plmi_cli_command_ledger,
};

const struct plmi_cli_command *const *plmi_cli_commands(size_t *count)
{
    *count = sizeof commands / sizeof commands[0];
    return commands;
}
