/*
 * What a run comes to for whoever started the program.
 * SPDX-License-Identifier: MIT
 */
#include "cli/command.h"

enum plmi_cli_exit plmi_cli_worse(enum plmi_cli_exit a, enum plmi_cli_exit b)
{
    return a > b ? a : b;
}

enum plmi_cli_exit plmi_cli_exit_of(enum plm_status status)
{
    if (status == PLM_STATUS_OK || status == PLM_STATUS_END) {
        return PLMI_CLI_EXIT_CLEAR;
    }
    return status == PLM_STATUS_MEMORY || status == PLM_STATUS_ARGUMENT ? PLMI_CLI_EXIT_TROUBLE : PLMI_CLI_EXIT_PARTIAL;
}
